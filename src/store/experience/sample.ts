import type { ReadingComponents } from '../engine/contract/engine.js';

/** Samples vehicles in large shops. A shop of a few thousand vehicles is used completely. */

/** Maximum vehicles per model and in total for a fit; more would not improve its result. */
const MAX_PER_MODEL = 300;
const MAX_TO_LEARN_FROM = 3000;

/** The vehicles used for a fit: equally many of every model, spread evenly over the order of recording. */
export async function learningSample({ lessons }: Pick<ReadingComponents, 'lessons'>): Promise<number[]> {
  return lessons.sample(maxOfEach(await lessons.modelSizes()));
}

/** The maximum per model that keeps the total within bounds; at least one. */
function maxOfEach(counts: readonly number[]): number {
  const taken = (max: number): number => counts.reduce((sum, each) => sum + Math.min(each, max), 0);
  let max = MAX_PER_MODEL;
  while (max > 1 && taken(max) > MAX_TO_LEARN_FROM) max -= 1;
  return max;
}

/** Maximum vehicles whose past forecasts are scored for one report. */
const MAX_TO_SCORE = 2000;

/** The share of vehicles to score, so that about 2000 are scored; null to score all. */
export const scoringShare = (of: number): number | null => (of <= MAX_TO_SCORE ? null : MAX_TO_SCORE / of);
