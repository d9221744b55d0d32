import { PART } from './filter.js';
import { copied, zeros } from './floats.js';
import type { Following } from './following.js';
import { MIN_NODE_WEIGHT, scale } from './hypothesis.js';

/** Keeps only the hypotheses and nodes that still matter, so that an axle costs little however many visits it has. */

/** Maximum number of hypotheses, and minimum share of the total weight for each. */
const MAX_HYPOTHESES = 6;
const MIN_HYPOTHESIS_SHARE = 1e-4;

/** Normalises the weights over all hypotheses and drops negligible hypotheses and nodes. */
export function normaliseAndPrune(following: Following): void {
  const totals = following.hypotheses.map(({ weights }) => weights.reduce((sum, weight) => sum + weight, 0));
  const total = totals.reduce((sum, each) => sum + each, 0);
  following.logLikelihood += Math.log(total);
  const heaviest = [...totals].sort((a, b) => b - a)[Math.min(MAX_HYPOTHESES, totals.length) - 1]!;
  const minTotal = Math.max(heaviest, MIN_HYPOTHESIS_SHARE * total);
  following.hypotheses = following.hypotheses.filter((_, index) => totals[index]! >= minTotal);
  for (const hypothesis of following.hypotheses) scale(hypothesis, 1 / total);
  if (following.nodesStay) return;
  const mean = meanLogRate(following);
  dropLightNodes(following, mean);
  narrow(following, mean);
}

function meanLogRate({ hypotheses, logRates }: Following): number {
  let mean = 0;
  for (const { weights } of hypotheses)
    for (let node = 0; node < logRates.length; node++) mean += weights[node]! * logRates[node]!;
  return mean;
}

/** Nodes this close to the mean are never dropped: later sets may wear at a rate that earlier ones seem to rule out. */
const MIN_REACH = 0.4;

function dropLightNodes({ hypotheses, logRates }: Following, mean: number): void {
  for (const { weights } of hypotheses) {
    for (let node = 0; node < weights.length; node++) {
      if (weights[node]! < MIN_NODE_WEIGHT && Math.abs(logRates[node]! - mean) > MIN_REACH) weights[node] = 0;
    }
  }
}

/** With changes of rate, nodes within this many standard deviations of a change from the mean are never dropped. */
const CHANGES_REACH = 3.5;
/** Minimum share of nodes without use at which dropping them is worth the copying. */
const MIN_SHARE_DROPPED = 0.15;

/** Drops nodes at either end that have no weight and that no change of rate can reach. */
function narrow(following: Following, mean: number): void {
  const { hypotheses, logRates, model, rates } = following;
  const nodes = rates.length;
  const weights = zeros(nodes);
  for (const { weights: own } of hypotheses)
    for (let node = 0; node < nodes; node++) weights[node]! += own[node]!;
  const reach = Math.max(MIN_REACH, model.jumpPerMm > 0 ? CHANGES_REACH * model.jumpSd : 0);
  const isKept = (weight: number, node: number): boolean =>
    weight > 0 || Math.abs(logRates[node]! - mean) < reach;
  const first = weights.findIndex(isKept);
  const end = weights.findLastIndex(isKept) + 1;
  if (nodes - (end - first) < MIN_SHARE_DROPPED * nodes) return;
  following.logRates = copied(logRates, first, end);
  following.rates = copied(rates, first, end);
  for (const hypothesis of hypotheses) {
    const { states } = hypothesis;
    hypothesis.weights = copied(hypothesis.weights, first, end);
    const kept = zeros((states.length * (end - first)) / nodes);
    following.parts.forEach((_, part) => {
      const from = (part * nodes + first) * PART;
      kept.set(states.subarray(from, from + (end - first) * PART), part * (end - first) * PART);
    });
    hypothesis.states = kept;
  }
}
