import { toFullDate } from '../calendar.js';
import {
  chanceWithin,
  crossingDistance,
  daysAt,
  survival,
  type Crossing,
  type Survival,
} from '../forecast/crossing.js';
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
import { isDrumBrake, replacesLinings, rotorLives, type Life, type Observation } from '../lives.js';
import { inWords, roundChance, roundForecastMm, roundMm, roundRate } from '../rounding.js';
import { toMm } from '../units.js';
import type { Range, Reason } from '../vocabulary/quantities.js';
import { SIDES, type Axle, type Conformity, type Side } from '../vocabulary/terms.js';
import type { RotorSpec } from '../vocabulary/vehicle.js';
import type { DecisionReason, DrumWear, Finding, RotorWear } from '../vocabulary/wear.js';
import { rangeOf, type AxleContext, type PadForecast, type PadPosition } from './axle.js';
import { DRUM, ROTOR, sayMm, type Counterpart } from './counterpart.js';
import { conformityAbove, conformityBelow } from './conformity.js';
import { counterpartDates, failsLimit, type CounterpartDates } from './counterpartDates.js';
import { rotorFindings } from './findings.js';
import { dateInterval } from './outlook.js';
import { beyondThirtyYears, noOdometer } from './reasons.js';
import { ratioShareOf, toStandingTracks, toShortTracks } from './tracks.js';

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
  cracked: boolean;
  damaged: string | null;
}

/** Distances, in 1000 km, at which the pads now fitted and the set after them are used up: equally likely points. */
interface PadSetEnds {
  first: number[] | null;
  second: number[] | null;
}

export function rotorsOutlook(
  context: AxleContext,
  axle: Axle,
  experience: Experience,
  pads: readonly PadPosition[],
  forecast: PadForecast,
): { rotors: RotorOutlook[]; dates: CounterpartDates; findings: Finding[]; renewal: RotorRenewal } {
  const { history, road } = context;
  const positions = SIDES.map((side) =>
    rotorPosition(history, rotorLives(history, road, axle, side), axle, side),
  );
  const now = road.places.at(-1) ?? null;
  const tracks = positions.map(({ lives }) => (now ? toShortTracks(lives, 0) : toStandingTracks(lives, 0)));
  const posterior = wearPosterior(tracks, experience.rotors, now ? now.km / 1000 : 0);
  const ends = now ? padSetEnds(pads, forecast, experience) : { first: null, second: null };
  const deciding = decidingSet(context, axle, forecast.crossing);
  const dates = counterpartDates(positions, positions.map(isJudged), posterior, now && context.usage);
  const rotors = positions.map((position, index) => {
    const margins = {
      atPadReplacement: marginAfter(position, posterior, index, ends.first),
      afterNextPadSet: marginAfter(position, posterior, index, ends.second),
    };
    const rate = now ? rangeOf(partMixture(posterior, index, 'rate'), roundRate) : null;
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
  const why = rotors.flatMap(({ decision, decisionReasons }) =>
    decision === 'replace' ? [decisionReasons[0]!.code] : [],
  );
  return {
    now: why.some((code) => code !== WOULD_NOT_LAST),
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

function rotorPosition(history: History, lives: Life<RotorSpec>[], axle: Axle, side: Side): RotorPosition {
  const present = lives.at(-1)!;
  const { spec } = present;
  const latest = present.observations.at(-1) ?? null;
  const u = latest?.gauge.standardUncertaintyMm ?? null;
  const discardMm = spec.discard ? toMm(spec.discard) : null;
  const thicknesses = latest ? [...latest.places.values()] : [];
  const variationMm =
    thicknesses.length > 1 ? roundMm(Math.max(...thicknesses) - Math.min(...thicknesses)) : null;
  const runout = latestRunout(history, present, axle, side);
  const counterpart = isDrumBrake(history, axle) ? DRUM : ROTOR;
  const conditions = conditionsSince(history, begunOn(present), counterpart.part, axle, side);
  return {
    counterpart,
    side,
    lives,
    present,
    latest,
    thinnestMm: latest?.mm ?? null,
    discardMm,
    machineToMm: spec.machineTo ? toMm(spec.machineTo) : null,
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
    cracked: isCracked(history, lives, counterpart.part, axle, side),
    damaged: conditions.find((state) => state === 'scored' || state === 'heat-spotted') ?? null,
  };
}

/** The date a life began by work on it; before all dates where the part was there from the first. */
const begunOn = ({ start, origin }: Life<RotorSpec>): string =>
  start && origin !== 'in-service' ? toFullDate(start.day) : '';

/** The latest run-out of the rotor as it now is: of the visit that began its life, only what was left on it. */
function latestRunout(
  history: History,
  life: Life<RotorSpec>,
  axle: Axle,
  side: Side,
): { mm: number; u: number } | null {
  const begun = begunOn(life);
  for (const visit of [...history.visits].reverse()) {
    if (visit.date < begun) return null;
    const readings = visit.readings.filter(
      (reading) =>
        reading.kind === 'rotor-runout' &&
        reading.axle === axle &&
        reading.side === side &&
        (visit.date > begun || reading.taken === 'as-left'),
    );
    if (readings.length === 0) continue;
    const asLeft = readings.filter((reading) => reading.taken === 'as-left');
    const counted = asLeft.length > 0 ? asLeft : readings;
    const mm = counted.reduce((sum, reading) => sum + reading.mm, 0) / counted.length;
    const u = Math.max(
      ...counted.map(({ gauge, kind }) => gaugeFor(gauge, kind, history.gauges).standardUncertaintyMm),
    );
    return { mm: roundMm(mm), u };
  }
  return null;
}

/** What was found on a rotor after a date, in order; `ok` takes back what was found before it. */
function conditionsSince(
  history: History,
  date: string,
  part: Counterpart['part'],
  axle: Axle,
  side: Side,
): string[] {
  const found = history.visits
    .filter((visit) => visit.date > date)
    .flatMap((visit) => visit.conditions)
    .filter(
      (entry) => entry.part === part && entry.axle === axle && (entry.side == null || entry.side === side),
    )
    .map((entry) => entry.state);
  return found.slice(found.lastIndexOf('ok') + 1);
}

/** A crack stays until the rotor is replaced, whatever is machined or said of it later. */
function isCracked(
  history: History,
  lives: readonly Life<RotorSpec>[],
  part: Counterpart['part'],
  axle: Axle,
  side: Side,
): boolean {
  const fitted = lives.findLast((life) => life.origin !== 'machined')!;
  return history.visits.some(
    (visit) =>
      visit.date > begunOn(fitted) &&
      visit.conditions.some(
        (entry) =>
          entry.part === part &&
          entry.state === 'cracked' &&
          entry.axle === axle &&
          (entry.side == null || entry.side === side),
      ),
  );
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
const isJudged = ({ discardMm, latest, present }: RotorPosition): boolean =>
  discardMm !== null && (latest !== null || isFittedNew(present));

/** Distribution of the rotor's margin over discard when the pads are used up. */
function marginAfter(
  position: RotorPosition,
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
  const latest = history.visits.at(-1);
  const replacedNow = latest?.work.some((item) => replacesLinings(item, axle)) ?? false;
  if (replacedNow)
    return { margin: 'atPadReplacement', why: 'the pads fitted at the latest visit are', decides: true };
  if (crossing && chanceWithin(crossing, daysToNextVisit) >= 0.5) {
    return { margin: 'afterNextPadSet', why: 'the set of pads after the one now due is', decides: true };
  }
  return { margin: 'atPadReplacement', why: 'the pads now fitted are', decides: false };
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
/** What machining takes off to clean up both faces, mm (common practice, no source). */
const CLEAN_UP_MM = 0.3;

function decide(position: RotorPosition, margins: Margins, deciding: Deciding): Decided {
  const { thinnestMm, discardMm, conformity, cracked, points, runoutConformity, counterpart } = position;
  const { part, extreme, limit, beyond, within, code } = counterpart;
  if (cracked) return decided('replace', 'cracked', `a cracked ${part} is always replaced`);
  if (discardMm === null)
    return decided('measure', `no-${code}`, `no ${limit} is known: read the mark on the ${part}`);
  if (thinnestMm === null && isFittedNew(position.present)) {
    const fittedAt = sayMm(counterpart, position.present.startMm!, 2);
    return decided('keep', 'fitted-new', `fitted here at ${fittedAt} mm and not measured since`);
  }
  if (thinnestMm === null) {
    return decided('measure', 'no-readings', 'not measured since it was fitted or first known');
  }
  const marginMm = roundMm(thinnestMm - discardMm);
  const figures = `${extreme} ${sayMm(counterpart, thinnestMm)} mm, ${limit} ${sayMm(counterpart, discardMm)} mm`;
  if (conformity === 'does-not-conform')
    return decided(
      'replace',
      `${beyond === 'under' ? 'below' : 'above'}-${code}`,
      `${figures}: ${inWords(-marginMm, 3)} mm ${beyond}`,
    );
  if (conformity === 'inconclusive') {
    return decided(
      'measure',
      'margin-inconclusive',
      `${figures}: too close to tell with this gauge; measure with a finer one`,
    );
  }
  if (points < ENOUGH_POINTS && marginMm < MISSED_THINNEST_MM) {
    return decided(
      'measure',
      'too-few-points',
      `${figures}, from ${points} of at least ${ENOUGH_POINTS} points round the face`,
    );
  }
  if (runoutConformity !== null && runoutConformity !== 'conforms') {
    const detail = `run-out ${inWords(position.runoutMm!, 4)} mm: clean the hub, re-index the rotor and measure again before anything else`;
    return decided('measure', 'runout', detail);
  }
  const margin = margins[deciding.margin];
  const worn = wornOut(margin, deciding, 0, counterpart);
  if (worn?.decision === 'replace') return worn;
  const machining = machiningReason(position);
  if (machining) return machine(position, machining, wornOut(margin, deciding, CLEAN_UP_MM, counterpart));
  return worn ?? decided('keep', 'margin', `${figures}: ${inWords(marginMm, 3)} mm ${within}`);
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
  const chance = `chance ${inWords(Math.min(under, 0.99))} of being ${beyond} the ${limit} before ${why} used up`;
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
  return damaged ? { code: damaged, detail: `the ${part} was found ${damaged.replace('-', ' ')}` } : null;
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
  const detail = `about ${CLEAN_UP_MM} mm comes off to clean up ${counterpart.part === 'rotor' ? 'both faces' : 'the diameter'}, which leaves ${inWords(left, 3)} mm ${counterpart.within} the machine-to ${counterpart.measure} of ${sayMm(counterpart, machineToMm)} mm`;
  return { decision: left >= 0 ? 'machine' : 'replace', reasons: [reason, { code: 'machine-to', detail }] };
}

/** Rotors and drums of an axle are replaced in pairs: where one must go, so must the other. */
function judgedTogether(rotors: RotorOutlook[], { part }: Counterpart): RotorOutlook[] {
  const goes = rotors.find((rotor) => rotor.decision === 'replace');
  if (!goes) return rotors;
  const detail = `the ${goes.side} ${part} is to be replaced, and ${part}s of an axle are replaced in pairs`;
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
  } else if (!rate) reasons.push(noOdometer('date'));
  else if (daysAt(crossing, 0.9) === null) reasons.push(beyondThirtyYears);
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
