import { median } from 'd3-array';
import { LONGEST_DAYS } from '../forecast/crossing.js';
import { itemAt, required } from '../items.js';
import { round, roundKm } from '../rounding.js';
import type { Accuracy, DateAccuracy, DateFigures, ReadingAccuracy } from '../vocabulary/accuracy.js';
import type { Reason } from '../vocabulary/quantities.js';
import {
  AXLES,
  PAD_SETS,
  STAGES,
  type Axle,
  type EndKnown,
  type PadSet,
  type Stage,
} from '../vocabulary/terms.js';
import { stageOf, type DateScore, type Points, type ReadingTally, type VehicleScores } from './scores.js';
import { accuracyWords } from './words.js';
import { countInWords } from '../words.js';

/** One vehicle's scores, and its model for grouping. */
export interface ScoredVehicle {
  model: string | null;
  scores: VehicleScores;
}

/**
 * A forecast reduced to what the figures need, since a shop may have many thousands of them; `vehicle` is an index into
 * the list of vehicles.
 */
interface DateCase {
  vehicle: number;
  model: string | null;
  axle: Axle;
  stage: Stage;
  set: PadSet;
  /** Identifies the pad set among those of all vehicles. */
  setKey: string;
  chance: number;
  /** Null until the limit is observed to be reached. */
  ended: Ended | null;
}

/** Error of a forecast: forecast minus actual, days capped, km not. */
interface Ended {
  how: EndKnown;
  offDays: number;
  offKm: number | null;
  /** Whether the outcome was before, inside or after the 80 % interval. */
  side: 'before' | 'inside' | 'after';
  twoPointOffDays: number | null;
  lineOffDays: number | null;
}

type ReadingCase = ReadingTally & { vehicle: number; model: string | null };

/** Minimum number of pad sets, and of vehicles, for a figure. */
export const MIN_CASES = 5;
/** Caps errors, in days, so that a few hopeless forecasts do not dominate. */
export const ERROR_CAP_DAYS = 4000;

/**
 * Accuracy of the forecasts of these vehicles, overall and in groups. Yields after each group, so that the caller can
 * do other work in between.
 */
export function* accuracyOf(vehicles: readonly ScoredVehicle[]): Generator<void, Accuracy> {
  const dates = vehicles.flatMap(({ model, scores }, vehicle) =>
    scores.dates.map((score) => dateCaseOf(score, vehicle, model)),
  );
  yield;
  const readings = vehicles.flatMap(({ model, scores }, vehicle) =>
    scores.readings.map((score): ReadingCase => ({ ...score, vehicle, model })),
  );
  yield;
  const groups = {
    dates: yield* inGroups(dates, dateAccuracy),
    nextReadings: yield* inGroups(readings, readingAccuracy),
  };
  return { words: accuracyWords(groups), ...groups };
}

interface Grouped<Figures> {
  total: Figures;
  byAxleAndModel: ({ axle: Axle; model: string | null } & Figures)[];
  byReadings: ({ stage: Stage } & Figures)[];
  bySet: ({ set: PadSet } & Figures)[];
}

function* inGroups<Score extends { axle: Axle; model: string | null; stage: Stage; set: PadSet }, Figures>(
  cases: readonly Score[],
  figuresOf: (cases: readonly Score[]) => Figures,
): Generator<void, Grouped<Figures>> {
  const grouped: Grouped<Figures> = {
    total: figuresOf(cases),
    byAxleAndModel: [],
    byReadings: [],
    bySet: [],
  };
  const axles = groupedBy(cases, ({ axle }) => axle);
  for (const axle of AXLES) {
    const models = [...groupedBy(axles.get(axle) ?? [], ({ model }) => model)];
    for (const [model, group] of models.sort(([a], [b]) => (a ?? '').localeCompare(b ?? ''))) {
      yield;
      grouped.byAxleAndModel.push({ axle, model, ...figuresOf(group) });
    }
  }
  const stages = groupedBy(cases, ({ stage }) => stage);
  for (const stage of STAGES) {
    yield;
    grouped.byReadings.push({ stage, ...figuresOf(stages.get(stage) ?? []) });
  }
  const sets = groupedBy(cases, ({ set }) => set);
  for (const set of PAD_SETS) {
    yield;
    grouped.bySet.push({ set, ...figuresOf(sets.get(set) ?? []) });
  }
  return grouped;
}

function groupedBy<Score, Key>(cases: readonly Score[], keyOf: (each: Score) => Key): Map<Key, Score[]> {
  const groups = new Map<Key, Score[]>();
  for (const each of cases) {
    const group = groups.get(keyOf(each));
    if (group) group.push(each);
    else groups.set(keyOf(each), [each]);
  }
  return groups;
}

/** Median minus actual, days; no date within 30 years counts as 30 years. */
export const daysOff = (median: number | null, actual: number): number =>
  Math.min(median ?? LONGEST_DAYS, LONGEST_DAYS) - actual;

const capped = (days: number): number => Math.max(-ERROR_CAP_DAYS, Math.min(ERROR_CAP_DAYS, days));

/**
 * Whether the outcome was before, inside or after the 80 % interval. A missing late point counts as infinitely late.
 */
export function sideOf({ early, late }: Points, reachedDays: number): Ended['side'] {
  if (reachedDays < (early ?? Infinity)) return 'before';
  return reachedDays > (late ?? Infinity) ? 'after' : 'inside';
}

function dateCaseOf(score: DateScore, vehicle: number, model: string | null): DateCase {
  const { axle, set, setNumber, readings, chance } = score;
  const setKey = `${vehicle} ${axle} ${setNumber}`;
  const common = { vehicle, model, axle, stage: stageOf(readings), set, setKey, chance };
  return { ...common, ended: score.reached && endedOf(score, score.reached) };
}

function endedOf(
  { days, km, twoPointDays, lineDays }: DateScore,
  reached: NonNullable<DateScore['reached']>,
): Ended {
  const offDays = (median: number | null) => capped(daysOff(median, reached.days));
  return {
    how: reached.how,
    offDays: offDays(days.median),
    offKm: km.median === null ? null : km.median - reached.km,
    side: sideOf(days, reached.days),
    twoPointOffDays: twoPointDays === null ? null : offDays(twoPointDays),
    lineOffDays: lineDays === null ? null : offDays(lineDays),
  };
}

type EndedCase = DateCase & { ended: Ended };

/** The pad sets of the forecasts, with how their ends are known. */
const setsOf = (cases: readonly EndedCase[]): Map<string, EndKnown> =>
  new Map(cases.map(({ setKey, ended }) => [setKey, ended.how]));

function dateAccuracy(cases: readonly DateCase[]): DateAccuracy {
  const ended = cases.filter((each): each is EndedCase => each.ended !== null);
  const sets = setsOf(ended);
  const known = {
    vehicles: new Set(ended.map(({ vehicle }) => vehicle)).size,
    padSets: sets.size,
    forecasts: ended.length,
    underWay: cases.length - ended.length,
  };
  if (sets.size < MIN_CASES) return { ...known, figures: null, reasons: [tooFewSets(sets.size)] };
  const figures = dateFigures(cases, ended, [...sets.values()]);
  return { ...known, figures, reasons: reasonsFor(figures) };
}

function dateFigures(
  cases: readonly DateCase[],
  ended: readonly EndedCase[],
  ends: readonly EndKnown[],
): DateFigures {
  const howShare = (how: EndKnown) => roundShare(ends.filter((each) => each === how).length / ends.length);
  const sideCount = (side: Ended['side']) => ended.filter((each) => each.ended.side === side).length;
  const off = ended.map((each) => each.ended.offDays);
  const offKm = ended.flatMap((each) => each.ended.offKm ?? []);
  const inside = ended.map((each) => ({
    vehicle: each.vehicle,
    hits: Number(each.ended.side === 'inside'),
    of: 1,
  }));
  return {
    interpolatedShare: howShare('interpolated'),
    extrapolatedShare: howShare('extrapolated'),
    meanAbsoluteErrorDays: round(mean(off.map(Math.abs)), 1),
    medianAbsoluteErrorDays: round(median(off.map(Math.abs)) ?? 0, 1),
    biasDays: round(mean(off), 1),
    meanAbsoluteErrorKm: offKm.length > 0 ? roundKm(mean(offKm.map(Math.abs))) : null,
    biasKm: offKm.length > 0 ? roundKm(mean(offKm)) : null,
    inside80: sideCount('inside'),
    before80: sideCount('before'),
    after80: sideCount('after'),
    inside80Share: roundShare(shareOf(inside)),
    inside80StandardError: standardErrorOf(inside),
    inside80ShareWithUnderWay: shareWithUnderWay(cases),
    againstTwoPoint: rivalOf(ended, 'twoPointOffDays'),
    againstLine: rivalOf(ended, 'lineOffDays'),
  };
}

/** Below this error, in days, the rule is practically exact and a ratio to it is meaningless. */
const EXACT_DAYS = 1;

function rivalOf(
  cases: readonly EndedCase[],
  rule: 'twoPointOffDays' | 'lineOffDays',
): DateFigures['againstLine'] {
  const both = cases.flatMap((each) => {
    const rivalOffDays = each.ended[rule];
    return rivalOffDays === null ? [] : [{ ...each, rivalOffDays }];
  });
  if (setsOf(both).size < MIN_CASES) return null;
  const rival = mean(both.map(({ rivalOffDays }) => Math.abs(rivalOffDays)));
  const own = mean(both.map(({ ended }) => Math.abs(ended.offDays)));
  return {
    forecasts: both.length,
    meanAbsoluteErrorDays: round(rival, 1),
    ratio: rival < EXACT_DAYS ? null : round(own / rival, 2),
  };
}

function reasonsFor(figures: DateFigures): Reason[] {
  const why: [field: string, isNull: boolean, code: string, detail: string][] = [
    ['meanAbsoluteErrorKm', figures.meanAbsoluteErrorKm === null, ...NO_DISTANCE],
    ['biasKm', figures.biasKm === null, ...NO_DISTANCE],
    ['inside80StandardError', figures.inside80StandardError === null, ...ONE_VEHICLE],
    ['inside80ShareWithUnderWay', figures.inside80ShareWithUnderWay === null, ...STILL_OPEN],
    ['againstTwoPoint', figures.againstTwoPoint === null, ...NO_RULE],
    ['againstTwoPoint.ratio', figures.againstTwoPoint?.ratio === null, ...RULE_EXACT],
    ['againstLine', figures.againstLine === null, ...NO_RULE],
    ['againstLine.ratio', figures.againstLine?.ratio === null, ...RULE_EXACT],
  ];
  return why
    .filter(([, isNull]) => isNull)
    .map(([field, , code, detail]) => ({ field: `figures.${field}`, code, detail }));
}

const NO_DISTANCE = ['no-distance', 'none of the forecasts gave a distance'] as const;
const ONE_VEHICLE = ['one-vehicle', 'all of these forecasts are of one vehicle'] as const;
const STILL_OPEN = ['still-open', 'too many of the forecasts are for pads still in use'] as const;
const NO_RULE = [
  'too-few-pad-sets',
  `the simple rule gives a date for fewer than ${MIN_CASES} sets of pads`,
] as const;
const RULE_EXACT = ['rule-exact', 'the simple rule was less than a day off'] as const;

/**
 * Share inside the 80 % interval, with forecasts whose outcome is still open counted as censored: the Kaplan–Meier
 * estimate (1958, from memory) of the distribution of the predicted chances, between 0.1 and 0.9. Null if no forecast
 * has got that far.
 */
function shareWithUnderWay(cases: readonly DateCase[]): number | null {
  const sorted = (which: (each: DateCase) => boolean) =>
    Float64Array.from(cases.filter(which), ({ chance }) => chance).sort();
  const ended = sorted((each) => each.ended !== null);
  const open = sorted((each) => each.ended === null);
  let left = 1;
  let below = 1;
  let opened = 0;
  for (const [index, chance] of ended.entries()) {
    if (chance > 0.9) break;
    while (opened < open.length && itemAt(open, opened) < chance) opened++;
    left *= 1 - 1 / (ended.length - index + open.length - opened);
    if (chance < 0.1) below = left;
  }
  const reachesSoFar = Math.max(ended.at(-1) ?? 0, open.at(-1) ?? 0) > 0.9;
  return reachesSoFar || left < 1e-9 ? roundShare(below - left) : null;
}

function readingAccuracy(cases: readonly ReadingCase[]): ReadingAccuracy {
  const sum = (of: (each: ReadingCase) => number) => cases.reduce((total, each) => total + of(each), 0);
  const readings = sum((each) => each.readings);
  const vehicles = new Set(cases.map(({ vehicle }) => vehicle)).size;
  if (vehicles < MIN_CASES) {
    const detail = `${countInWords(vehicles, 'vehicle has', 'vehicles have')} a forecast and a later reading to compare it with; at least ${MIN_CASES} are needed`;
    return {
      vehicles,
      readings,
      figures: null,
      reasons: [{ field: 'figures', code: 'too-few-vehicles', detail }],
    };
  }
  const insideOf = (index: number) =>
    cases.map(({ vehicle, inside, readings: of }) => ({ vehicle, hits: itemAt(inside, index), of }));
  const errorOf = (hits: readonly Hits[]) => required(standardErrorOf(hits), 'standard error of one vehicle');
  const tenths = Array<number>(10).fill(0);
  for (const each of cases) each.tenths.forEach((count, tenth) => (tenths[tenth]! += count));
  const [inside50, inside80, inside95] = [insideOf(0), insideOf(1), insideOf(2)];
  const figures = {
    meanAbsoluteErrorMm: round(sum((each) => each.absoluteOffMm) / readings, 3),
    biasMm: round(sum((each) => each.offMm) / readings, 3),
    meanCrpsMm: round(sum((each) => each.crpsMm) / readings, 4),
    inside50Share: roundShare(shareOf(inside50)),
    inside50StandardError: errorOf(inside50),
    inside80Share: roundShare(shareOf(inside80)),
    inside80StandardError: errorOf(inside80),
    inside95Share: roundShare(shareOf(inside95)),
    inside95StandardError: errorOf(inside95),
    tenthShares: tenths.map((count) => roundShare(count / readings)),
  };
  return { vehicles, readings, figures, reasons: [] };
}

interface Hits {
  vehicle: number;
  hits: number;
  of: number;
}

const shareOf = (cases: readonly Hits[]): number =>
  cases.reduce((sum, { hits }) => sum + hits, 0) / cases.reduce((sum, { of }) => sum + of, 0);

/** Standard error of a share, clustered by vehicle; null for a single vehicle. */
function standardErrorOf(cases: readonly Hits[]): number | null {
  const share = shareOf(cases);
  const byVehicle = new Map<number, number>();
  for (const { vehicle, hits, of } of cases)
    byVehicle.set(vehicle, (byVehicle.get(vehicle) ?? 0) + hits - share * of);
  const clusters = byVehicle.size;
  if (clusters < 2) return null;
  const squares = [...byVehicle.values()].reduce((sum, residual) => sum + residual * residual, 0);
  const total = cases.reduce((sum, { of }) => sum + of, 0);
  return round(Math.sqrt((squares * clusters) / (clusters - 1)) / total, 4);
}

const roundShare = (share: number): number => round(share, 4);

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

const tooFewSets = (sets: number): Reason => ({
  field: 'figures',
  code: 'too-few-pad-sets',
  detail: `${sets} ${sets === 1 ? 'set' : 'sets'} of pads can be judged; at least ${MIN_CASES} are needed`,
});
