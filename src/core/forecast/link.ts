import type { Draw, Experience } from './experience.js';
import { mapped, zeros } from './floats.js';
import type { UsagePosterior } from './usagePosterior.js';
import type { WearPosterior } from './wear.js';

/**
 * Joint wear and use of one vehicle: town vehicles drive few kilometres a day and wear more per kilometre. The joint
 * weight of a log rate and a log pace is the product of their weights times the density of a Gaussian copula.
 */
export interface Linked {
  posterior: WearPosterior;
  usage: UsagePosterior;
  /** Weight of each rate node given each pace node, pace-major; null if independent. */
  ratesByPace: Float64Array[] | null;
}

/** Minimum correlation; weaker ones have no visible effect. */
const MIN_CORRELATION = 0.02;

export function link(posterior: WearPosterior, usage: UsagePosterior, experience: Experience): Linked {
  const { correlation } = experience;
  if (Math.abs(correlation) < MIN_CORRELATION) return { posterior, usage, ratesByPace: null };
  const rateScores = scores(
    posterior.rates,
    momentsOf(experience.pads, (draw) => [draw.logRateMean, draw.logRateSd]),
  );
  const paceScores = scores(
    usage.paces,
    momentsOf(experience.usage, (draw) => [draw.logPaceMean, draw.logPaceSd]),
  );
  const rateWeights = zeros(posterior.nodes);
  const factors = zeros(usage.paces.length);
  const ratesByPace = Array.from(paceScores, (paceScore, pace) => {
    const row = mapped(
      rateScores,
      (rateScore, rate) => posterior.weights[rate]! * copulaDensity(rateScore, paceScore, correlation),
    );
    const total = sumOf(row);
    factors[pace] = total;
    row.forEach((weight, rate) => {
      rateWeights[rate]! += usage.weights[pace]! * weight;
      row[rate] = weight / total;
    });
    return row;
  });
  return {
    posterior: { ...posterior, weights: normalised(rateWeights) },
    usage: reweighted(usage, factors),
    ratesByPace,
  };
}

/** Reweights every way alike: given its pace, whether the vehicle stands still is independent of its wear rate. */
function reweighted(usage: UsagePosterior, factors: Float64Array): UsagePosterior {
  const total = usage.weights.reduce((sum, weight, pace) => sum + weight * factors[pace]!, 0);
  const times = (weights: Float64Array) => weights.map((weight, pace) => (weight * factors[pace]!) / total);
  return {
    ...usage,
    weights: times(usage.weights),
    ways: usage.ways.map((way) => ({ ...way, weights: times(way.weights) })),
  };
}

/** Density of a Gaussian copula at two standard scores. */
export function copulaDensity(a: number, b: number, correlation: number): number {
  const left = 1 - correlation * correlation;
  const exponent = (correlation * correlation * (a * a + b * b) - 2 * correlation * a * b) / (2 * left);
  return Math.exp(-exponent) / Math.sqrt(left);
}

/** Maximum score on either side; the tails of a mixed prior say nothing about the correlation. */
const MAX_SCORE = 3;

interface Moments {
  mean: number;
  sd: number;
}

/** Standard scores of the values' logarithms. */
export function scores(values: Float64Array, { mean, sd }: Moments): Float64Array {
  return mapped(values, (value) => Math.max(-MAX_SCORE, Math.min(MAX_SCORE, (Math.log(value) - mean) / sd)));
}

/** Mean and standard deviation of a prior averaged over draws. */
export function momentsOf<Parameters>(
  draws: readonly Draw<Parameters>[],
  ofDraw: (parameters: Parameters) => [mean: number, sd: number],
): Moments {
  let mean = 0;
  let squares = 0;
  for (const { weight, parameters } of draws) {
    const [drawMean, drawSd] = ofDraw(parameters);
    mean += weight * drawMean;
    squares += weight * (drawMean * drawMean + drawSd * drawSd);
  }
  return { mean, sd: Math.sqrt(squares - mean * mean) };
}

const sumOf = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0);

function normalised(weights: Float64Array): Float64Array {
  const total = sumOf(weights);
  return mapped(weights, (weight) => weight / total);
}
