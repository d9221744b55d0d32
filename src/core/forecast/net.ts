import { normalQuantile } from './normal.js';

/** Number of draws of the wear parameters in an experience. */
export const DRAWS = 8;
/** Number of draws of the usage parameters, which matter less. */
export const USAGE_DRAWS = 4;

const PRIMES = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53];

/**
 * Position of draw `index` along parameter `dimension`, in standard deviations: a balanced net of normal scores.
 * Distances follow an additive recurrence with square roots of primes (Richtmyer), for even coverage with few points.
 * Signs follow a Hadamard pattern, so that parameters do not rise together. The second half of the draws mirrors the
 * first, which keeps the mean of every parameter.
 */
export function netScore(index: number, dimension: number, draws = DRAWS): number {
  const half = draws / 2;
  const base = index % half;
  const position = (base + 1) * Math.sqrt(PRIMES[dimension]!);
  const pattern = base & (dimension % half);
  const isNegative = index >= half !== (((pattern >> 1) ^ pattern) & 1) > 0;
  const distance = normalQuantile(0.5 + 0.5 * (position - Math.floor(position)));
  return isNegative ? -distance : distance;
}
