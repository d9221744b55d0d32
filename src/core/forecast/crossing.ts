import { HERMITE } from './normal.js';
import { seasonVariance, type UsagePosterior } from './usage.js';
import { multiplyChanceAbove, type WearPosterior } from './wear.js';

/**
 * When the first pad of an axle reaches its limit. By distance: the marginal crossing,
 * S(x) = Σ_b w_b Π_p P(thickness_p(x) > limit_p), made non-increasing, since true wear only goes one way. By date:
 * F(t) = 1 − E[S(distance driven in t days)] over the posterior of the daily pace and the scatter about it.
 */

/** Chance that no part has reached its limit by a distance ahead, tabulated; distances in 1000 km. */
export interface Survival extends SurvivalRow {
  /** Distance of the first entry; entry i lies at `from · exp(i · logStep)`. */
  from: number;
  logStep: number;
  /** The same given each node of the pace, where wear and use go together; null where they do not. */
  byPace: SurvivalRow[] | null;
}

interface SurvivalRow {
  /** Chance at distance 0. */
  atStart: number;
  values: Float64Array;
}

export interface LimitedPart {
  part: number;
  limitMm: number;
}

const DISTANCE_STEPS = 40;
/** The table runs from where hardly any have reached the limit to where hardly any have not. */
const HARDLY_ANY = 5e-4;
/** Its ends, in 1000 km, whatever the readings say. */
const FARTHEST = 20_000;
const NEAREST = 0.02;

/**
 * @param limited the parts that have a state and a limit; at least one
 * @param steps entries of the table
 * @param ratesByPace weights of the nodes of the rate given each node of the pace, where the two go together
 */
export function survival(
  posterior: WearPosterior,
  limited: readonly LimitedPart[],
  steps = DISTANCE_STEPS,
  ratesByPace: readonly Float64Array[] | null = null,
): Survival {
  const at = (ahead: number) => weighted(posterior.weights, chancesAt(posterior, limited, ahead));
  const atStart = at(0);
  const { changes } = posterior;
  const slowest = changes.perMm > 0 ? Math.exp(2 * changes.sd) : 1;
  const to = slowest * firstFrom(1, (ahead) => at(ahead) < HARDLY_ANY);
  const from = lastFrom(to / 2, (ahead) => atStart - at(ahead) < HARDLY_ANY);
  const logStep = Math.log(to / from) / (steps - 1);
  const distances = Float64Array.from({ length: steps }, (_, index) => from * Math.exp(index * logStep));
  const start = chancesAt(posterior, limited, 0);
  const columns = Array.from(distances, (distance) => chancesAt(posterior, limited, distance));
  const rowOf = (weights: Float64Array) => survivalRow(weights, start, columns);
  const byPace = ratesByPace?.map(rowOf) ?? null;
  const steady: Survival = { ...rowOf(posterior.weights), from, logStep, byPace };
  return changes.perMm > 0 ? withChanges(steady, posterior, distances) : steady;
}

/** A change ahead counts less than one behind: most vehicles that change their rate do so once, and some have. */
const FURTHER_CHANGE = 0.5;
/** Points of the part of the way ahead that is driven at a changed rate, each as likely. */
const SHARES_CHANGED = [1 / 6, 1 / 2, 5 / 6];

/**
 * The rate may change again on the way ahead: with the chance of that, a distance wears like another one, longer or
 * shorter.
 */
function withChanges(steady: Survival, posterior: WearPosterior, distances: Float64Array): Survival {
  const { perMm, sd } = posterior.changes;
  const rate = weighted(posterior.weights, posterior.rates);
  const stretches = HERMITE.flatMap(([z, weight]) =>
    SHARES_CHANGED.map((share) => ({
      weight: weight / SHARES_CHANGED.length,
      factor: 1 + (Math.exp(sd * z) - 1) * share,
    })),
  );
  const changed = (row: SurvivalRow): SurvivalRow => ({
    atStart: row.atStart,
    values: row.values.map((value, index) => {
      const distance = distances[index]!;
      let otherwise = 0;
      for (const { weight, factor } of stretches) {
        otherwise += weight * survivalBy(steady, distance * factor, row);
      }
      const chance = FURTHER_CHANGE * (1 - Math.exp(-perMm * rate * distance));
      return value + chance * (otherwise - value);
    }),
  });
  const byPace = steady.byPace?.map((row) => falling(changed(row))) ?? null;
  return { ...steady, ...falling(changed(steady)), byPace };
}

function survivalRow(
  weights: Float64Array,
  start: Float64Array,
  columns: readonly Float64Array[],
): SurvivalRow {
  return falling({
    atStart: weighted(weights, start),
    values: Float64Array.from(columns, (column) => weighted(weights, column)),
  });
}

function falling({ atStart, values }: SurvivalRow): SurvivalRow {
  let least = atStart;
  return { atStart, values: values.map((value) => (least = Math.min(least, value))) };
}

/** Every so many entries of a table are compared. */
const COMPARED = 4;
/** Chances closer than this are alike. */
const ALIKE = 1e-5;

/** Whether the limit is reached sooner by one posterior than by another anywhere along the other's table. */
export function isSooner(
  posterior: WearPosterior,
  than: WearPosterior,
  limited: readonly LimitedPart[],
  { from, logStep, values }: Survival,
): boolean {
  for (let index = -1; index < values.length; index += COMPARED) {
    const ahead = index < 0 ? 0 : from * Math.exp(index * logStep);
    const left = weighted(posterior.weights, chancesAt(posterior, limited, ahead));
    if (left < weighted(than.weights, chancesAt(than, limited, ahead)) - ALIKE) return true;
  }
  return false;
}

function weighted(weights: Float64Array, chances: Float64Array): number {
  let sum = 0;
  for (let node = 0; node < weights.length; node++) sum += weights[node]! * chances[node]!;
  return sum;
}

/** The distance, doubling from a start, at which something holds. */
function firstFrom(start: number, holds: (ahead: number) => boolean): number {
  let ahead = start;
  while (ahead < FARTHEST && !holds(ahead)) ahead *= 2;
  return ahead;
}

/** The distance, halving from a start, at which something holds. */
function lastFrom(start: number, holds: (ahead: number) => boolean): number {
  let ahead = start;
  while (ahead > NEAREST && !holds(ahead)) ahead /= 2;
  return ahead;
}

/** The chance at each node of the rate that no part has reached its limit after a further `ahead`. */
function chancesAt(posterior: WearPosterior, limited: readonly LimitedPart[], ahead: number): Float64Array {
  const product = new Float64Array(posterior.nodes).fill(1);
  for (const { part, limitMm } of limited) multiplyChanceAbove(posterior, part, limitMm, ahead, product);
  return product;
}

/** S(x), between entries by a straight line in log distance. */
export function survivalBy(table: Survival, distance: number, row: SurvivalRow = table): number {
  return readRow(row, table.from, table.logStep, distance);
}

function readRow({ atStart, values }: SurvivalRow, from: number, logStep: number, distance: number): number {
  if (distance <= 0) return atStart;
  if (distance <= from) return atStart + (values[0]! - atStart) * (distance / from);
  const at = Math.log(distance / from) / logStep;
  if (at >= values.length - 1) return values[values.length - 1]!;
  const index = at | 0;
  const before = values[index]!;
  return before + (at - index) * (values[index + 1]! - before);
}

/** The distance by which the limit has been reached with a probability; 0 where it already has; null beyond the table. */
export function crossingDistance(table: Survival, probability: number): number | null {
  const { atStart, from, logStep, values } = table;
  const left = 1 - probability;
  if (atStart <= left) return 0;
  const index = values.findIndex((value) => value <= left);
  if (index === -1) return null;
  if (index === 0) return (from * (atStart - left)) / (atStart - values[0]!);
  const before = values[index - 1]!;
  return from * Math.exp((index - 1 + (before - left) / (before - values[index]!)) * logStep);
}

/** Probabilities at which the days to the limit are kept, so that a chance can be read back at any horizon. */
export const PROBABILITIES: readonly number[] = [
  0.001, 0.002, 0.005, 0.01, 0.02, 0.03, 0.05, 0.07, 0.1, 0.125, 0.15, 0.175, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45,
  0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.825, 0.85, 0.875, 0.9, 0.93, 0.95, 0.97, 0.98, 0.99, 0.995, 0.998,
  0.999,
];

/** Thirty years: beyond it no date is given. */
export const LONGEST_DAYS = 10_957;

/** When the limit is reached, kept small enough to store with every axle. */
export interface Crossing {
  /** Chance that it has been reached already. */
  already: number;
  /** Days at each of {@link PROBABILITIES}; 0 where it has been reached already, null beyond 30 years. */
  days: (number | null)[];
}

/** F(t): chance that the limit has been reached `days` after the start. */
export function reachedBy(table: Survival, usage: UsagePosterior, days: number): number {
  if (days <= 0) return 1 - table.atStart;
  const { weights, paces, dayToDay, season } = usage;
  const { from, logStep, byPace } = table;
  let row: SurvivalRow = table;
  let surviving = 0;
  for (let node = 0; node < weights.length; node++) {
    const scatter = dayToDay[node]!;
    const sd = Math.sqrt(scatter * scatter * days + seasonVariance(season[node]!, days));
    const pace = paces[node]! / 1000;
    if (byPace) row = byPace[node]!;
    let expected = 0;
    for (let point = 0; point < HERMITE.length; point++) {
      const distance = pace * (days + sd * HERMITE[point]![0]);
      expected += HERMITE[point]![1] * readRow(row, from, logStep, distance);
    }
    surviving += weights[node]! * expected;
  }
  return 1 - surviving;
}

const DATE_STEPS = 40;

/**
 * Days to the limit, from a table of F over the days that matter.
 *
 * @param least a chance that the limit has been reached already, from the latest reading by itself
 */
export function crossingDays(table: Survival, usage: UsagePosterior, least: number): Crossing {
  const already = Math.max(least, 1 - table.atStart);
  const reached = (days: number) => Math.max(already, reachedBy(table, usage, days));
  const last = firstFrom(1, (days) => days >= LONGEST_DAYS || reached(days) > 1 - HARDLY_ANY);
  const first = lastFrom(last / 2, (days) => reached(days) - already < HARDLY_ANY);
  const logStep = Math.log(last / first) / (DATE_STEPS - 1);
  const chances = new Float64Array(DATE_STEPS);
  let highest = already;
  for (let index = 0; index < DATE_STEPS; index++) {
    highest = Math.max(highest, reached(first * Math.exp(index * logStep)));
    chances[index] = highest;
  }
  const days = PROBABILITIES.map((probability) => {
    if (already >= probability) return 0;
    const index = chances.findIndex((chance) => chance >= probability);
    if (index === -1) return null;
    if (index === 0) return (first * (probability - already)) / (chances[0]! - already);
    const before = chances[index - 1]!;
    const day = first * Math.exp((index - 1 + (probability - before) / (chances[index]! - before)) * logStep);
    return day > LONGEST_DAYS ? null : Number(day.toFixed(2));
  });
  return { already, days };
}

/** What a reading by itself tells where no distance is known: the limit has been reached already, or nobody knows when. */
export function crossingUnknown(already: number): Crossing {
  return { already, days: PROBABILITIES.map((probability) => (already >= probability ? 0 : null)) };
}

/** Whole days by which the limit has been reached with a kept probability. */
export function daysAt({ days }: Crossing, probability: 0.02 | 0.1 | 0.5 | 0.9): number | null {
  const at = days[PROBABILITIES.indexOf(probability)] ?? null;
  return at === null ? null : Math.ceil(at);
}

/** The chance that the limit has been reached by a number of days, read back from the kept days. */
export function chanceWithin({ already, days }: Crossing, horizon: number): number {
  let from = { probability: already, days: 0 };
  if (horizon <= 0) return already;
  for (let index = 0; index < PROBABILITIES.length; index++) {
    const probability = PROBABILITIES[index]!;
    const at = days[index] ?? null;
    if (at === null) break;
    if (at > horizon) {
      const share = (horizon - from.days) / (at - from.days);
      return from.probability + share * (probability - from.probability);
    }
    if (probability > already) from = { probability, days: at };
  }
  return from.probability;
}
