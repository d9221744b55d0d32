import { describe, expect, it } from 'vitest';
import { stopsOf } from '../../src/core/forecast/events.js';
import { filterModel, type PartTracks, type Track } from '../../src/core/forecast/filter.js';
import { followOn, startFollowing } from '../../src/core/forecast/follow.js';
import { wearPosterior } from '../../src/core/forecast/wear.js';
import { onlyDraw, textbookWear } from '../support/parameters.js';

/**
 * The forecast uses nodes of the log base rate 0.12 apart, each of which represents the rates around it. After many
 * sets of pads the rate is known more exactly than that; the result must still be close to that of very many nodes.
 */
const BELIEFS = textbookWear({
  logRateMean: Math.log(0.12),
  logRateSd: 0.8,
  partSpread: 0.13,
  wander: 0.03,
  logInnerOuter: 0.05,
  fastChance: 0.03,
  fastFactor: 1.5,
  misreadChance: 0.0075,
  suddenChance: 0.004,
  suddenMm: 2.5,
  suddenSd: 2,
  startSd: 0.15,
  placementSd: 0.2,
});

/** Four pads that are replaced every 60,000 km, read every 15,000 km, each set at a rate of its own. */
function axleOf(rates: readonly number[]): PartTracks[] {
  return [0.5, -0.5, 0.5, -0.5].map((ratioShare, part) => ({
    ratioShare,
    lives: rates.map((rate, set): Track => {
      const at = [15, 30, 45, 60].map((along) => 60 * set + along);
      const own = rate * (1 + 0.1 * Math.sin(5 * part + 3 * set));
      return {
        startAt: 60 * set,
        startMm: 11,
        at: Float64Array.from(at),
        atSd: new Float64Array(at.length),
        mm: Float64Array.from(at, (x) => Math.round(2 * (11 - own * (x - 60 * set))) / 2),
        gaugeVariance: new Float64Array(at.length).fill(0.5 ** 2 / 12),
      };
    }),
  }));
}

/** Mean and standard deviation of log b, with every life filtered at each of very many nodes. */
function exactly(parts: PartTracks[]): { mean: number; sd: number } {
  const nodes = Float64Array.from({ length: 1201 }, (_, node) => Math.log(0.12) + (node - 600) / 400);
  const prior = nodes.map((node) => Math.exp(-0.5 * ((node - BELIEFS.logRateMean) / BELIEFS.logRateSd) ** 2));
  const following = startFollowing(parts, filterModel(BELIEFS), nodes, prior, true);
  followOn(following, stopsOf(parts));
  return momentsOf(nodes, following.hypotheses[0]!.weights);
}

function momentsOf(logRates: Float64Array, weights: Float64Array): { mean: number; sd: number } {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = weights.reduce((sum, weight, node) => sum + weight * logRates[node]!, 0) / total;
  const square = weights.reduce((sum, weight, node) => sum + weight * (logRates[node]! - mean) ** 2, 0);
  return { mean, sd: Math.sqrt(square / total) };
}

const together = (parts: PartTracks[]): { mean: number; sd: number } => {
  const { rates, weights } = wearPosterior(parts, onlyDraw(BELIEFS), 60 * parts[0]!.lives.length);
  return momentsOf(rates.map(Math.log), weights);
};

describe('the base rate of a vehicle that has worn out many sets of pads', () => {
  it.each([
    ['all alike', Array.from({ length: 20 }, () => 0.12)],
    ['each slightly different', Array.from({ length: 20 }, (_, set) => 0.12 * (1 + 0.1 * Math.sin(set)))],
    ['the latest two very different', Array.from({ length: 20 }, (_, set) => (set < 18 ? 0.12 : 0.05))],
    ['the first half different', Array.from({ length: 12 }, (_, set) => (set < 6 ? 0.08 : 0.13))],
    ['two sets', [0.1, 0.14]],
  ])('the base rate uses every set at every node: %s', (_, rates) => {
    const parts = axleOf(rates);
    const exact = exactly(parts);
    const found = together(parts);
    // The distance between two nodes.
    expect(Math.abs(found.mean - exact.mean)).toBeLessThan(0.12);
    expect(found.sd).toBeLessThan(exact.sd + 0.06);
  });
});
