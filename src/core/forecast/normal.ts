import erfc from '@stdlib/math-base-special-erfc';
import erfcinv from '@stdlib/math-base-special-erfcinv';

/**
 * The standard normal distribution, from the complementary error function and its inverse, which stay accurate in the
 * tails: Φ(z) = erfc(−z/√2)/2 (Abramowitz and Stegun 7.1.22 and 26.2.29). A forecast needs the distribution function
 * tens of thousands of times, so {@link normalCdf} interpolates in a table.
 */

/** Standard normal distribution function to full precision, also in the lower tail; slower than {@link normalCdf}. */
export const exactNormalCdf = (z: number): number => 0.5 * erfc(-z * Math.SQRT1_2);

/** Standard normal quantile of a probability in (0, 1). */
export const normalQuantile = (probability: number): number => -Math.SQRT2 * erfcinv(2 * probability);

/** Nodes and weights of the five-point Gauss–Hermite rule for a standard normal (Abramowitz and Stegun 25.4.46, scaled). */
export const HERMITE = [
  [-2.8569700138728, 0.0112574113277],
  [-1.3556261799742, 0.2220759220057],
  [0, 0.5333333333333],
  [1.3556261799742, 0.2220759220057],
  [2.8569700138728, 0.0112574113277],
] as const;

const STEPS_PER_UNIT = 64;
const REACH = 8.5;
const SIZE = 2 * REACH * STEPS_PER_UNIT + 1;
const CDF = new Float64Array(SIZE + 1);
/** Density times the step: the slope over one table step. */
const SLOPE = new Float64Array(SIZE + 1);
for (let index = 0; index < CDF.length; index++) {
  const z = index / STEPS_PER_UNIT - REACH;
  CDF[index] = exactNormalCdf(z);
  SLOPE[index] = Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI) / STEPS_PER_UNIT;
}

/** Standard normal distribution function, by cubic Hermite interpolation: within 1e-9 of the exact value. */
export function normalCdf(z: number): number {
  if (z <= -REACH) return 0;
  if (z >= REACH) return 1;
  const at = (z + REACH) * STEPS_PER_UNIT;
  const index = at | 0;
  const u = at - index;
  const from = CDF[index]!;
  const rise = CDF[index + 1]! - from;
  const startSlope = SLOPE[index]!;
  const endSlope = SLOPE[index + 1]!;
  const a = startSlope + endSlope - 2 * rise;
  const b = 3 * rise - 2 * startSlope - endSlope;
  return from + u * (startSlope + u * (b + u * a));
}

/** Tables of exp(−n) for whole n and of exp(−k/256) for the fractional part. */
const DECAY_BITS = 8;
const DECAY_PARTS = 2 ** DECAY_BITS;
const DECAY_REACH = 700;
const WHOLE_DECAY = Float64Array.from({ length: DECAY_REACH + 1 }, (_, n) => Math.exp(-n));
const PART_DECAY = Float64Array.from({ length: DECAY_PARTS }, (_, k) => Math.exp(-k / DECAY_PARTS));

/**
 * exp(−x) for x ≥ 0, from two tables and a Taylor series about the nearest entry: within 1e-12 of the exact value, in
 * half the time of `Math.exp`.
 */
export function decay(x: number): number {
  if (!(x < DECAY_REACH)) return Math.exp(-x);
  const entry = (x * DECAY_PARTS + 0.5) | 0;
  const t = entry / DECAY_PARTS - x;
  const nearest = WHOLE_DECAY[entry >> DECAY_BITS]! * PART_DECAY[entry & (DECAY_PARTS - 1)]!;
  return nearest * (1 + t + t * t * (1 / 2 + t * (1 / 6)));
}

/** A mixture of normals: weights summing to one, means, standard deviations; arrays of one length. */
export interface NormalMixture {
  weights: Float64Array;
  means: Float64Array;
  sds: Float64Array;
}

/** Probability that a value drawn from the mixture lies below `value`. */
export function chanceBelow({ weights, means, sds }: NormalMixture, value: number): number {
  let sum = 0;
  for (let index = 0; index < weights.length; index++) {
    sum += weights[index]! * normalCdf((value - means[index]!) / sds[index]!);
  }
  return sum;
}

/** Minimum weight of a component for quantiles. */
const MIN_WEIGHT = 1e-5;
/** Tolerance of quantiles, in standard deviations of the mixture. */
const CLOSE_ENOUGH = 1e-5;
/** After a Newton step shorter than this, the remaining error is of the order of its square. */
const LAST_STEP = 3e-4;
const MAX_STEPS = 40;

/** Quantiles of a mixture of normals, by Newton's method within shrinking bounds. */
export function mixtureQuantiles(mixture: NormalMixture, probabilities: readonly number[]): number[] {
  const { mean, sd, low, high, total, heavy } = outline(mixture);
  return probabilities.map((probability) => {
    const wanted = probability * total;
    let under = low;
    let over = high;
    let at = Math.min(high, Math.max(low, mean + normalQuantile(probability) * sd));
    for (let step = 0; step < MAX_STEPS; step++) {
      const { below, density } = distributionAt(mixture, heavy, at);
      if (below < wanted) under = at;
      else over = at;
      const next = at + (wanted - below) / density;
      const isWithin = next > under && next < over;
      const move = (isWithin ? next : 0.5 * (under + over)) - at;
      at += move;
      if (Math.abs(move) < (isWithin ? LAST_STEP : CLOSE_ENOUGH) * sd) break;
    }
    return at;
  });
}

interface Outline {
  mean: number;
  sd: number;
  /** Bounds that contain practically all of the mixture. */
  low: number;
  high: number;
  /** Indices of the components used, and the sum of their weights. */
  heavy: Int32Array;
  total: number;
}

function outline({ weights, means, sds }: NormalMixture): Outline {
  const heavy = new Int32Array(weights.length);
  let count = 0;
  let total = 0;
  let sum = 0;
  let squares = 0;
  let low = Infinity;
  let high = -Infinity;
  for (let index = 0; index < weights.length; index++) {
    const weight = weights[index]!;
    if (weight < MIN_WEIGHT) continue;
    const mean = means[index]!;
    const sd = sds[index]!;
    heavy[count++] = index;
    total += weight;
    sum += weight * mean;
    squares += weight * (mean * mean + sd * sd);
    low = Math.min(low, mean - 4 * sd);
    high = Math.max(high, mean + 4 * sd);
  }
  const mean = sum / total;
  const sd = Math.sqrt(Math.max(0, squares / total - mean * mean));
  return { mean, sd, low, high, total, heavy: heavy.subarray(0, count) };
}

/** Distribution function and density of the components used, from the table and its slope. */
function distributionAt(
  { weights, means, sds }: NormalMixture,
  heavy: Int32Array,
  value: number,
): { below: number; density: number } {
  let below = 0;
  let density = 0;
  for (let k = 0; k < heavy.length; k++) {
    const index = heavy[k]!;
    const weight = weights[index]!;
    const precision = 1 / sds[index]!;
    const z = (value - means[index]!) * precision;
    if (z <= -REACH) continue;
    if (z >= REACH) {
      below += weight;
      continue;
    }
    const at = (z + REACH) * STEPS_PER_UNIT;
    const entry = at | 0;
    const slope = SLOPE[entry]! + (at - entry) * (SLOPE[entry + 1]! - SLOPE[entry]!);
    below += weight * normalCdf(z);
    density += weight * slope * STEPS_PER_UNIT * precision;
  }
  return { below, density };
}
