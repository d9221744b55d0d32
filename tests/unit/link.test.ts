import { describe, expect, it } from 'vitest';
import type { Experience } from '../../src/core/forecast/experience.js';
import { link } from '../../src/core/forecast/link.js';
import { steadyUse } from '../../src/core/forecast/usage.js';
import type { UsagePosterior } from '../../src/core/forecast/usagePosterior.js';
import { wearPosterior } from '../../src/core/forecast/wear.js';
import { onlyDraw, textbookWear } from '../support/parameters.js';

const RATE_SD = 0.4;
const PACE_SD = 0.5;

function experience(correlation: number): Experience {
  return {
    name: 'learned',
    words: 'learned',
    pads: onlyDraw(textbookWear({ logRateSd: RATE_SD, partSpread: 0.1 })),
    rotors: [],
    usage: onlyDraw({
      logPaceMean: Math.log(40),
      logPaceSd: PACE_SD,
      dayToDay: 1.5,
      season: 0.1,
      changesPerYear: 0,
      spellsPerYear: 0,
      spellDays: 110,
    }),
    correlation,
  };
}

/** A daily distance known almost exactly, this many standard deviations above the group's. */
const paceAt = (...deviations: number[]): UsagePosterior =>
  steadyUse(...deviations.map((z) => 40 * Math.exp(PACE_SD * z)));

/** An axle that was never measured: its rate is the group's. */
const unseen = (learned: Experience) => wearPosterior([{ ratioShare: 0, lives: [] }], learned.pads, 0);

function logRate({ weights, rates }: { weights: Float64Array; rates: Float64Array }) {
  const mean = weights.reduce((sum, weight, node) => sum + weight * Math.log(rates[node]!), 0);
  const variance = weights.reduce(
    (sum, weight, node) => sum + weight * (Math.log(rates[node]!) - mean) ** 2,
    0,
  );
  return { mean, sd: Math.sqrt(variance) };
}

describe('the correlation of wear and use', () => {
  it('the link changes nothing without a correlation', () => {
    const learned = experience(0);
    const posterior = unseen(learned);
    const usage = paceAt(1);
    expect(link(posterior, usage, learned)).toEqual({ posterior, usage, ratesByPace: null });
  });

  it('the rate of a vehicle with known use has the conditional normal distribution of its logarithm', () => {
    for (const correlation of [-0.6, 0.5]) {
      for (const deviations of [-1, 0.5, 1.5]) {
        const learned = experience(correlation);
        const linked = logRate(link(unseen(learned), paceAt(deviations), learned).posterior);
        expect(linked.mean).toBeCloseTo(Math.log(0.1) + correlation * deviations * RATE_SD, 2);
        expect(linked.sd).toBeCloseTo(RATE_SD * Math.sqrt(1 - correlation ** 2), 2);
      }
    }
  });

  it('the weights sum to one, for each daily distance and in total', () => {
    const learned = experience(-0.6);
    const { posterior, usage, ratesByPace } = link(unseen(learned), paceAt(-1, 0, 2), learned);
    for (const weights of [posterior.weights, usage.weights, ...ratesByPace!]) {
      expect(weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 12);
    }
    const mixed = posterior.weights.map((_, rate) =>
      ratesByPace!.reduce((sum, row, pace) => sum + usage.weights[pace]! * row[rate]!, 0),
    );
    mixed.forEach((weight, rate) => expect(weight).toBeCloseTo(posterior.weights[rate]!, 12));
  });
});
