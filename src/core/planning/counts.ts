import { normalCdf, normalQuantile } from '../forecast/normal.js';

/**
 * The number of independent events that happen, each with its own chance (the Poisson-binomial distribution). While the
 * variance is small, it is exact, computed by adding one event after another. Beyond that it uses the refined normal
 * approximation, with continuity correction and a term for the skewness (Volkova 1996, as in Hong 2013, 'On
 * computing the distribution function for the Poisson binomial distribution', equation 14; from memory).
 */
export interface Count {
  /** The sums of p, of p(1 − p) and of p(1 − p)(1 − 2p): mean, variance and third central moment. */
  mean: number;
  variance: number;
  third: number;
  /** Chances of `from`, `from + 1`, … events; null once the approximation is used. */
  exact: { from: number; chances: number[] } | null;
}

export const noneOf = (): Count => ({
  mean: 0,
  variance: 0,
  third: 0,
  exact: { from: 0, chances: [1] },
});

/**
 * Above this variance the approximation is used: its distribution function is then within 5e-4 of the exact one, so
 * that a 10 % or 90 % point is at most one event off, and rarely that (tests/unit/counts.test.ts).
 */
const MAX_EXACT_VARIANCE = 100;
/** Tails lighter than this are dropped; 200,000 events then lose less than 1e-9 of the distribution. */
const NEGLIGIBLE = 1e-15;

/** Adds one event. */
export function takeIn(count: Count, chance: number): void {
  if (chance <= 0) return;
  const left = 1 - chance;
  count.mean += chance;
  count.variance += chance * left;
  count.third += chance * left * (left - chance);
  if (count.variance > MAX_EXACT_VARIANCE) count.exact = null;
  if (!count.exact) return;
  const { chances } = count.exact;
  let before = 0;
  for (let index = 0; index < chances.length; index++) {
    const here = chances[index]!;
    chances[index] = here * left + before * chance;
    before = here;
  }
  chances.push(before * chance);
  while (chances.length > 1 && chances.at(-1)! < NEGLIGIBLE) chances.pop();
  while (chances.length > 1 && chances[0]! < NEGLIGIBLE) {
    chances.shift();
    count.exact.from += 1;
  }
}

/** The chance of at most the given number of events. */
export function chanceOfAtMost({ mean, variance, third, exact }: Count, events: number): number {
  if (exact) {
    let sum = 0;
    for (let index = 0; index < exact.chances.length && exact.from + index <= events; index++) {
      sum += exact.chances[index]!;
    }
    return Math.min(1, sum);
  }
  const sd = Math.sqrt(variance);
  const z = (events + 0.5 - mean) / sd;
  const density = Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
  const skewness = third / (variance * sd);
  return Math.min(1, Math.max(0, normalCdf(z) + (skewness * (1 - z * z) * density) / 6));
}

/** The smallest number of events that is not exceeded with at least the given probability. */
export function countAt(count: Count, probability: number): number {
  if (!count.exact) {
    const { mean, variance } = count;
    // Start well below and count up: the correction is far smaller than a standard deviation.
    let events = Math.max(0, Math.floor(mean + (normalQuantile(probability) - 0.5) * Math.sqrt(variance)));
    while (chanceOfAtMost(count, events) < probability) events += 1;
    return events;
  }
  const { from, chances } = count.exact;
  let sum = 0;
  for (let index = 0; index < chances.length; index++) {
    sum += chances[index]!;
    if (sum >= probability) return from + index;
  }
  return from + chances.length - 1;
}
