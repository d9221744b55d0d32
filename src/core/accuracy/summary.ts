import { LONGEST_DAYS } from '../forecast/crossing.js';
import { round, roundKm } from '../rounding.js';
import type { Accuracy, DateAccuracy, DateFigures, ReadingAccuracy } from '../vocabulary/accuracy.js';
import type { Reason } from '../vocabulary/quantities.js';
import { AXLES, STAGES, type Axle, type EndKnown } from '../vocabulary/terms.js';
import { INTERVALS, stageOf, type DateScore, type ReadingTally, type VehicleScores } from './scores.js';
import { accuracyWords } from './words.js';

/** One vehicle's scores, with the model it is counted under. */
export interface ScoredVehicle {
  model: string | null;
  scores: VehicleScores;
}

/** A forecast with the vehicle it was made of, by its place in the list. */
type OfVehicle<Score> = Score & { vehicle: number; model: string | null };
type DateCase = OfVehicle<DateScore>;
type ReadingCase = OfVehicle<ReadingTally>;

/** Fewer sets of pads than this, or fewer vehicles, say nothing yet. */
export const FEWEST = 5;
/** Errors are capped here, days, so that a few hopeless ones do not decide everything. */
export const ERROR_CAP_DAYS = 4000;

/** How the forecasts of these vehicles did, over all and in groups. */
export function accuracyOf(vehicles: readonly ScoredVehicle[]): Accuracy {
  const dates = vehicles.flatMap(({ model, scores }, vehicle) =>
    scores.dates.map((score): DateCase => ({ ...score, vehicle, model })),
  );
  const readings = vehicles.flatMap(({ model, scores }, vehicle) =>
    scores.readings.map((score): ReadingCase => ({ ...score, vehicle, model })),
  );
  const groups = {
    dates: {
      total: dateAccuracy(dates),
      byAxleAndModel: byAxleAndModel(dates, dateAccuracy),
      byReadings: STAGES.map((stage) => ({
        stage,
        ...dateAccuracy(dates.filter((each) => stageOf(each.readings) === stage)),
      })),
    },
    nextReadings: {
      total: readingAccuracy(readings),
      byAxleAndModel: byAxleAndModel(readings, readingAccuracy),
      byReadings: STAGES.map((stage) => ({
        stage,
        ...readingAccuracy(readings.filter((each) => each.stage === stage)),
      })),
    },
  };
  return { words: accuracyWords(groups.dates.total, groups.nextReadings.total), ...groups };
}

function byAxleAndModel<Score extends { axle: Axle; model: string | null }, Figures>(
  cases: readonly Score[],
  figuresOf: (cases: readonly Score[]) => Figures,
): ({ axle: Axle; model: string | null } & Figures)[] {
  const models = [...new Set(cases.map(({ model }) => model))].sort((a, b) =>
    (a ?? '').localeCompare(b ?? ''),
  );
  return AXLES.flatMap((axle) =>
    models.flatMap((model) => {
      const group = cases.filter((each) => each.axle === axle && each.model === model);
      return group.length > 0 ? [{ axle, model, ...figuresOf(group) }] : [];
    }),
  );
}

/** Median less actual, days; no date within 30 years counts as 30 years. */
export const daysOff = (median: number | null, actual: number): number =>
  Math.min(median ?? LONGEST_DAYS, LONGEST_DAYS) - actual;

const capped = (days: number): number => Math.max(-ERROR_CAP_DAYS, Math.min(ERROR_CAP_DAYS, days));

/** Whether an interval held what happened. No late point is a late point beyond any that is given. */
export function isInside({ days, reached }: Pick<DateScore, 'days' | 'reached'>): boolean {
  return !isBefore(days, reached!) && !isAfter(days, reached!);
}
const isBefore = ({ early }: DateScore['days'], reached: { days: number }): boolean =>
  reached.days < (early ?? Infinity);
const isAfter = ({ late }: DateScore['days'], reached: { days: number }): boolean =>
  reached.days > (late ?? Infinity);

type ReachedCase = DateCase & { reached: NonNullable<DateScore['reached']> };

/** The sets of pads that forecasts were about, with how their ends are known. */
const setsOf = (cases: readonly ReachedCase[]): Map<string, EndKnown> =>
  new Map(cases.map(({ vehicle, axle, set, reached }) => [`${vehicle} ${axle} ${set}`, reached.how]));

function dateAccuracy(cases: readonly DateCase[]): DateAccuracy {
  const ended = cases.filter((each): each is ReachedCase => each.reached !== null);
  const sets = setsOf(ended);
  const known = {
    vehicles: new Set(ended.map(({ vehicle }) => vehicle)).size,
    padSets: sets.size,
    forecasts: ended.length,
    underWay: cases.length - ended.length,
  };
  if (sets.size < FEWEST) return { ...known, figures: null, reasons: [tooFewSets(sets.size)] };
  const figures = dateFigures(cases, ended, sets);
  return { ...known, figures, reasons: reasonsFor(figures) };
}

function dateFigures(
  cases: readonly DateCase[],
  ended: readonly ReachedCase[],
  sets: ReadonlyMap<string, EndKnown>,
): DateFigures {
  const howShare = (how: EndKnown) =>
    roundShare([...sets.values()].filter((each) => each === how).length / sets.size);
  const off = ended.map(({ days, reached }) => capped(daysOff(days.median, reached.days)));
  const offKm = ended.flatMap(({ km, reached }) => (km.median === null ? [] : [km.median - reached.km]));
  const inside = ended.map((each) => ({ vehicle: each.vehicle, hits: Number(isInside(each)), of: 1 }));
  return {
    interpolatedShare: howShare('interpolated'),
    extrapolatedShare: howShare('extrapolated'),
    meanAbsoluteErrorDays: round(mean(off.map(Math.abs)), 1),
    medianAbsoluteErrorDays: round(median(off.map(Math.abs)), 1),
    biasDays: round(mean(off), 1),
    meanAbsoluteErrorKm: offKm.length > 0 ? roundKm(mean(offKm.map(Math.abs))) : null,
    biasKm: offKm.length > 0 ? roundKm(mean(offKm)) : null,
    inside80: inside.reduce((sum, { hits }) => sum + hits, 0),
    before80: ended.filter(({ days, reached }) => isBefore(days, reached)).length,
    after80: ended.filter(({ days, reached }) => isAfter(days, reached)).length,
    inside80Share: roundShare(shareOf(inside)),
    inside80StandardError: standardErrorOf(inside),
    inside80ShareWithUnderWay: shareWithUnderWay(cases),
    againstTwoPoint: rivalOf(ended, 'twoPointDays'),
    againstLine: rivalOf(ended, 'lineDays'),
  };
}

/** Below this error, days, a rule is as good as exact, and a ratio to it says nothing. */
const EXACT_DAYS = 1;

function rivalOf(
  cases: readonly ReachedCase[],
  rule: 'twoPointDays' | 'lineDays',
): DateFigures['againstLine'] {
  const both = cases.filter((each) => each[rule] !== null);
  if (setsOf(both).size < FEWEST) return null;
  const errorOf = (days: number | null, { reached }: ReachedCase) =>
    Math.abs(capped(daysOff(days, reached.days)));
  const rival = mean(both.map((each) => errorOf(each[rule], each)));
  const own = mean(both.map((each) => errorOf(each.days.median, each)));
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
const STILL_OPEN = ['still-open', 'too many of the forecasts are still under way'] as const;
const NO_RULE = ['too-few-pad-sets', `the rule gives a date for fewer than ${FEWEST} sets of pads`] as const;
const RULE_EXACT = ['rule-exact', 'the rule was less than a day off'] as const;

/**
 * The share inside the 80 % interval with the forecasts counted that no end is known for yet: the estimate of Kaplan
 * and Meier (1958, from memory) of how the chances given to what happened are spread, read between 0.1 and 0.9. Null
 * where the forecasts do not reach so far.
 */
function shareWithUnderWay(cases: readonly DateCase[]): number | null {
  const sorted = [...cases].sort(
    (a, b) => a.chance - b.chance || Number(b.reached !== null) - Number(a.reached !== null),
  );
  let left = 1;
  let below = null as number | null;
  for (const [index, { chance, reached }] of sorted.entries()) {
    if (chance >= 0.1) below ??= left;
    if (chance > 0.9) return roundShare(below! - left);
    if (reached) left *= 1 - 1 / (sorted.length - index);
  }
  return left < 1e-9 ? roundShare(below ?? 0) : null;
}

function readingAccuracy(cases: readonly ReadingCase[]): ReadingAccuracy {
  const sum = (of: (each: ReadingCase) => number) => cases.reduce((total, each) => total + of(each), 0);
  const readings = sum((each) => each.readings);
  const vehicles = new Set(cases.map(({ vehicle }) => vehicle)).size;
  if (vehicles < FEWEST) {
    const detail = `the forecasts of ${vehicles} ${vehicles === 1 ? 'vehicle' : 'vehicles'} can be held against a next reading; at least ${FEWEST} are needed`;
    return {
      vehicles,
      readings,
      figures: null,
      reasons: [{ field: 'figures', code: 'too-few-vehicles', detail }],
    };
  }
  const insideOf = (index: number) =>
    cases.map(({ vehicle, inside, readings: of }) => ({ vehicle, hits: inside[index]!, of }));
  const [half, most, nearlyAll] = INTERVALS.map((_, index) => insideOf(index));
  const figures = {
    meanAbsoluteErrorMm: round(sum((each) => each.absoluteOffMm) / readings, 3),
    biasMm: round(sum((each) => each.offMm) / readings, 3),
    meanCrpsMm: round(sum((each) => each.crpsMm) / readings, 4),
    inside50Share: roundShare(shareOf(half!)),
    inside50StandardError: standardErrorOf(half!)!,
    inside80Share: roundShare(shareOf(most!)),
    inside80StandardError: standardErrorOf(most!)!,
    inside95Share: roundShare(shareOf(nearlyAll!)),
    inside95StandardError: standardErrorOf(nearlyAll!)!,
    tenthShares: Array.from({ length: 10 }, (_, tenth) =>
      roundShare(sum(({ tenths }) => tenths[tenth]!) / readings),
    ),
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

/** Standard error of a share, the forecasts of one vehicle taken together; null of one vehicle alone. */
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

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

const tooFewSets = (sets: number): Reason => ({
  field: 'figures',
  code: 'too-few-pad-sets',
  detail: `${sets} ${sets === 1 ? 'set' : 'sets'} of pads can be judged; at least ${FEWEST} are needed`,
});
