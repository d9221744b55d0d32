import { seasonVariance, type UsagePosterior } from './usage.js';
import { multiplyChanceAbove, type WearPosterior } from './wear.js';

/**
 * When the first pad of an axle reaches its limit. By distance: the marginal crossing,
 * S(x) = Σ_b w_b Π_p P(thickness_p(x) > limit_p), made non-increasing, since true wear only goes one way. By date:
 * F(t) = 1 − E[S(distance driven in t days)] over the posterior of the daily pace and the scatter about it.
 */

/** Chance that no part has reached its limit by a distance ahead, tabulated; distances in 1000 km. */
export interface Survival {
  /** Chance at distance 0. */
  atStart: number;
  /** Distance of the first entry; entry i lies at `from · exp(i · logStep)`. */
  from: number;
  logStep: number;
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
 */
export function survival(
  posterior: WearPosterior,
  limited: readonly LimitedPart[],
  steps = DISTANCE_STEPS,
): Survival {
  const at = (ahead: number) => survivalAt(posterior, limited, ahead);
  const atStart = at(0);
  const to = firstFrom(1, (ahead) => at(ahead) < HARDLY_ANY);
  const from = lastFrom(to / 2, (ahead) => atStart - at(ahead) < HARDLY_ANY);
  const logStep = Math.log(to / from) / (steps - 1);
  const values = new Float64Array(steps);
  let least = atStart;
  for (let index = 0; index < steps; index++) {
    least = Math.min(least, at(from * Math.exp(index * logStep)));
    values[index] = least;
  }
  return { atStart, from, logStep, values };
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

function survivalAt(posterior: WearPosterior, limited: readonly LimitedPart[], ahead: number): number {
  const product = posterior.weights.slice();
  for (const { part, limitMm } of limited) multiplyChanceAbove(posterior, part, limitMm, ahead, product);
  return product.reduce((sum, value) => sum + value, 0);
}

/** S(x), between entries by a straight line in log distance. */
export function survivalBy({ atStart, from, logStep, values }: Survival, distance: number): number {
  if (distance <= 0) return atStart;
  if (distance <= from) return atStart + (values[0]! - atStart) * (distance / from);
  const at = Math.log(distance / from) / logStep;
  const index = Math.floor(at);
  if (index >= values.length - 1) return values[values.length - 1]!;
  return values[index]! + (at - index) * (values[index + 1]! - values[index]!);
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

/** Nodes and weights of the five-point Gauss–Hermite rule for a standard normal (Abramowitz and Stegun 25.4.46, scaled). */
const HERMITE = [
  [-2.8569700138728, 0.0112574113277],
  [-1.3556261799742, 0.2220759220057],
  [0, 0.5333333333333],
  [1.3556261799742, 0.2220759220057],
  [2.8569700138728, 0.0112574113277],
] as const;

/** F(t): chance that the limit has been reached `days` after the start. */
export function reachedBy(table: Survival, usage: UsagePosterior, days: number): number {
  if (days <= 0) return 1 - table.atStart;
  let surviving = 0;
  for (let node = 0; node < usage.weights.length; node++) {
    const dayToDay = usage.dayToDay[node]!;
    const sd = Math.sqrt(dayToDay * dayToDay * days + seasonVariance(usage.season[node]!, days));
    const pace = usage.paces[node]! / 1000;
    let expected = 0;
    for (const [z, weight] of HERMITE) expected += weight * survivalBy(table, pace * (days + sd * z));
    surviving += usage.weights[node]! * expected;
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
export function daysAt({ days }: Crossing, probability: 0.1 | 0.5 | 0.9): number | null {
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
