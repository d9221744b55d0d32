import { toFullDate } from '../calendar.js';
import {
  chanceWithin,
  crossingDistance,
  survival,
  type Crossing,
  type Survival,
} from '../forecast/crossing.js';
import type { Experience } from '../forecast/experience.js';
import { normalCdf, type NormalMixture } from '../forecast/normal.js';
import { freshParts, partMixture, wearPosterior, type WearPosterior } from '../forecast/wear.js';
import { gaugeFor } from '../gauges.js';
import type { History } from '../history.js';
import { rotorLives, type Life, type Observation } from '../lives.js';
import { inWords, roundForecastMm, roundMm, roundRate } from '../rounding.js';
import { toMm } from '../units.js';
import type { Range, Reason } from '../vocabulary/quantities.js';
import { SIDES, type Axle, type Conformity, type Side } from '../vocabulary/terms.js';
import type { RotorSpec } from '../vocabulary/vehicle.js';
import type { DecisionReason, Finding, RotorWear } from '../vocabulary/wear.js';
import { rangeOf, type AxleContext, type PadForecast, type PadPosition } from './axle.js';
import { conformityAbove, conformityBelow } from './conformity.js';
import { rotorFindings } from './findings.js';
import { noOdometer } from './reasons.js';
import { toStandingTracks, toTracks } from './tracks.js';

type Decision = RotorWear['decision'];

/** What is known of one rotor as it stands. */
export interface RotorPosition {
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
): { rotors: RotorWear[]; findings: Finding[] } {
  const { history, road } = context;
  const positions = SIDES.map((side) =>
    rotorPosition(history, rotorLives(history, road, axle, side), axle, side),
  );
  const now = road.places.at(-1) ?? null;
  const tracks = positions.map(({ lives }) => (now ? toTracks(lives, 0) : toStandingTracks(lives, 0)));
  const posterior = wearPosterior(tracks, experience.rotors, now ? now.km / 1000 : 0);
  const ends = now ? padSetEnds(pads, forecast, experience) : { first: null, second: null };
  const deciding = decidingSet(context, axle, forecast.crossing);
  const rotors = positions.map((position, index) => {
    const margins = {
      atPadReplacement: marginAfter(position, posterior, index, ends.first),
      afterNextPadSet: marginAfter(position, posterior, index, ends.second),
    };
    const rate = now ? rangeOf(partMixture(posterior, index, 'rate'), roundRate) : null;
    const decided = decide(position, margins, deciding);
    return rotorWear(position, rate, margins, decided);
  });
  return { rotors: judgedTogether(rotors), findings: rotorFindings(axle, positions) };
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
  const conditions = conditionsSince(history, present, axle, side);
  return {
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
    cracked: conditions.includes('cracked'),
    damaged: conditions.find((state) => state === 'scored' || state === 'heat-spotted') ?? null,
  };
}

/** The visits since a life began; of the visit that began it, only what was found on the parts that went out. */
function latestRunout(
  history: History,
  life: Life<RotorSpec>,
  axle: Axle,
  side: Side,
): { mm: number; u: number } | null {
  const begun = life.start && life.origin !== 'in-service' ? toFullDate(life.start.day) : '';
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
    const [first] = asLeft.length > 0 ? asLeft : readings;
    return { mm: first!.mm, u: gaugeFor(first!.gauge, first!.kind).standardUncertaintyMm };
  }
  return null;
}

function conditionsSince(history: History, life: Life<RotorSpec>, axle: Axle, side: Side): string[] {
  const begun = life.start && life.origin !== 'in-service' ? toFullDate(life.start.day) : '';
  return history.visits
    .filter((visit) => visit.date > begun)
    .flatMap((visit) => visit.conditions)
    .filter(
      (entry) => entry.part === 'rotor' && entry.axle === axle && (entry.side == null || entry.side === side),
    )
    .map((entry) => entry.state);
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
  const shares = pads.map(({ pad }) => (pad === 'inner' ? 0.5 : -0.5));
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

/** Distribution of the rotor's margin over discard when the pads are used up. */
function marginAfter(
  { discardMm, latest, present }: RotorPosition,
  posterior: WearPosterior,
  part: number,
  ends: number[] | null,
): NormalMixture | null {
  const known = latest !== null || (present.startMm !== null && present.origin === 'replaced');
  if (!ends || discardMm === null || !known) return null;
  const mixtures = ends.map((ahead) => partMixture(posterior, part, 'thickness', ahead));
  const size = mixtures[0]!.weights.length;
  const margin = {
    weights: new Float64Array(size * ends.length),
    means: new Float64Array(size * ends.length),
    sds: new Float64Array(size * ends.length),
  };
  mixtures.forEach(({ weights, means, sds }, index) => {
    margin.weights.set(
      weights.map((weight) => weight / ends.length),
      index * size,
    );
    margin.means.set(
      means.map((mean) => mean - discardMm),
      index * size,
    );
    margin.sds.set(sds, index * size);
  });
  return margin;
}

interface Margins {
  atPadReplacement: NormalMixture | null;
  afterNextPadSet: NormalMixture | null;
}

interface Deciding {
  margin: keyof Margins;
  why: string;
}

/**
 * Which margin decides. While the pads have life left, the rotor must last as long as they do. When they are due,
 * or more likely than not will be by the next visit, it must last the set that follows; when they were replaced at
 * the latest visit, the set now on it is that set.
 */
function decidingSet(
  { history, daysToNextVisit }: AxleContext,
  axle: Axle,
  crossing: Crossing | null,
): Deciding {
  const latest = history.visits.at(-1);
  const replacedNow =
    latest?.work.some((item) => item.kind === 'pads-replaced' && item.axle === axle) ?? false;
  if (replacedNow) return { margin: 'atPadReplacement', why: 'the pads fitted at the latest visit' };
  if (crossing && chanceWithin(crossing, daysToNextVisit) >= 0.5) {
    return { margin: 'afterNextPadSet', why: 'the next set of pads, since the present one is due' };
  }
  return { margin: 'atPadReplacement', why: 'the pads now fitted' };
}

interface Decided {
  decision: Decision;
  reasons: DecisionReason[];
}

/** Points round a face below which the thinnest may have been missed (common practice, no source). */
const ENOUGH_POINTS = 4;
/** How much thinner than the thinnest of fewer points a face may be, mm (common practice, no source). */
const MISSED_THINNEST_MM = 0.3;
/** What machining takes off to clean up both faces, mm (common practice, no source). */
const CLEAN_UP_MM = 0.3;

function decide(position: RotorPosition, margins: Margins, deciding: Deciding): Decided {
  const { thinnestMm, discardMm, conformity, cracked, points, runoutConformity } = position;
  if (cracked) return decided('replace', 'cracked', 'a cracked rotor is always replaced');
  if (discardMm === null)
    return decided('measure', 'no-discard', 'no discard thickness is known: read the mark on the rotor');
  if (thinnestMm === null)
    return decided('measure', 'no-readings', 'not measured since it was fitted or first known');
  const marginMm = roundMm(thinnestMm - discardMm);
  const figures = `thinnest point ${inWords(thinnestMm, 3)} mm, discard ${inWords(discardMm, 3)} mm`;
  if (conformity === 'does-not-conform')
    return decided('replace', 'below-discard', `${figures}: ${inWords(-marginMm, 3)} mm under`);
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
  const worn = wornOut(margins[deciding.margin], deciding);
  if (worn?.decision === 'replace') return worn;
  const machining = machiningReason(position);
  if (machining) return machine(position, machining);
  return worn ?? decided('keep', 'margin', `${figures}: ${inWords(marginMm, 3)} mm above`);
}

function decided(decision: Decision, code: string, detail: string): Decided {
  return { decision, reasons: [{ code, detail }] };
}

/** Replaced when more likely than not it would be under discard before the deciding set of pads is used up. */
function wornOut(margin: NormalMixture | null, { why }: Deciding): Decided | null {
  if (!margin) return null;
  let under = 0;
  margin.weights.forEach((weight, index) => {
    if (weight > 0) under += weight * normalCdf(-margin.means[index]! / margin.sds[index]!);
  });
  const chance = `chance ${inWords(under)} of being under discard before ${why} are used up`;
  if (under >= 0.5) return decided('replace', 'would-not-last', chance);
  return under >= 0.1 ? decided('keep', 'narrow-margin', `${chance}: measure at every visit`) : null;
}

function machiningReason({
  variationConformity,
  variationMm,
  damaged,
}: RotorPosition): DecisionReason | null {
  if (variationConformity === 'does-not-conform') {
    return {
      code: 'variation',
      detail: `thickness variation ${inWords(variationMm!, 3)} mm is over its limit`,
    };
  }
  return damaged ? { code: damaged, detail: `the rotor was found ${damaged.replace('-', ' ')}` } : null;
}

/** Machining is offered only where the maker gives a thickness to machine to and enough is left for it. */
function machine({ thinnestMm, machineToMm }: RotorPosition, reason: DecisionReason): Decided {
  if (machineToMm === null) {
    const detail = 'no machine-to thickness is known, so machining is not offered';
    return { decision: 'replace', reasons: [reason, { code: 'no-machine-to', detail }] };
  }
  const left = roundMm(thinnestMm! - CLEAN_UP_MM - machineToMm);
  const detail = `about ${CLEAN_UP_MM} mm comes off to clean up both faces, which leaves ${inWords(left, 3)} mm above the machine-to thickness of ${inWords(machineToMm, 3)} mm`;
  return { decision: left >= 0 ? 'machine' : 'replace', reasons: [reason, { code: 'machine-to', detail }] };
}

/** Rotors of an axle are replaced in pairs: where one must go, so must the other. */
function judgedTogether(rotors: RotorWear[]): RotorWear[] {
  const goes = rotors.find((rotor) => rotor.decision === 'replace');
  if (!goes) return rotors;
  const detail = `the ${goes.side} rotor is to be replaced, and rotors of an axle are replaced in pairs`;
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

function rotorWear(
  position: RotorPosition,
  rate: Range | null,
  margins: Margins,
  { decision, reasons: decisionReasons }: Decided,
): RotorWear {
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
    conformity: position.conformity,
    variationMm: position.variationMm,
    variationConformity: position.variationConformity,
    runoutMm: position.runoutMm,
    runoutConformity: position.runoutConformity,
    ratePer1000KmMm: rate,
    marginAtPadReplacementMm: forecastMargin(margins.atPadReplacement),
    marginAfterNextPadSetMm: forecastMargin(margins.afterNextPadSet),
    decision,
    decisionReasons,
    reasons: missing(position, rate, margins),
  };
}

function missing(position: RotorPosition, rate: Range | null, margins: Margins): Reason[] {
  const { latest, discardMm, present, points, variationMm, runoutMm } = position;
  const reasons: Reason[] = [];
  if (!latest)
    reasons.push({
      field: 'thinnestMm',
      code: 'no-readings',
      detail: 'not measured since it was fitted or first known',
    });
  if (discardMm === null)
    reasons.push({ field: 'marginMm', code: 'no-discard', detail: 'no discard thickness is known' });
  if (!present.start)
    reasons.push({ field: 'fitted', code: 'fitting-unknown', detail: 'when it was fitted is not known' });
  if (latest && variationMm === null) {
    reasons.push({
      field: 'variationMm',
      code: 'too-few-points',
      detail: `variation needs two points or more; there is ${points}`,
    });
  }
  if (runoutMm === null)
    reasons.push({ field: 'runoutMm', code: 'no-readings', detail: 'run-out has not been measured' });
  if (!rate) reasons.push(noOdometer('ratePer1000KmMm'));
  if (latest && discardMm !== null && !margins.atPadReplacement) {
    reasons.push({
      field: 'marginAtPadReplacementMm',
      code: 'no-pad-forecast',
      detail: 'when the pads will be used up is not known',
    });
  } else if (latest && discardMm !== null && !margins.afterNextPadSet) {
    reasons.push({
      field: 'marginAfterNextPadSetMm',
      code: 'no-new-thickness',
      detail: 'the thickness of a new pad is not known',
    });
  }
  return reasons;
}
