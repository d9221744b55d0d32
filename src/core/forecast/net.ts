import { normalQuantile } from './normal.js';

/** Draws of the parameters that an experience holds. */
export const DRAWS = 8;
/** Draws of the parameters of use, which matter less to a forecast. */
export const USAGE_DRAWS = 4;

const PRIMES = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53];

/**
 * How far, in standard deviations, draw `index` lies along parameter `dimension`: a balanced net of normal scores.
 * Distances follow an additive recurrence with square roots of primes (Richtmyer), for even coverage with few points;
 * signs follow a Hadamard pattern, so that parameters do not rise together; and the second half of the draws mirrors
 * the first, so that the mean of every parameter is kept.
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
