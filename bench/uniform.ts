import { pchisq } from 'lib-r-math.js';

/** Tests of whether numbers between 0 and 1 are uniform. */
export interface Uniformity {
  statistic: number;
  /** Chance of a statistic at least this large if they are uniform. */
  p: number;
}

/** Shares of the numbers in equal bins from 0 to 1. */
export function histogram(numbers: readonly number[], bins: number): number[] {
  const counts = new Array<number>(bins).fill(0);
  for (const number of numbers) counts[Math.min(bins - 1, Math.floor(number * bins))]! += 1;
  return counts.map((count) => count / numbers.length);
}

/** Pearson's chi-square test over equal bins; it detects humps and dips of any shape. */
export function chiSquareTest(numbers: readonly number[], bins = 20): Uniformity {
  const expected = 1 / bins;
  const statistic = histogram(numbers, bins).reduce(
    (sum, share) => sum + (numbers.length * (share - expected) ** 2) / expected,
    0,
  );
  return { statistic, p: pchisq(statistic, bins - 1, undefined, false) };
}

/**
 * Kolmogorov's test: the maximum distance between the empirical distribution function and the straight line. It detects
 * shifts to one side. The chance is the limit law with the small-sample correction of M. A. Stephens, "EDF statistics
 * for goodness of fit and some comparisons", Journal of the American Statistical Association 69 (1974) 730–737 (from
 * memory).
 */
export function kolmogorovTest(numbers: readonly number[]): Uniformity {
  const sorted = [...numbers].sort((a, b) => a - b);
  const n = sorted.length;
  const statistic = sorted.reduce(
    (max, number, index) => Math.max(max, number - index / n, (index + 1) / n - number),
    0,
  );
  const scaled = (Math.sqrt(n) + 0.12 + 0.11 / Math.sqrt(n)) * statistic;
  let p = 0;
  for (let term = 1; term <= 100; term++) p += 2 * (-1) ** (term - 1) * Math.exp(-2 * (term * scaled) ** 2);
  return { statistic, p: scaled < 0.2 ? 1 : Math.min(1, Math.max(0, p)) };
}
