import { toDay, toFullDate } from '../calendar.js';
import {
  chanceWithin,
  crossingDistance,
  daysAt,
  survival,
  type Crossing,
  type Survival,
} from '../forecast/crossing.js';
import { experienceOn } from '../forecast/days.js';
import type { Experience } from '../forecast/experience.js';
import { chanceBelow, type NormalMixture } from '../forecast/normal.js';
import {
  freshParts,
  multiplyChanceAbove,
  partMixture,
  wearPosterior,
  type WearPosterior,
} from '../forecast/wear.js';
import { gaugeFor } from '../gauges.js';
import type { History } from '../history.js';
import {
  isDrumBrake,
  judgeRepeats,
  replacesLinings,
  rotorLives,
  type Life,
  type Observation,
} from '../lives.js';
import { COUNTERPART_PLACEMENT_SD_MM } from '../placement.js';
import { inWords, roundChance, roundForecastMm, roundMm, roundRate } from '../rounding.js';
import { chanceInWords, termInWords } from '../words.js';
import { toMm } from '../units.js';
import type { Range, Reason } from '../vocabulary/quantities.js';
import { SIDES, TAKEN, type Axle, type Conformity, type Side } from '../vocabulary/terms.js';
import type { RotorSpec } from '../vocabulary/vehicle.js';
import type { DecisionReason, DrumWear, Finding, RotorWear } from '../vocabulary/wear.js';
import { rangeOf, type AxleContext, type PadForecast, type PadPosition } from './axle.js';
import { DRUM, ROTOR, sayMm, type Counterpart } from './counterpart.js';
import { conformityAbove, conformityBelow } from './conformity.js';
import { counterpartDates, failsLimit, type CounterpartDates } from './counterpartDates.js';
import { dateInterval } from './outlook.js';
import { beyondThirtyYears, noOdometer } from './reasons.js';
import { isFittedBeyondDiscard, rotorFindings, WORTH_NAMING } from './rotorFindings.js';
import { standingFailure, type StandingFailure } from './standing.js';
import { ratioShareOf, toShortTracks } from './tracks.js';
import { axleFacts, defectsOf } from './whichRules.js';

type Decision = RotorWear['decision'];

/** What is known of one rotor as it stands; of a drum, with its diameters as negative thicknesses. */
export interface RotorPosition {
  counterpart: Counterpart;
  side: Side;
  lives: Life<RotorSpec>[];
  present: Life<RotorSpec>;
  latest: Observation | null;
  thinnestMm: number | null;
  discardMm: number | null;
  machineToMm: number | null;
  standardUncertaintyMm: number | null;
  conformity: Conformity | null;
  points: number;
  variationMm: number | null;
  variationConformity: Conformity | null;
  runoutMm: number | null;
  runoutConformity: Conformity | null;
  /** Whether run-out was over its limit at an earlier measurement of this life as well. */
  runoutAsked: boolean;
  /** When it was found cracked, and the rules that names; null where it was not. */
  cracked: { date: string; defects: string[] } | null;
  damaged: string | null;
  /** When it was replaced at a visit that found it cracked, which is taken to be said of the old one. */
  crackedBefore: string | null;
  /** The rules by which a rotor beyond its discard figure is a defect. */
  discardDefects: string[];
  /** A failing reading that no later one has overruled. */
  standing: StandingFailure | null;
  /** Its thickness right after machining where that is beyond the machine-to one, mm. */
  leftBeyondMachineToMm: number | null;
  /** What is expected of it at the latest visit where it was last measured long before; null where it was not. */
  outOfDate: { expectedMm: number; visitDate: string } | null;
  /** The chance of passing the discard figure before the vehicle is next here; null where it is not known. */
  beforeNextVisit: { chance: number; date: string } | null;
}

/** The same before anything is forecast of it. */
type KnownPosition = Omit<RotorPosition, 'beforeNextVisit' | 'outOfDate'>;

/** Distances, in 1000 km, at which the pads now fitted and the set after them are used up: equally likely points. */
interface PadSetEnds {
  first: number[] | null;
  second: number[] | null;
}

export function rotorsOutlook(
  context: AxleContext,
  axle: Axle,
  fitted: Experience,
  pads: readonly PadPosition[],
  forecast: PadForecast,
): { rotors: RotorOutlook[]; dates: CounterpartDates; findings: Finding[]; renewal: RotorRenewal } {
  const { history, road } = context;
  const experience = experienceOn(road, fitted);
  const known = SIDES.map((side) =>
    rotorPosition(context, rotorLives(history, road, axle, side), axle, side),
  );
  const tracks = known.map(({ lives }) => toShortTracks(lives, 0));
  const posterior = wearPosterior(tracks, experience.rotors, (road.places.at(-1)?.km ?? 0) / 1000);
  const ends = padSetEnds(pads, forecast, experience);
  const dates = counterpartDates(known, known.map(isJudged), posterior, context.usage);
  const positions = known.map((position, index) => ({
    ...position,
    beforeNextVisit: beforeNextVisit(context, dates.crossings[index]!),
    outOfDate: outOfDate(position, posterior, index, history),
  }));
  const deciding = decidingSet(context, axle, forecast.crossing);
  const rotors = positions.map((position, index) => {
    const margins = {
      atPadReplacement: marginAfter(position, posterior, index, ends.first),
      afterNextPadSet: marginAfter(position, posterior, index, ends.second),
    };
    const rate = road.isByDistance ? rangeOf(partMixture(posterior, index, 'rate'), roundRate) : null;
    const decided = decide(position, margins, deciding);
    return rotorWear(position, { rate, margins, crossing: dates.crossings[index]! }, decided, history);
  });
  return {
    rotors: judgedTogether(rotors, positions[0]!.counterpart),
    dates,
    findings: rotorFindings(axle, positions, history.gauges),
    renewal: renewalOf(rotors, chanceNotLasting(positions, posterior, ends.second)),
  };
}

/** When both rotors of an axle, or both drums, are renewed. */
export interface RotorRenewal {
  /** Whether they are to go now, whatever the linings. */
  now: boolean;
  /** Chance that they go with the next set of linings; null where nobody can tell. */
  withLinings: number | null;
}

function renewalOf(rotors: readonly RotorOutlook[], notLasting: number | null): RotorRenewal {
  const replaced = rotors.filter(({ decision }) => decision === 'replace');
  const why = replaced.map(({ decisionReasons }) => decisionReasons[0]!.code);
  const isDueFirst = replaced.some(({ decisionReasons }) =>
    decisionReasons.some(({ code }) => code === LIMIT_BEFORE_NEXT_VISIT),
  );
  return {
    now: isDueFirst || why.some((code) => code !== WOULD_NOT_LAST),
    withLinings: why.includes(WOULD_NOT_LAST) ? 1 : notLasting,
  };
}

/** The chance that either is worn beyond its limit before the set of linings after the present one is used up. */
function chanceNotLasting(
  positions: readonly RotorPosition[],
  posterior: WearPosterior,
  ends: readonly number[] | null,
): number | null {
  const judged = positions.flatMap((position, part) =>
    isJudged(position) ? [{ part, discardMm: position.discardMm! }] : [],
  );
  if (!ends || judged.length === 0) return null;
  let lasting = 0;
  for (const ahead of ends) {
    const lastingAt = Float64Array.from(posterior.weights);
    for (const { part, discardMm } of judged) {
      multiplyChanceAbove(posterior, part, discardMm, ahead, lastingAt, 0);
    }
    lasting += lastingAt.reduce((sum, chance) => sum + chance, 0) / ends.length;
  }
  return roundChance(1 - lasting);
}

/** The chance that a rotor passes its discard figure before the vehicle is next here. */
function beforeNextVisit(
  { history, daysToNextVisit }: AxleContext,
  crossing: Crossing | null,
): RotorPosition['beforeNextVisit'] {
  if (!crossing) return null;
  const { date } = history.visits.at(-1)!;
  return {
    chance: roundChance(chanceWithin(crossing, daysToNextVisit)),
    date: toFullDate(toDay(date) + daysToNextVisit),
  };
}

/** Days after which the margin read is not the margin now (common practice, no source). */
const FRESH_DAYS = 365;

function outOfDate(
  { latest }: KnownPosition,
  posterior: WearPosterior,
  part: number,
  { visits }: History,
): RotorPosition['outOfDate'] {
  if (!latest) return null;
  const visitDate = visits.at(-1)!.date;
  if (toDay(visitDate) - latest.day <= FRESH_DAYS) return null;
  const expected = rangeOf(partMixture(posterior, part, 'thickness'), roundForecastMm);
  return { expectedMm: expected.median, visitDate };
}

function rotorPosition(
  { history, ruleSets }: AxleContext,
  lives: Life<RotorSpec>[],
  axle: Axle,
  side: Side,
): KnownPosition {
  const present = lives.at(-1)!;
  const { spec } = present;
  const latest = present.observations.at(-1) ?? null;
  const u = latest?.standardUncertaintyMm ?? null;
  const discardMm = spec.discard ? toMm(spec.discard) : null;
  const thicknesses = latest ? [...latest.places.values()] : [];
  const variationMm =
    thicknesses.length > 1 ? roundMm(Math.max(...thicknesses) - Math.min(...thicknesses)) : null;
  const runouts = runoutsOf(history, present, axle, side);
  const runout = runouts.at(-1);
  const isOver = ({ mm, u: runoutU }: Runout): boolean =>
    spec.runoutLimit != null && conformityBelow(mm, toMm(spec.runoutLimit), runoutU) !== 'conforms';
  const counterpart = isDrumBrake(history, axle) ? DRUM : ROTOR;
  const conditions = conditionsSince(history, present, counterpart.part, axle, side);
  const machineToMm = spec.machineTo ? toMm(spec.machineTo) : null;
  const facts = axleFacts(history.vehicle, axle);
  const crackedOn = crackOf(history, lives, counterpart.part, axle, side);
  return {
    counterpart,
    side,
    lives,
    present,
    latest,
    thinnestMm: latest?.mm ?? null,
    discardMm,
    machineToMm,
    standardUncertaintyMm: u,
    conformity: latest && discardMm !== null ? conformityAbove(latest.mm, discardMm, u!) : null,
    points: thicknesses.length,
    variationMm,
    // A variation is the difference of two readings, so its standard uncertainty is √2 that of one.
    variationConformity:
      variationMm !== null && spec.variationLimit
        ? conformityBelow(variationMm, toMm(spec.variationLimit), u! * Math.SQRT2)
        : null,
    runoutMm: runout?.mm ?? null,
    runoutConformity:
      runout && spec.runoutLimit ? conformityBelow(runout.mm, toMm(spec.runoutLimit), runout.u) : null,
    runoutAsked: runouts.slice(0, -1).some(isOver),
    cracked:
      crackedOn === null
        ? null
        : { date: crackedOn, defects: defectsOf(ruleSets, facts, counterpart.part, 'cracked') },
    crackedBefore: crackedWhenReplaced(history, present, counterpart.part, axle, side),
    discardDefects: defectsOf(ruleSets, facts, counterpart.part, 'beyond-marked-figure'),
    standing:
      discardMm === null
        ? null
        : standingFailure(present.observations, {
            bound: { limitMm: discardMm, failsAt: 'below' },
            placementSdMm: COUNTERPART_PLACEMENT_SD_MM,
            newMm: spec.new ? toMm(spec.new) : null,
          }),
    leftBeyondMachineToMm: leftBeyond(present, machineToMm),
    damaged: conditions.find((state) => state === 'scored' || state === 'heat-spotted') ?? null,
  };
}

/** The thickness right after machining where it is beyond the machine-to one; null otherwise, or where either is unknown. */
function leftBeyond(life: Life<RotorSpec>, machineToMm: number | null): number | null {
  if (life.origin !== 'machined' || machineToMm === null) return null;
  const left = life.observations[0]?.mm;
  return left !== undefined && left < machineToMm ? left : null;
}

interface Runout {
  mm: number;
  u: number;
}

/** The run-out of the rotor as it now is at each of its measurements, oldest first. */
function runoutsOf(history: History, { begunAt }: Life<RotorSpec>, axle: Axle, side: Side): Runout[] {
  return history.visits.flatMap((visit, index) =>
    TAKEN.flatMap((taken) => {
      if (index < begunAt || (index === begunAt && taken === 'as-found')) return [];
      const readings = visit.readings.filter(
        (reading) =>
          reading.kind === 'rotor-runout' &&
          reading.axle === axle &&
          reading.side === side &&
          reading.taken === taken,
      );
      if (readings.length === 0) return [];
      const { mm, standardUncertaintyMm: u } = judgeRepeats(
        readings.map((reading) => ({
          mm: reading.mm,
          gauge: gaugeFor(reading.gauge, reading.kind, history.gauges),
          unit: reading.unit,
        })),
        0,
      );
      return [{ mm, u }];
    }),
  );
}

const isOnSide = (entry: { axle: Axle; side?: Side | null }, axle: Axle, side: Side): boolean =>
  entry.axle === axle && (entry.side == null || entry.side === side);

/** What was found on a rotor in its life, in order; `ok` takes back what was found before it. */
function conditionsSince(
  { visits }: History,
  { begunAt }: Life<RotorSpec>,
  part: Counterpart['part'],
  axle: Axle,
  side: Side,
): string[] {
  const found = visits
    .slice(begunAt + 1)
    .flatMap((visit) => visit.conditions)
    .filter((entry) => entry.part === part && isOnSide(entry, axle, side))
    .map((entry) => entry.state);
  return found.slice(found.lastIndexOf('ok') + 1);
}

/** When a crack was last found; it stays until the rotor is replaced, whatever is machined or said of it later. */
function crackOf(
  { visits }: History,
  lives: readonly Life<RotorSpec>[],
  part: Counterpart['part'],
  axle: Axle,
  side: Side,
): string | null {
  const { begunAt } = lives.findLast((life) => life.origin !== 'machined')!;
  const found = visits
    .slice(begunAt + 1)
    .findLast((visit) =>
      visit.conditions.some(
        (entry) => entry.part === part && entry.state === 'cracked' && isOnSide(entry, axle, side),
      ),
    );
  return found?.date ?? null;
}

/** The date of a visit that both found a rotor cracked and replaced it; null where there is none. */
function crackedWhenReplaced(
  { visits }: History,
  { begunAt, origin }: Life<RotorSpec>,
  part: Counterpart['part'],
  axle: Axle,
  side: Side,
): string | null {
  const visit = origin === 'replaced' ? visits[begunAt] : undefined;
  const isCracked = visit?.conditions.some(
    (entry) => entry.part === part && entry.state === 'cracked' && isOnSide(entry, axle, side),
  );
  return isCracked ? visit!.date : null;
}

/** Ends of the pad sets at five equally likely points; both sets share the axle's rate, so their points go together. */
function padSetEnds(
  pads: readonly PadPosition[],
  { table, posterior }: PadForecast,
  experience: Experience,
): PadSetEnds {
  if (!table) return { first: null, second: null };
  const first = pointsOf(table);
  const newMm = pads
    .map(({ present }) => present.spec.new && toMm(present.spec.new))
    .find((mm) => mm != null);
  const limitMm = pads.map(({ governing }) => governing?.limitMm).find((mm) => mm !== undefined);
  if (newMm == null || limitMm === undefined || newMm <= limitMm) return { first, second: null };
  const shares = pads.map(({ pad }) => ratioShareOf(pad));
  const fresh = freshParts(posterior, shares, experience.pads, newMm);
  const next = pointsOf(
    survival(
      fresh,
      pads.map((_, part) => ({ part, limitMm })),
      ROUGH_STEPS,
    ),
  );
  return { first, second: first.map((distance, index) => distance + next[index]!) };
}

/** The end of the set after next needs no fine table. */
const ROUGH_STEPS = 16;
const POINTS = [0.1, 0.3, 0.5, 0.7, 0.9];

function pointsOf(table: Survival): number[] {
  const farthest = table.from * Math.exp((table.values.length - 1) * table.logStep);
  return POINTS.map((probability) => crossingDistance(table, probability) ?? farthest);
}

/** Fitted in the workshop at a thickness that is known, and not in use since long before. */
const isFittedNew = ({ origin, startMm }: Life<RotorSpec>): boolean =>
  origin === 'replaced' && startMm !== null;

/** Whether its thickness is known at all, and its limit. */
const isJudged = ({ discardMm, latest, present }: KnownPosition): boolean =>
  discardMm !== null && (latest !== null || isFittedNew(present));

/** Distribution of the rotor's margin over discard when the pads are used up. */
function marginAfter(
  position: KnownPosition,
  posterior: WearPosterior,
  part: number,
  ends: number[] | null,
): NormalMixture | null {
  if (!ends || !isJudged(position)) return null;
  const margin = partMixture(posterior, part, 'thickness', ends);
  margin.means.forEach((mm, index) => (margin.means[index] = mm - position.discardMm!));
  return margin;
}

interface Margins {
  atPadReplacement: NormalMixture | null;
  afterNextPadSet: NormalMixture | null;
}

interface Deciding {
  margin: keyof Margins;
  why: string;
  /** Whether the pads are due or being replaced, so that the rotor must last a set that is about to begin. */
  decides: boolean;
  /** The latest visit, as an index of the history's visits. */
  latestVisit: number;
}

/**
 * Which margin decides. When the pads are due, or more likely than not will be by the next visit, the rotor must last
 * the set that follows; when they were replaced at the latest visit, the set now on it is that set. While the pads
 * have life left nothing is decided by what they may outlast: the rotor is measured again before they are due.
 */
function decidingSet(
  { history, daysToNextVisit }: AxleContext,
  axle: Axle,
  crossing: Crossing | null,
): Deciding {
  const latestVisit = history.visits.length - 1;
  const replacedNow = history.visits.at(-1)?.work.some((item) => replacesLinings(item, axle)) ?? false;
  if (replacedNow)
    return {
      margin: 'atPadReplacement',
      why: 'the pads fitted at the latest visit are',
      decides: true,
      latestVisit,
    };
  if (crossing && chanceWithin(crossing, daysToNextVisit) >= 0.5) {
    return {
      margin: 'afterNextPadSet',
      why: 'the set of pads after the one now due is',
      decides: true,
      latestVisit,
    };
  }
  return { margin: 'atPadReplacement', why: 'the pads now fitted are', decides: false, latestVisit };
}

interface Decided {
  decision: Decision;
  reasons: DecisionReason[];
}

/** Points round a face below which the thinnest may have been missed (common practice, no source). */
const ENOUGH_POINTS = 4;
/** How much thinner than the thinnest of fewer points a face may be, mm (common practice, no source). */
const MISSED_THINNEST_MM = 0.3;
/** Why rotors go with the linings, and not before. */
const WOULD_NOT_LAST = 'would-not-last';
/** Why they go before that. */
const LIMIT_BEFORE_NEXT_VISIT = 'limit-before-next-visit';
/** What machining takes off to clean up both faces, mm (common practice, no source). */
const CLEAN_UP_MM = 0.3;

function decide(position: RotorPosition, margins: Margins, deciding: Deciding): Decided {
  const { decision, reasons } = decideByThickness(position, margins, deciding);
  const first = reasons[0]!.code;
  const [damage, wobble] = [machiningReason(position), runoutReason(position)];
  if (decision === 'keep') return wobble ? byRunout(position, wobble, reasons) : { decision, reasons };
  // Replacing a rotor settles what else is wrong with it.
  if (decision === 'replace') return { decision, reasons };
  const also = [damage, wobble].filter(
    (reason): reason is DecisionReason => reason !== null && reason.code !== first,
  );
  return { decision, reasons: [...reasons, ...also] };
}

/** What is decided without regard to run-out, so that it never hides behind it. */
function decideByThickness(position: RotorPosition, margins: Margins, deciding: Deciding): Decided {
  const { latest, discardMm, conformity, cracked, counterpart } = position;
  const { part, limit, beyond, code } = counterpart;
  if (cracked) return decided('replace', 'cracked', `a cracked ${part} is always replaced`);
  if (discardMm === null)
    return decided('measure', `no-${code}`, `no ${limit} is known: read the mark on the ${part}`);
  if (!latest) return decideUnmeasured(position, margins, deciding);
  const figures = figuresOf(position);
  const marginMm = roundMm(latest.mm - discardMm);
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
function figuresOf(position: RotorPosition): string {
  const { latest, discardMm, counterpart } = position;
  const { extreme, limit } = counterpart;
  return `${extreme} ${sayMm(counterpart, latest!.mm)} mm, ${limit} ${sayMm(counterpart, discardMm!)} mm`;
}

/** Readings that do not tell which side of the discard figure it is on, or that machining went too far. */
function decideUnsettled(position: RotorPosition, figures: string): Decided | null {
  const { conformity, standing, leftBeyondMachineToMm: leftMm, machineToMm, counterpart } = position;
  const { beyond, measure, code } = counterpart;
  if (leftMm !== null) {
    const detail = `left at ${sayMm(counterpart, leftMm)} mm after machining, ${beyond} the machine-to ${measure} of ${sayMm(counterpart, machineToMm!)} mm`;
    return decided('replace', `left-${beyond}-machine-to`, detail);
  }
  if (conformity === 'inconclusive') {
    const detail = `${figures}: too close to tell with this gauge; measure with a finer one`;
    return decided('measure', 'margin-inconclusive', detail);
  }
  if (!standing) return null;
  const detail = `${sayMm(counterpart, standing.reading.mm)} mm was read on ${standing.date}, ${beyond} the ${counterpart.limit}, and no finer reading overrules it`;
  return decided('measure', `failed-${code}-before`, detail);
}

function decideUnmeasured(position: RotorPosition, margins: Margins, deciding: Deciding): Decided {
  const { present, counterpart, damaged, beforeNextVisit } = position;
  const { part, limit } = counterpart;
  if (isFittedBeyondDiscard(position)) {
    const detail = `recorded as fitted new at ${sayMm(counterpart, present.startMm!, 2)} mm, with a ${limit} of ${sayMm(counterpart, position.discardMm!)} mm: measure it and read its marks`;
    return decided('measure', 'fitted-beyond-limit', detail);
  }
  if (!isFittedNew(present)) {
    return decided('measure', 'no-readings', 'not measured since it was fitted or first known');
  }
  const fittedAt = sayMm(counterpart, present.startMm!, 2);
  if (damaged) {
    const detail = `the ${part} was found ${termInWords(damaged)} and has not been measured since it was fitted`;
    return decided('measure', damaged, detail);
  }
  const worn = wornOut(margins[deciding.margin], deciding, 0, counterpart);
  const soon = beforeNextVisit !== null && beforeNextVisit.chance >= WORTH_NAMING;
  // What was fitted at the latest visit is as it was specified.
  const isFittedNow = present.begunAt === deciding.latestVisit;
  if (!isFittedNow && (soon || worn?.decision === 'replace')) {
    const detail = `fitted here at ${fittedAt} mm and not measured since: it may be near its ${limit} by now`;
    return decided('measure', 'not-measured-since-fitted', detail);
  }
  return decided('keep', 'fitted-new', `fitted here at ${fittedAt} mm and not measured since`);
}

/** Replaced now where it is more likely than not to pass its limit before the vehicle is next here. */
function passesBeforeNextVisit(position: RotorPosition): Decided | null {
  const { beforeNextVisit: next, counterpart } = position;
  if (!next || next.chance < 0.5) return null;
  return decided(
    'replace',
    LIMIT_BEFORE_NEXT_VISIT,
    `${figuresOf(position)}: ${chanceInWords(next.chance)} chance of being ${counterpart.beyond} it by the next visit, about ${next.date}`,
  );
}

function runoutReason({ runoutMm, runoutConformity, runoutAsked }: RotorPosition): DecisionReason | null {
  if (runoutConformity === null || runoutConformity === 'conforms') return null;
  const runout = `run-out ${inWords(runoutMm!, 4)} mm`;
  return runoutAsked && runoutConformity === 'does-not-conform'
    ? { code: 'runout-again', detail: `${runout} is over its limit again: measure the hub’s own run-out` }
    : { code: 'runout', detail: `${runout}: clean the hub, re-index the rotor and measure again` };
}

/** A rotor good in all else: measured once more, and if it still runs out, machined where that is possible. */
function byRunout(position: RotorPosition, wobble: DecisionReason, others: DecisionReason[]): Decided {
  const narrow = others.filter(({ code }) => code === 'narrow-margin');
  if (wobble.code === 'runout') return { decision: 'measure', reasons: [wobble, ...narrow] };
  const { decision, reasons } = machine(position, wobble, null);
  return { decision, reasons };
}

function decided(decision: Decision, code: string, detail: string): Decided {
  return { decision, reasons: [{ code, detail }] };
}

/**
 * Whether the rotor outlasts the deciding set of pads, with an allowance taken off first: replaced when more likely
 * than not it would not, if a set is about to begin; a word of warning else.
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
}: RotorPosition): DecisionReason | null {
  if (variationConformity === 'does-not-conform') {
    return {
      code: 'variation',
      detail: `thickness variation ${inWords(variationMm!, 3)} mm is over its limit`,
    };
  }
  return damaged ? { code: damaged, detail: `the ${part} was found ${termInWords(damaged)}` } : null;
}

/**
 * Machining is offered only where the maker gives a thickness to machine to, enough is left for it, and what is left
 * then lasts the set of pads that is about to begin.
 */
function machine(
  { thinnestMm, machineToMm, counterpart }: RotorPosition,
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
  const left = roundMm(thinnestMm! - CLEAN_UP_MM - machineToMm);
  const detail = `machining takes off about ${CLEAN_UP_MM} mm and leaves ${inWords(left, 2)} mm ${counterpart.within} the machine-to ${counterpart.measure}`;
  return { decision: left >= 0 ? 'machine' : 'replace', reasons: [reason, { code: 'machine-to', detail }] };
}

/** Rotors and drums of an axle are replaced in pairs: where one must go, so must the other. */
function judgedTogether(rotors: RotorOutlook[], { part }: Counterpart): RotorOutlook[] {
  const goes = rotors.find((rotor) => rotor.decision === 'replace');
  if (!goes) return rotors;
  const detail = `the ${goes.side} ${part} must be replaced, and both ${part}s of an axle are replaced together`;
  return rotors.map((rotor) =>
    rotor.decision === 'replace'
      ? rotor
      : {
          ...rotor,
          decision: 'replace',
          decisionReasons: [{ code: 'pair', detail }, ...rotor.decisionReasons],
        },
  );
}

/** What of a rotor’s answer today’s date leaves as it is. */
export type RotorOutlook = Omit<RotorWear, 'untilNextVisit'>;
export type DrumOutlook = Omit<DrumWear, 'untilNextVisit'>;

interface Forecasts {
  rate: Range | null;
  margins: Margins;
  crossing: Crossing | null;
}

function rotorWear(
  position: RotorPosition,
  { rate, margins, crossing }: Forecasts,
  { decision, reasons: decisionReasons }: Decided,
  { visits }: History,
): RotorOutlook {
  const { side, present, latest, thinnestMm, discardMm } = position;
  const forecastMargin = (margin: NormalMixture | null) => margin && rangeOf(margin, roundForecastMm);
  return {
    side,
    readings: present.observations.length,
    fitted: present.start && { date: toFullDate(present.start.day), odometerKm: present.start.odometerKm },
    latestDate: latest?.visit.date ?? null,
    thinnestMm,
    discardMm,
    machineToMm: position.machineToMm,
    marginMm: thinnestMm !== null && discardMm !== null ? roundMm(thinnestMm - discardMm) : null,
    marginStandardUncertaintyMm:
      position.standardUncertaintyMm === null ? null : roundMm(position.standardUncertaintyMm),
    fails: failsLimit(position),
    conformity: position.conformity,
    variationMm: position.variationMm,
    variationConformity: position.variationConformity,
    runoutMm: position.runoutMm,
    runoutConformity: position.runoutConformity,
    ratePer1000KmMm: rate,
    date: crossing && dateInterval(crossing, visits.at(-1)!.date),
    marginAtPadReplacementMm: forecastMargin(margins.atPadReplacement),
    marginAfterNextPadSetMm: forecastMargin(margins.afterNextPadSet),
    decision,
    decisionReasons,
    reasons: missing(position, { rate, margins, crossing }),
  };
}

function missing(position: RotorPosition, { rate, margins, crossing }: Forecasts): Reason[] {
  const { latest, discardMm, machineToMm, present, points, variationMm, runoutMm, counterpart } = position;
  const reasons: Reason[] = [];
  const say = (fields: readonly string[], code: string, detail: string): void => {
    reasons.push(...fields.map((field) => ({ field, code, detail })));
  };
  if (!latest) {
    const fields = [
      'latestDate',
      'thinnestMm',
      'marginMm',
      'marginStandardUncertaintyMm',
      'conformity',
      'variationMm',
    ];
    say(fields, 'no-readings', 'not measured since it was fitted or first known');
  }
  if (discardMm === null)
    say(
      ['discardMm', 'marginMm', 'conformity'],
      `no-${counterpart.code}`,
      `no ${counterpart.limit} is known`,
    );
  if (machineToMm === null)
    say(['machineToMm'], 'no-machine-to', `no machine-to ${counterpart.measure} is known`);
  if (!present.start) say(['fitted'], 'fitting-unknown', 'when it was fitted is not known');
  else if (present.start.odometerKm === null) reasons.push(noOdometer('fitted.odometerKm'));
  if (latest && variationMm === null) {
    say(['variationMm'], 'too-few-points', `variation needs two points or more; there is ${points}`);
  }
  if (position.variationConformity === null) {
    say(['variationConformity'], 'no-limit', 'no variation, or no limit for it, is known');
  }
  if (runoutMm === null) say(['runoutMm'], 'no-readings', 'run-out has not been measured');
  if (position.runoutConformity === null) {
    say(['runoutConformity'], 'no-limit', 'no run-out, or no limit for it, is known');
  }
  if (!rate) reasons.push(noOdometer('ratePer1000KmMm'));
  if (!crossing) {
    say(
      ['date'],
      'no-forecast',
      `needs a ${counterpart.measure} and a ${counterpart.limit} of the ${counterpart.part}`,
    );
  } else if (daysAt(crossing, 0.9) === null) reasons.push(beyondThirtyYears);
  if (!margins.atPadReplacement) {
    const detail = `needs a ${counterpart.measure} and a ${counterpart.limit} of the ${counterpart.part}, and a forecast of the ${counterpart.lining}`;
    say(['marginAtPadReplacementMm', 'marginAfterNextPadSetMm'], 'no-forecast', detail);
  } else if (!margins.afterNextPadSet) {
    say(['marginAfterNextPadSetMm'], 'no-new-thickness', 'the thickness of a new pad is not known');
  }
  return reasons;
}

/** The names that a drum's answer has for those of a rotor, where they differ. */
const DRUM_FIELDS: Record<string, string> = {
  thinnestMm: 'largestMm',
  discardMm: 'maximumMm',
  variationMm: 'outOfRoundMm',
  marginAtPadReplacementMm: 'marginAtShoeReplacementMm',
  marginAfterNextPadSetMm: 'marginAfterNextShoeSetMm',
};
const NOT_OF_DRUMS = new Set(['runoutMm', 'runoutConformity', 'variationConformity']);

/** A drum's answer from that of the rotor of negative thickness it was taken for. */
export function drumWear(rotor: RotorOutlook): DrumOutlook {
  const turn = (mm: number | null): number | null => (mm === null ? null : -mm);
  return {
    side: rotor.side,
    readings: rotor.readings,
    fitted: rotor.fitted,
    latestDate: rotor.latestDate,
    largestMm: turn(rotor.thinnestMm),
    maximumMm: turn(rotor.discardMm),
    machineToMm: turn(rotor.machineToMm),
    marginMm: rotor.marginMm,
    marginStandardUncertaintyMm: rotor.marginStandardUncertaintyMm,
    fails: rotor.fails,
    conformity: rotor.conformity,
    outOfRoundMm: rotor.variationMm,
    ratePer1000KmMm: rotor.ratePer1000KmMm,
    date: rotor.date,
    marginAtShoeReplacementMm: rotor.marginAtPadReplacementMm,
    marginAfterNextShoeSetMm: rotor.marginAfterNextPadSetMm,
    decision: rotor.decision,
    decisionReasons: rotor.decisionReasons,
    reasons: rotor.reasons
      .filter(({ field }) => !NOT_OF_DRUMS.has(field))
      .map((reason) => ({ ...reason, field: DRUM_FIELDS[reason.field] ?? reason.field })),
  };
}
