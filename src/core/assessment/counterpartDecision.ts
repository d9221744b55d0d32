import { chanceWithin, type Crossing } from '../forecast/crossing.js';
import { chanceBelow, type NormalMixture } from '../forecast/normal.js';
import { leftUntil, replacesLinings } from '../lives.js';
import { inWords, roundMm } from '../rounding.js';
import { chanceInWords, termInWords } from '../words.js';
import type { Axle } from '../vocabulary/terms.js';
import type { DecisionReason, RotorWear } from '../vocabulary/wear.js';
import type { Counterpart } from './counterpart.js';
import { isFittedBeyondLimit, isFittedNew, type CounterpartPosition } from './counterpartPosition.js';
import type { AxleContext } from './padPosition.js';
import { WORTH_NAMING } from './counterpartFindings.js';

type Decision = RotorWear['decision'];

export interface Margins {
  atLiningReplacement: NormalMixture | null;
  afterNextLiningSet: NormalMixture | null;
}

interface Deciding {
  margin: keyof Margins;
  why: string;
  /** Whether the pads are due or being replaced, so that the rotor must last another whole set. */
  decides: boolean;
  /** Index of the latest visit. */
  latestVisit: number;
}

/**
 * Which margin decides. If the pads are due, or more likely than not will be by the next visit, the rotor must last the
 * set that follows; if they were replaced at the latest visit, it must last the set now fitted. While the pads have
 * life left, the decision waits: the rotor is measured again before they are due.
 */
export function decidingSet(
  { history, daysToNextVisit }: AxleContext,
  axle: Axle,
  crossing: Crossing | null,
): Deciding {
  const latestVisit = history.visits.length - 1;
  const replacedNow = history.visits.at(-1)?.work.some((item) => replacesLinings(item, axle)) ?? false;
  if (replacedNow)
    return {
      margin: 'atLiningReplacement',
      why: 'the pads fitted at the latest visit are',
      decides: true,
      latestVisit,
    };
  if (crossing && chanceWithin(crossing, daysToNextVisit) >= 0.5) {
    return {
      margin: 'afterNextLiningSet',
      why: 'the set of pads after the one now due is',
      decides: true,
      latestVisit,
    };
  }
  return { margin: 'atLiningReplacement', why: 'the pads now fitted are', decides: false, latestVisit };
}

export interface Decided {
  decision: Decision;
  reasons: DecisionReason[];
}

/** With fewer points around a face, the thinnest may have been missed (common practice, no source). */
const ENOUGH_POINTS = 4;

/** How much thinner than the thinnest of these few points the face may be, mm (common practice, no source). */
const MISSED_THINNEST_MM = 0.3;

/** Why rotors are replaced with the linings, not before. */
export const WOULD_NOT_LAST = 'would-not-last';

/** Why they are replaced before that. */
export const LIMIT_BEFORE_NEXT_VISIT = 'limit-before-next-visit';

/** What machining removes to clean up both faces, mm (common practice, no source). */
const CLEAN_UP_MM = 0.3;

export function decide(position: CounterpartPosition, margins: Margins, deciding: Deciding): Decided {
  const { decision, reasons } = decideByThickness(position, margins, deciding);
  const first = reasons[0]!.code;
  const [damage, wobble] = [machiningReason(position), runoutReason(position)];
  if (decision === 'keep') return wobble ? byRunout(position, wobble, reasons) : { decision, reasons };
  // Replacing a rotor fixes everything else that is wrong with it.
  if (decision === 'replace') return { decision, reasons };
  const also = [damage, wobble].filter(
    (reason): reason is DecisionReason => reason !== null && reason.code !== first,
  );
  return { decision, reasons: [...reasons, ...also] };
}

/** The decision apart from run-out, so that run-out never hides it. */
function decideByThickness(position: CounterpartPosition, margins: Margins, deciding: Deciding): Decided {
  const { latest, limitMm, conformity, cracked, counterpart } = position;
  const { part, limit, beyond, code } = counterpart;
  if (cracked) return decided('replace', 'cracked', `a cracked ${part} is always replaced`);
  if (limitMm === null)
    return decided('measure', `no-${code}`, `no ${limit} is known: read the mark on the ${part}`);
  if (!latest) return decideUnmeasured(position, margins, deciding);
  const figures = figuresOf(position);
  const marginMm = position.marginMm!;
  if (conformity === 'does-not-conform')
    return decided(
      'replace',
      `${beyond === 'under' ? 'below' : 'above'}-${code}`,
      `${figures}: ${inWords(-marginMm, 3)} mm ${beyond}`,
    );
  const settled = decideUnsettled(position, figures);
  if (settled) return settled;
  const margin = margins[deciding.margin];
  const worn = wornOut(margin, deciding, 0, counterpart);
  const soon = passesBeforeNextVisit(position);
  if (worn?.decision === 'replace')
    return { decision: 'replace', reasons: [...worn.reasons, ...(soon?.reasons ?? [])] };
  if (soon) return soon;
  if (position.points < ENOUGH_POINTS && marginMm < MISSED_THINNEST_MM) {
    return decided(
      'measure',
      'too-few-points',
      `${figures}, from ${position.points} of at least ${ENOUGH_POINTS} points round the face`,
    );
  }
  const machining = machiningReason(position);
  if (machining) return machine(position, machining, wornOut(margin, deciding, CLEAN_UP_MM, counterpart));
  return (
    worn ??
    decided(
      'keep',
      'margin',
      `${figures}: ${inWords(marginMm, 3)} mm ${counterpart.within} on ${latest.visit.date}`,
    )
  );
}

/** `thinnest point 26.8 mm, discard thickness 26 mm`. */
function figuresOf(position: CounterpartPosition): string {
  const { latest, limitMm, counterpart } = position;
  const { extreme, limit } = counterpart;
  return `${extreme} ${inWords(latest!.mm, 3)} mm, ${limit} ${inWords(limitMm!, 3)} mm`;
}

/** The readings do not show on which side of the discard figure the rotor is, or machining went too far. */
function decideUnsettled(position: CounterpartPosition, figures: string): Decided | null {
  const { conformity, standing, leftBeyondMachineToMm: leftMm, machineToMm, counterpart } = position;
  const { beyond, measure, code } = counterpart;
  if (leftMm !== null) {
    const detail = `left at ${inWords(leftMm, 3)} mm after machining, ${beyond} the machine-to ${measure} of ${inWords(machineToMm!, 3)} mm`;
    return decided('replace', `left-${beyond}-machine-to`, detail);
  }
  if (conformity === 'inconclusive') {
    const detail = `${figures}: too close to tell with this gauge; measure with a finer one`;
    return decided('measure', 'margin-inconclusive', detail);
  }
  if (!standing) return null;
  const detail = `${inWords(standing.reading.mm, 3)} mm was read on ${standing.date}, ${beyond} the ${counterpart.limit}, and no finer reading overrules it`;
  return decided('measure', `failed-${code}-before`, detail);
}

function decideUnmeasured(position: CounterpartPosition, margins: Margins, deciding: Deciding): Decided {
  const { present, counterpart, damaged, beforeNextVisit } = position;
  const { part, limit } = counterpart;
  if (isFittedBeyondLimit(position)) {
    const detail = `recorded as fitted new at ${inWords(present.startMm!)} mm, with a ${limit} of ${inWords(position.limitMm!, 3)} mm: measure it and read its marks`;
    return decided('measure', 'fitted-beyond-limit', detail);
  }
  if (!isFittedNew(present)) {
    return decided('measure', 'no-readings', 'not measured since it was fitted or first known');
  }
  const fittedAt = inWords(present.startMm!);
  if (damaged) {
    const detail = `the ${part} was found ${termInWords(damaged)} and has not been measured since it was fitted`;
    return decided('measure', damaged, detail);
  }
  const worn = wornOut(margins[deciding.margin], deciding, 0, counterpart);
  const soon = beforeNextVisit !== null && beforeNextVisit.chance >= WORTH_NAMING;
  // A part fitted at the latest visit is as specified.
  const isFittedNow = present.begunAt === deciding.latestVisit;
  if (!isFittedNow && (soon || worn?.decision === 'replace')) {
    const detail = `fitted here at ${fittedAt} mm and not measured since: it may be near its ${limit} by now`;
    return decided('measure', 'not-measured-since-fitted', detail);
  }
  return decided('keep', 'fitted-new', `fitted here at ${fittedAt} mm and not measured since`);
}

/** Replace now if it will more likely than not pass its limit before the next visit. */
function passesBeforeNextVisit(position: CounterpartPosition): Decided | null {
  const { beforeNextVisit: next, counterpart } = position;
  if (!next || next.chance < 0.5) return null;
  return decided(
    'replace',
    LIMIT_BEFORE_NEXT_VISIT,
    `${figuresOf(position)}: ${chanceInWords(next.chance)} chance of being ${counterpart.beyond} it by the next visit, about ${next.date}`,
  );
}

function runoutReason({
  runoutMm,
  runoutConformity,
  runoutAsked,
}: CounterpartPosition): DecisionReason | null {
  if (runoutConformity === null || runoutConformity === 'conforms') return null;
  const runout = `run-out ${inWords(runoutMm!, 4)} mm`;
  return runoutAsked && runoutConformity === 'does-not-conform'
    ? { code: 'runout-again', detail: `${runout} is over its limit again: measure the hub’s own run-out` }
    : { code: 'runout', detail: `${runout}: clean the hub, re-index the rotor and measure again` };
}

/** A rotor good in all else: measure once more; if it still runs out, machine it if possible. */
function byRunout(position: CounterpartPosition, wobble: DecisionReason, others: DecisionReason[]): Decided {
  const narrow = others.filter(({ code }) => code === 'narrow-margin');
  if (wobble.code === 'runout') return { decision: 'measure', reasons: [wobble, ...narrow] };
  const { decision, reasons } = machine(position, wobble, null);
  return { decision, reasons };
}

function decided(decision: Decision, code: string, detail: string): Decided {
  return { decision, reasons: [{ code, detail }] };
}

/**
 * Replace if the rotor, less an allowance, will more likely than not fail within the set about to begin; otherwise
 * warn.
 */
function wornOut(
  margin: NormalMixture | null,
  { why, decides }: Deciding,
  takenOffMm: number,
  { beyond, limit }: Counterpart,
): Decided | null {
  if (!margin) return null;
  const under = chanceBelow(margin, takenOffMm);
  const chance = `${chanceInWords(under)} chance of being ${beyond} the ${limit} before ${why} used up`;
  if (under >= 0.5 && decides) return decided('replace', WOULD_NOT_LAST, chance);
  return under >= 0.1 ? decided('keep', 'narrow-margin', `${chance}: measure at every visit`) : null;
}

function machiningReason({
  variationConformity,
  variationMm,
  damaged,
  counterpart: { part },
}: CounterpartPosition): DecisionReason | null {
  if (variationConformity === 'does-not-conform') {
    return {
      code: 'variation',
      detail: `thickness variation ${inWords(variationMm!, 3)} mm is over its limit`,
    };
  }
  return damaged ? { code: damaged, detail: `the ${part} was found ${termInWords(damaged)}` } : null;
}

/**
 * Offer machining only if the maker gives a machine-to thickness, enough is left for it, and the rest then lasts the
 * set about to begin.
 */
function machine(
  { latest, machineToMm, counterpart }: CounterpartPosition,
  reason: DecisionReason,
  wornAfter: Decided | null,
): Decided {
  if (machineToMm === null) {
    const detail = `no machine-to ${counterpart.measure} is known, so machining is not offered`;
    return { decision: 'replace', reasons: [reason, { code: 'no-machine-to', detail }] };
  }
  if (wornAfter?.decision === 'replace') {
    return { decision: 'replace', reasons: [reason, ...wornAfter.reasons] };
  }
  const left = roundMm(leftUntil(counterpart.wears, latest!.mm, machineToMm) - CLEAN_UP_MM);
  const detail = `machining takes off about ${CLEAN_UP_MM} mm and leaves ${inWords(left, 2)} mm ${counterpart.within} the machine-to ${counterpart.measure}`;
  return { decision: left >= 0 ? 'machine' : 'replace', reasons: [reason, { code: 'machine-to', detail }] };
}
