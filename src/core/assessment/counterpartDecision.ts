import { chanceWithin, type Crossing } from '../forecast/crossing.js';
import { chanceBelow, type NormalMixture } from '../forecast/normal.js';
import { isDrumBrake, leftUntil, replacesLinings } from '../lives.js';
import { inWords, roundMm } from '../rounding.js';
import { chanceInWords, countInWords, termInWords } from '../words.js';
import type { Axle } from '../vocabulary/terms.js';
import type { DecisionReason, RotorWear } from '../vocabulary/wear.js';
import type { Counterpart } from './counterpart.js';
import {
  isCompared,
  isFittedBeyondLimit,
  isFittedNew,
  type ComparedPosition,
  type CounterpartPosition,
} from './counterpartPosition.js';
import type { AxleContext } from './padPosition.js';
import { MIN_CHANCE_FOUND } from './counterpartFindings.js';

type Decision = RotorWear['decision'];

export interface Margins {
  atLiningReplacement: NormalMixture | null;
  afterNextLiningSet: NormalMixture | null;
}

interface Deciding {
  margin: keyof Margins;
  why: string;
  /** Whether the pads are due or were just replaced, so that the rotor must last another whole set. */
  decides: boolean;
  /** Index of the latest visit. */
  latestVisit: number;
}

/**
 * Chooses the margin that decides. If the pads are due, or more likely than not will be by the next visit, the rotor
 * must last the next set. If they were replaced at the latest visit, it must last the set now fitted. While the pads
 * have life left, the decision can wait, because the rotor is measured again before they are due.
 */
export function decidingSet(
  { history, daysToNextVisit }: AxleContext,
  axle: Axle,
  crossing: Crossing | null,
): Deciding {
  const latestVisit = history.visits.length - 1;
  const linings = isDrumBrake(history, axle) ? 'shoes' : 'pads';
  const replacedNow = history.visits.at(-1)?.work.some((item) => replacesLinings(item, axle)) ?? false;
  if (replacedNow)
    return {
      margin: 'atLiningReplacement',
      why: `the ${linings} fitted at the latest visit are`,
      decides: true,
      latestVisit,
    };
  if (crossing && chanceWithin(crossing, daysToNextVisit) >= 0.5) {
    return {
      margin: 'afterNextLiningSet',
      why: `the next set of ${linings} is`,
      decides: true,
      latestVisit,
    };
  }
  return { margin: 'atLiningReplacement', why: `the ${linings} now fitted are`, decides: false, latestVisit };
}

export interface Decided {
  decision: Decision;
  reasons: [DecisionReason, ...DecisionReason[]];
}

/** Fewer points around a face than this may miss the thinnest one (common practice, no source). */
const MIN_POINTS = 4;

/** How much thinner than the thinnest of so few points the face may be, mm (common practice, no source). */
const MISSED_THINNEST_MM = 0.3;

/** The reason for replacing rotors together with the linings, not before. */
export const WOULD_NOT_LAST = 'would-not-last';

/** The reason for replacing them before the linings. */
export const LIMIT_BEFORE_NEXT_VISIT = 'limit-before-next-visit';

/** How much machining removes to clean up both faces, mm (common practice, no source). */
const CLEAN_UP_MM = 0.3;

export function decide(position: CounterpartPosition, margins: Margins, deciding: Deciding): Decided {
  const { decision, reasons } = decideByThickness(position, margins, deciding);
  const first = reasons[0].code;
  const [damage, runout] = [machiningReason(position), runoutReason(position)];
  if (decision === 'keep') return runout ? decideByRunout(position, runout, reasons) : { decision, reasons };
  // Replacing a rotor fixes everything else that is wrong with it.
  if (decision === 'replace') return { decision, reasons };
  const also = [damage, runout].filter(
    (reason): reason is DecisionReason => reason !== null && reason.code !== first,
  );
  return { decision, reasons: [...reasons, ...also] };
}

/** Decides without run-out, so that run-out never hides a worse fault. */
function decideByThickness(position: CounterpartPosition, margins: Margins, deciding: Deciding): Decided {
  const { limitMm, conformity, cracked, counterpart } = position;
  const { part, limit, beyond, code } = counterpart;
  if (cracked) return decided('replace', 'cracked', `a cracked ${part} is always replaced`);
  if (limitMm === null)
    return decided('measure', `no-${code}`, `its ${limit} is unknown: read the mark on the ${part}`);
  if (!isCompared(position)) return decideUnmeasured(position, margins, deciding);
  const figures = figuresOf(position);
  const { marginMm, latest } = position;
  if (conformity === 'does-not-conform')
    return decided('replace', `${beyond === 'under' ? 'below' : 'above'}-${code}`, figures);
  const settled = decideUnsettled(position, figures);
  if (settled) return settled;
  const margin = margins[deciding.margin];
  const worn = wornOut(margin, deciding, 0, counterpart);
  const soon = passesBeforeNextVisit(position);
  if (worn?.decision === 'replace')
    return { decision: 'replace', reasons: [...worn.reasons, ...(soon?.reasons ?? [])] };
  if (soon) return soon;
  if (position.points < MIN_POINTS && marginMm < MISSED_THINNEST_MM) {
    return decided(
      'measure',
      'too-few-points',
      `${figures}, but from ${countInWords(position.points, 'point')} only: measure at least ${MIN_POINTS}`,
    );
  }
  const { disbelieved } = position;
  if (disbelieved) {
    // A forecast that takes the latest reading for a mistake cannot show that the part will last.
    const detail = `${figures}, but the rest of the record predicts ${inWords(disbelieved.expectedMm)} mm`;
    return decided('measure', 'off-forecast', detail);
  }
  const machining = machiningReason(position);
  if (machining) return machine(position, machining, wornOut(margin, deciding, CLEAN_UP_MM, counterpart));
  return worn ?? decided('keep', 'margin', `${figures} on ${latest.visit.date}`);
}

/** `thinnest point 26.8 mm, 0.8 mm above the discard thickness of 26 mm`. */
function figuresOf(position: ComparedPosition): string {
  const { latest, limitMm, marginMm, counterpart } = position;
  const { extreme, limit, within, beyond } = counterpart;
  const where =
    marginMm === 0 ? 'at' : `${inWords(Math.abs(marginMm), 3)} mm ${marginMm > 0 ? within : beyond}`;
  return `${extreme} ${inWords(latest.mm, 3)} mm, ${where} the ${limit} of ${inWords(limitMm, 3)} mm`;
}

/** Decides if machining went too far, or if the readings do not show on which side of the limit the part is. */
function decideUnsettled(position: CounterpartPosition, figures: string): Decided | null {
  const { conformity, standing, leftBeyondMachineToMm: leftMm, machineToMm, counterpart } = position;
  const { beyond, measure, code } = counterpart;
  if (leftMm !== null && machineToMm !== null) {
    const detail = `left at ${inWords(leftMm, 3)} mm after machining, ${beyond} the machine-to ${measure} of ${inWords(machineToMm, 3)} mm`;
    return decided('replace', `left-${beyond}-machine-to`, detail);
  }
  if (conformity === 'inconclusive') {
    const detail = `${figures}, too close to tell: measure with a finer gauge`;
    return decided('measure', 'margin-inconclusive', detail);
  }
  if (!standing) return null;
  const detail = `${inWords(standing.reading.mm, 3)} mm was read on ${standing.date}, ${beyond} the ${counterpart.limit}, and no finer reading overrules it`;
  return decided('measure', `failed-${code}-before`, detail);
}

/** Why the thickness of a part is unknown, by its origin. */
const NOT_MEASURED: Record<CounterpartPosition['present']['origin'], string> = {
  replaced: 'no measurement since its fitting is recorded',
  machined: 'no measurement since its machining is recorded',
  'in-service': 'no measurement is recorded',
  'first-reading': 'no measurement is recorded',
};

function decideUnmeasured(position: CounterpartPosition, margins: Margins, deciding: Deciding): Decided {
  const { present, counterpart, damaged, beforeNextVisit } = position;
  const { limit, within } = counterpart;
  if (isFittedBeyondLimit(position)) {
    const detail = `recorded as fitted new at ${inWords(position.present.startMm)} mm, not ${within} its ${limit} of ${inWords(position.limitMm, 3)} mm: measure it and read its marks`;
    return decided('measure', 'fitted-beyond-limit', detail);
  }
  if (!isFittedNew(present)) {
    return decided('measure', 'no-readings', NOT_MEASURED[present.origin]);
  }
  const fittedAt = inWords(present.startMm);
  if (damaged) {
    const detail = `it was found ${termInWords(damaged)} and has not been measured since it was fitted`;
    return decided('measure', damaged, detail);
  }
  const worn = wornOut(margins[deciding.margin], deciding, 0, counterpart);
  const soon = beforeNextVisit !== null && beforeNextVisit.chance >= MIN_CHANCE_FOUND;
  // A part fitted at the latest visit is as specified.
  const isFittedNow = present.begunAt === deciding.latestVisit;
  if (!isFittedNow && (soon || worn?.decision === 'replace')) {
    const detail = `fitted here at ${fittedAt} mm and not measured since; it may be near its ${limit} by now`;
    return decided('measure', 'not-measured-since-fitted', detail);
  }
  return decided('keep', 'fitted-new', `fitted here at ${fittedAt} mm and not measured since`);
}

/** Decides to replace a part that will more likely than not pass its limit before the next visit. */
function passesBeforeNextVisit(position: ComparedPosition): Decided | null {
  const { beforeNextVisit: next } = position;
  if (!next || next.chance < 0.5) return null;
  return decided(
    'replace',
    LIMIT_BEFORE_NEXT_VISIT,
    `${figuresOf(position)}; the chance that it reaches that limit by the next visit, about ${next.date}, is ${chanceInWords(next.chance)}`,
  );
}

function runoutReason({
  runoutMm,
  runoutConformity,
  runoutAsked,
}: CounterpartPosition): DecisionReason | null {
  if (runoutMm === null || runoutConformity === null || runoutConformity === 'conforms') return null;
  const runout = `run-out is ${inWords(runoutMm, 4)} mm`;
  return runoutAsked && runoutConformity === 'does-not-conform'
    ? { code: 'runout-again', detail: `${runout}, again over its limit: measure the hub’s own run-out` }
    : { code: 'runout', detail: `${runout}: clean the hub, re-index the rotor and measure again` };
}

/** Decides for a rotor with no other fault: measure again; if run-out is still over its limit, machine if possible. */
function decideByRunout(
  position: CounterpartPosition,
  runout: DecisionReason,
  others: DecisionReason[],
): Decided {
  const narrow = others.filter(({ code }) => code === 'narrow-margin');
  if (runout.code === 'runout') return { decision: 'measure', reasons: [runout, ...narrow] };
  const { decision, reasons } = machine(position, runout, null);
  return { decision, reasons };
}

function decided(decision: Decision, code: string, detail: string): Decided {
  return { decision, reasons: [{ code, detail }] };
}

/**
 * Replaces the rotor if, with an allowance taken off, it will more likely than not pass its limit within the deciding
 * set of linings; otherwise warns if the margin is narrow.
 */
function wornOut(
  margin: NormalMixture | null,
  { why, decides }: Deciding,
  takenOffMm: number,
  { beyond, limit }: Counterpart,
): Decided | null {
  if (!margin) return null;
  const under = chanceBelow(margin, takenOffMm);
  const chance = `the chance that it is ${beyond} its ${limit} before ${why} used up is ${chanceInWords(under)}`;
  if (under >= 0.5 && decides) return decided('replace', WOULD_NOT_LAST, chance);
  return under >= 0.1 ? decided('keep', 'narrow-margin', `${chance}; measure it at every visit`) : null;
}

function machiningReason({
  variationConformity,
  variationMm,
  damaged,
}: CounterpartPosition): DecisionReason | null {
  if (variationMm !== null && variationConformity === 'does-not-conform') {
    return {
      code: 'variation',
      detail: `its thickness varies by ${inWords(variationMm, 3)} mm, over its limit`,
    };
  }
  return damaged ? { code: damaged, detail: `it was found ${termInWords(damaged)}` } : null;
}

/**
 * Offers machining only if a machine-to thickness is known, enough material is left for it, and what remains lasts the
 * deciding set of linings.
 */
function machine(
  { latest, present, machineToMm, counterpart }: CounterpartPosition,
  reason: DecisionReason,
  wornAfter: Decided | null,
): Decided {
  // A part that was fitted new and not measured since counts at its thickness when fitted.
  const presentMm = latest?.mm ?? present.startMm;
  if (machineToMm === null || presentMm === null) {
    const detail = `machining is not offered, because no machine-to ${counterpart.measure} is known`;
    return { decision: 'replace', reasons: [reason, { code: 'no-machine-to', detail }] };
  }
  if (wornAfter?.decision === 'replace') {
    return { decision: 'replace', reasons: [reason, ...wornAfter.reasons] };
  }
  const left = roundMm(leftUntil(counterpart.wears, presentMm, machineToMm) - CLEAN_UP_MM);
  const where = left < 0 ? counterpart.beyond : counterpart.within;
  const detail = `machining removes about ${CLEAN_UP_MM} mm and ${left < 0 ? 'would leave' : 'leaves'} it ${inWords(Math.abs(left), 2)} mm ${where} the machine-to ${counterpart.measure}`;
  return { decision: left >= 0 ? 'machine' : 'replace', reasons: [reason, { code: 'machine-to', detail }] };
}
