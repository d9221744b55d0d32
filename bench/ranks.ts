import type { Chance } from '../seed/random.js';
import { survival, survivalBy } from '../src/core/forecast/crossing.js';
import type { Draw, WearParameters } from '../src/core/forecast/experience.js';
import { partMixture, wearPosterior } from '../src/core/forecast/wear.js';
import { LIMIT_MM, type ModelAxle } from './modelAxles.js';
import { mixtureCdf, readingCdf } from './predictive.js';

/**
 * Simulation-based calibration: S. Talts, M. Betancourt, D. Simpson, A. Vehtari and A. Gelman, "Validating Bayesian
 * inference algorithms with simulation-based calibration", arXiv:1804.06788 (2018). If truths come from the prior
 * and readings from the model, the rank of each truth within its own posterior is uniform from 0 to 1. Since
 * the posteriors here are distribution functions instead of samples, the rank is read off them directly.
 */
export interface Ranks {
  /** Of the first pad's next reading, of its rate, and of the distance to the first pad at the limit. */
  reading: number;
  rate: number;
  crossing: number;
}

export const RANKED = ['reading', 'rate', 'crossing'] as const satisfies readonly (keyof Ranks)[];

/** The ranks of an axle's truths within the forecasts from its readings. */
export function ranksOf(
  { parts, now, truth }: ModelAxle,
  draws: readonly Draw<WearParameters>[],
  chance: Chance,
): Ranks {
  const posterior = wearPosterior(parts, draws, now);
  const table = survival(
    posterior,
    parts.map((_, part) => ({ part, limitMm: LIMIT_MM })),
  );
  return {
    reading: readingCdf(posterior, draws, { part: 0, ...truth.next })(truth.next.mm),
    rate: mixtureCdf(partMixture(posterior, 0, 'rate'), truth.rate),
    // Truths at the limit already share one chance; every rank within it is equally good.
    crossing:
      truth.crossing === 0 ? chance.between(0, 1 - table.atStart) : 1 - survivalBy(table, truth.crossing),
  };
}
