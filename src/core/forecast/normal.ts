import { pnorm, qnorm } from 'lib-r-math.js';

/**
 * The standard normal distribution. The library's functions are R's own, accurate in the tails; the forecast asks
 * for the distribution function tens of thousands of times an answer, so it reads a table made from them.
 */

/** Standard normal quantile of a probability in (0, 1). */
export const normalQuantile = (probability: number): number => qnorm(probability);

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
/** Density times the step: the slope over one step of the table. */
const SLOPE = new Float64Array(SIZE + 1);
for (let index = 0; index < CDF.length; index++) {
  const z = index / STEPS_PER_UNIT - REACH;
  CDF[index] = pnorm(z);
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

/** A mixture of normals: weights summing to one, means, standard deviations; arrays of one length. */
export interface NormalMixture {
  weights: Float64Array;
  means: Float64Array;
  sds: Float64Array;
}

/** Components lighter than this are left out of a quantile. */
const LIGHTEST = 1e-5;
/** Bisections that take the whole width of a mixture down to a ten-thousandth of it. */
const BISECTIONS = 14;

/** Quantile of a mixture of normals, by bisection. */
export function mixtureQuantile(mixture: NormalMixture, probability: number): number {
  let count = 0;
  let total = 0;
  let low = Infinity;
  let high = -Infinity;
  const { weights, means, sds } = mixture;
  const heavy = new Int32Array(weights.length);
  for (let i = 0; i < weights.length; i++) {
    if (weights[i]! < LIGHTEST) continue;
    heavy[count++] = i;
    total += weights[i]!;
    low = Math.min(low, means[i]! - 3.5 * sds[i]!);
    high = Math.max(high, means[i]! + 3.5 * sds[i]!);
  }
  const wanted = probability * total;
  for (let step = 0; step < BISECTIONS; step++) {
    const middle = 0.5 * (low + high);
    let below = 0;
    for (let k = 0; k < count; k++) {
      const i = heavy[k]!;
      below += weights[i]! * normalCdf((middle - means[i]!) / sds[i]!);
    }
    if (below < wanted) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}
