import type { Experience } from './experience.js';
import { copulaDensity, momentsOf, scores } from './link.js';
import type { UsagePosterior } from './usagePosterior.js';
import type { WearPosterior } from './wear.js';

/** One vehicle's wear and use, each from its own posterior, with the experience used for both. */
export interface Pair {
  wear: WearPosterior;
  usage: UsagePosterior;
  experience: Experience;
}

const PRIOR_SD = 0.35;
const POINTS = 41;
const REACH = 1.4;
/** Nodes with less weight than this are skipped. */
const MIN_WEIGHT = 1e-3;

/** Posterior mean of the correlation between log rate and log pace over vehicles, shrunk towards 0. */
export function fitCorrelation(pairs: readonly Pair[]): number {
  const tried = Array.from({ length: POINTS }, (_, index) => -REACH + (2 * REACH * index) / (POINTS - 1));
  const logs = tried.map((fisher) => -0.5 * (fisher / PRIOR_SD) ** 2);
  for (const pair of pairs) addEvidence(pair, tried.map(Math.tanh), logs);
  const top = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - top));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return Math.tanh(weights.reduce((sum, weight, index) => sum + weight * tried[index]!, 0) / total);
}

function addEvidence({ wear, usage, experience }: Pair, correlations: number[], logs: number[]): void {
  const rates = heavy(
    scores(
      wear.rates,
      momentsOf(experience.pads, (draw) => [draw.logRateMean, draw.logRateSd]),
    ),
    wear.weights,
  );
  const paces = heavy(
    scores(
      usage.paces,
      momentsOf(experience.usage, (draw) => [draw.logPaceMean, draw.logPaceSd]),
    ),
    usage.weights,
  );
  correlations.forEach((correlation, index) => {
    let sum = 0;
    for (const rate of rates) {
      for (const pace of paces) {
        sum += rate.weight * pace.weight * copulaDensity(rate.score, pace.score, correlation);
      }
    }
    logs[index]! += Math.log(sum);
  });
}

const heavy = (scored: Float64Array, weights: Float64Array): { score: number; weight: number }[] =>
  Array.from(scored, (score, index) => ({ score, weight: weights[index]! })).filter(
    ({ weight }) => weight > MIN_WEIGHT,
  );
