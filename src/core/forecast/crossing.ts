import { filled, mapped, zeros } from './floats.js';
import { HERMITE } from './normal.js';
import type { UsagePosterior } from './usagePosterior.js';
import { daysInUse, type WeightedDays } from './spells.js';
import { multiplyChanceAbove, type WearPosterior } from './wear.js';

/**
 * When the first pad of an axle reaches its limit. By distance: the marginal crossing S(x) = Σ_b w_b Π_p
 * P(thickness_p(x) > limit_p), made non-increasing because pads never grow back. By date: F(t) = 1 − E[S(distance
 * driven in t days)], over the posterior of the daily pace and the day-to-day scatter.
 */

/** Table of the chance that no part has reached its limit after a further distance; distances in 1000 km. */
export interface Survival extends SurvivalRow {
  /** Distance of the first entry; entry i is at `from · exp(i · logStep)`. */
  from: number;
  logStep: number;
  /** The same, given each node of the pace; null if wear and use are independent. */
  byPace: SurvivalRow[] | null;
  /** The same without future changes of rate. */
  unchanged: SurvivalRow;
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

const DISTANCE_STEPS = 32;
/** Chance at the ends of a table: of having reached the limit at its start, and of not having reached it at its end. */
const HARDLY_ANY = 5e-4;
/** Bounds on the ends of the table, 1000 km. */
const MAX_DISTANCE = 20_000;
const MIN_DISTANCE = 0.02;

/**
 * @param limited parts with a known state and a limit; at least one
 * @param steps number of entries in the table
 * @param ratesByPace weights of the rate nodes given each pace node, if the two are correlated
 */
export function survival(
  posterior: WearPosterior,
  limited: readonly LimitedPart[],
  steps = DISTANCE_STEPS,
  ratesByPace: readonly Float64Array[] | null = null,
): Survival {
  const { nodes, weights, changes } = posterior;
  const at = survivalAt(posterior, limited);
  const atStart = at(0);
  const slowest = changes.perMm > 0 ? Math.exp(2 * changes.sd) : 1;
  const to = slowest * doubleUntil(1, (ahead) => at(ahead) < HARDLY_ANY);
  const from = halveUntil(to / 2, (ahead) => atStart - at(ahead) < HARDLY_ANY);
  const logStep = Math.log(to / from) / (steps - 1);
  const distances = filled(steps, (index) => from * Math.exp(index * logStep));
  const chances = zeros((1 + steps) * nodes);
  writeChances(posterior, limited, 0, chances, 0);
  distances.forEach((distance, index) => {
    writeChances(posterior, limited, distance, chances, (1 + index) * nodes);
  });
  const byPace = ratesByPace?.map((rates) => survivalRow(rates, chances)) ?? null;
  const unchanged = survivalRow(weights, chances);
  const steady: Survival = { ...unchanged, from, logStep, byPace, unchanged };
  const changed = changes.perMm > 0 ? withChanges(steady, posterior, distances) : steady;
  return posterior.drags.per1000Km > 0 ? withDrags(changed, posterior, distances) : changed;
}

/** Share of the distance ahead driven at the changed rate: three equally likely points. */
const SHARES_CHANGED = [1 / 6, 1 / 2, 5 / 6];

/** Allows for future changes of rate. After a change, a distance wears the pads as a longer or shorter one would. */
function withChanges(steady: Survival, posterior: WearPosterior, distances: Float64Array): Survival {
  const { perMm, sd } = posterior.changes;
  const rate = weighted(posterior.weights, posterior.rates, 0);
  const stretches = HERMITE.flatMap(([z, weight]) =>
    SHARES_CHANGED.map((share) => ({
      weight: weight / SHARES_CHANGED.length,
      factor: 1 + (Math.exp(sd * z) - 1) * share,
    })),
  );
  const chances = mapped(distances, (distance) => 1 - Math.exp(-perMm * rate * distance));
  return withStretches(steady, chances, stretches);
}

/** Allows for a part that starts to drag. The remaining distance then wears it as a longer one would. */
function withDrags(steady: Survival, { drags }: WearPosterior, distances: Float64Array): Survival {
  const chances = mapped(distances, (distance) => 1 - Math.exp(-drags.per1000Km * distance));
  const stretches = SHARES_CHANGED.map((share) => ({
    weight: 1 / SHARES_CHANGED.length,
    factor: 1 + (drags.factor - 1) * share,
  }));
  return withStretches(steady, chances, stretches);
}

/** @param chances for each entry, the chance that the rate changes, or a part starts to drag, before it */
function withStretches(
  steady: Survival,
  chances: Float64Array,
  stretches: readonly { weight: number; factor: number }[],
): Survival {
  const changed = (row: SurvivalRow): SurvivalRow => {
    const otherwise = zeros(chances.length);
    for (const { weight, factor } of stretches) addStretched(row, steady, factor, weight, otherwise);
    return {
      atStart: row.atStart,
      values: mapped(row.values, (value, index) => value + chances[index]! * (otherwise[index]! - value)),
    };
  };
  const byPace = steady.byPace?.map((row) => falling(changed(row))) ?? null;
  return { ...steady, ...falling(changed(steady)), byPace };
}

/** Adds `weight` times the chance at `factor` times each distance: on the log scale, a shift by some entries. */
function addStretched(
  row: SurvivalRow,
  { from, logStep }: Survival,
  factor: number,
  weight: number,
  into: Float64Array,
): void {
  const { values } = row;
  const entries = Math.log(factor) / logStep;
  const whole = Math.floor(entries);
  const part = entries - whole;
  const last = values.length - 1;
  for (let index = 0; index <= last; index++) {
    const at = index + whole;
    if (at < 0)
      into[index]! += weight * readRow(row, from, logStep, from * Math.exp((index + entries) * logStep));
    else if (at >= last) into[index]! += weight * values[last]!;
    else into[index]! += weight * (values[at]! + part * (values[at + 1]! - values[at]!));
  }
}

/**
 * A row of the table, made non-increasing.
 *
 * @param chances at each rate node, first at distance 0, then at each distance of the table
 */
function survivalRow(weights: Float64Array, chances: Float64Array): SurvivalRow {
  const nodes = weights.length;
  const values = zeros(chances.length / nodes - 1);
  for (let index = 0; index < values.length; index++) {
    values[index] = weighted(weights, chances, (1 + index) * nodes);
  }
  return falling({ atStart: weighted(weights, chances, 0), values });
}

function falling({ atStart, values }: SurvivalRow): SurvivalRow {
  let min = atStart;
  for (let index = 0; index < values.length; index++) values[index] = min = Math.min(min, values[index]!);
  return { atStart, values };
}

/** {@link isSooner} compares only every n-th entry of a table. */
const COMPARED = 4;
/** Smaller differences in chance count as equal. */
const TOLERANCE = 1e-5;

/** Whether a posterior reaches the limit sooner than a table, at any compared distance. */
export function isSooner(
  posterior: WearPosterior,
  limited: readonly LimitedPart[],
  { from, logStep, unchanged: { atStart, values } }: Survival,
): boolean {
  const at = survivalAt(posterior, limited);
  if (at(0) < atStart - TOLERANCE) return true;
  for (let index = COMPARED - 1; index < values.length; index += COMPARED) {
    if (at(from * Math.exp(index * logStep)) < values[index]! - TOLERANCE) return true;
  }
  return false;
}

/** S(x) as a function of the distance ahead. */
function survivalAt(posterior: WearPosterior, limited: readonly LimitedPart[]): (ahead: number) => number {
  const chances = zeros(posterior.nodes);
  return (ahead) => {
    writeChances(posterior, limited, ahead, chances, 0);
    return weighted(posterior.weights, chances, 0);
  };
}

/** Weighted mean of the chances at the nodes; the first node's is at index `first`. */
function weighted(weights: Float64Array, chances: Float64Array, first: number): number {
  let sum = 0;
  for (let node = 0; node < weights.length; node++) sum += weights[node]! * chances[first + node]!;
  return sum;
}

/** Doubles a distance from `start` until the condition holds. */
function doubleUntil(start: number, holds: (ahead: number) => boolean): number {
  let ahead = start;
  while (ahead < MAX_DISTANCE && !holds(ahead)) ahead *= 2;
  return ahead;
}

/** Halves a distance from `start` until the condition holds. */
function halveUntil(start: number, holds: (ahead: number) => boolean): number {
  let ahead = start;
  while (ahead > MIN_DISTANCE && !holds(ahead)) ahead /= 2;
  return ahead;
}

/** Writes the chance, at each rate node, that no part has reached its limit after a further `ahead`. */
function writeChances(
  posterior: WearPosterior,
  limited: readonly LimitedPart[],
  ahead: number,
  chances: Float64Array,
  first: number,
): void {
  chances.fill(1, first, first + posterior.nodes);
  for (const { part, limitMm } of limited) {
    multiplyChanceAbove(posterior, part, limitMm, ahead, chances, first);
  }
}

/** S(x), interpolated linearly in log distance. */
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

/** Distance by which the limit is reached with a given probability; 0 if already, null beyond the table. */
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

/** Probabilities for which the days to the limit are stored, so that the chance at any horizon can be interpolated. */
export const PROBABILITIES: readonly number[] = [
  0.001, 0.002, 0.005, 0.01, 0.02, 0.03, 0.05, 0.07, 0.1, 0.125, 0.15, 0.175, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45,
  0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.825, 0.85, 0.875, 0.9, 0.93, 0.95, 0.97, 0.98, 0.99, 0.995, 0.998,
  0.999,
];

/** Thirty years; the forecast gives no later date. */
export const LONGEST_DAYS = 10_957;

/** When the limit is reached, compact enough to store for every axle. */
export interface Crossing {
  /** Chance that the limit is already reached. */
  already: number;
  /** Days at each of {@link PROBABILITIES}; 0 if already reached, null beyond 30 years. */
  days: (number | null)[];
}

/** F(t): the chance that the limit is reached within t days of the start. */
export function reachedWithin(table: Survival, usage: UsagePosterior): (days: number) => number {
  const logPaces = mapped(usage.paces, (pace) => Math.log(pace / 1000));
  return (days) => {
    if (days <= 0) return 1 - table.atStart;
    let surviving = 0;
    for (const way of usage.ways) {
      surviving += survivingDays(table, usage, logPaces, way.weights, daysInUse(days, way, usage));
    }
    return 1 - surviving;
  };
}

/**
 * Chance that no part has reached its limit after some days in use, averaged over the pace nodes.
 *
 * @param logPaces log of the pace, 1000 km a day
 * @param weights of the pace nodes
 */
function survivingDays(
  table: Survival,
  { paces }: UsagePosterior,
  logPaces: Float64Array,
  weights: Float64Array,
  { days, weights: dayWeights }: WeightedDays,
): number {
  const { from, logStep, byPace } = table;
  const last = table.values.length - 1;
  const logFrom = Math.log(from);
  // One logarithm per number of days, instead of one per pace node.
  const entries = days.map((inUse) => (inUse > 0 ? (Math.log(inUse) - logFrom) / logStep : -Infinity));
  let sum = 0;
  for (let node = 0; node < paces.length; node++) {
    const weight = weights[node]!;
    if (weight === 0) continue;
    const { atStart, values } = byPace ? byPace[node]! : table;
    const ofPace = logPaces[node]! / logStep;
    let expected = 0;
    for (let point = 0; point < entries.length; point++) {
      const at = entries[point]! + ofPace;
      let surviving: number;
      if (at >= last) surviving = values[last]!;
      else if (at >= 0) {
        const index = at | 0;
        const before = values[index]!;
        surviving = before + (at - index) * (values[index + 1]! - before);
      } else if (days[point]! <= 0) surviving = atStart;
      else surviving = atStart + (values[0]! - atStart) * ((paces[node]! * days[point]!) / 1000 / from);
      expected += dayWeights[point]! * surviving;
    }
    sum += weight * expected;
  }
  return sum;
}

const DATE_STEPS = 32;

/**
 * Days to the limit, from a table of F.
 *
 * @param minAlready lower bound on the chance that the limit is already reached, from the latest reading alone
 * @param steps number of entries in the table
 */
export function crossingDays(
  table: Survival,
  usage: UsagePosterior,
  minAlready: number,
  steps = DATE_STEPS,
): Crossing {
  const already = Math.max(minAlready, 1 - table.atStart);
  const within = reachedWithin(table, usage);
  const reached = (days: number) => Math.max(already, within(days));
  const last = doubleUntil(1, (days) => days >= LONGEST_DAYS || reached(days) > 1 - HARDLY_ANY);
  const first = halveUntil(last / 2, (days) => reached(days) - already < HARDLY_ANY);
  const logStep = Math.log(last / first) / (steps - 1);
  const chances = zeros(steps);
  let highest = already;
  for (let index = 0; index < steps; index++) {
    highest = Math.max(highest, reached(first * Math.exp(index * logStep)));
    chances[index] = highest;
  }
  let index = 0;
  const days = PROBABILITIES.map((probability) => {
    if (already >= probability) return 0;
    while (index < steps && chances[index]! < probability) index++;
    if (index === steps) return null;
    if (index === 0) return (first * (probability - already)) / (chances[0]! - already);
    const before = chances[index - 1]!;
    const day = first * Math.exp((index - 1 + (probability - before) / (chances[index]! - before)) * logStep);
    return day > LONGEST_DAYS ? null : Number(day.toFixed(2));
  });
  return { already, days };
}

/** The stored probabilities for which answers give dates. */
export type StoredProbability = 0.05 | 0.1 | 0.25 | 0.5 | 0.75 | 0.9;

/** Whole days by which the limit is reached with a stored probability. */
export function daysAt({ days }: Crossing, probability: StoredProbability): number | null {
  const at = days[PROBABILITIES.indexOf(probability)] ?? null;
  return at === null ? null : Math.ceil(at);
}

/** Chance that the limit is reached within `horizon` days, interpolated from the stored days. */
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
