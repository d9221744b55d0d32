import { describe, expect, it } from 'vitest';
import type { SetFacts, Track } from '../../src/core/forecast/filter.js';
import { LINING_HABITS } from '../../src/core/forecast/renewal.js';
import { freshParts, partMixture, wearPosterior, type PartTracks } from '../../src/core/forecast/wear.js';
import { onlyDraw, textbookWear } from '../support/parameters.js';

/** The sets of one vehicle differ in rate, so the rates of earlier sets predict the next one's only roughly. */
const SPREAD = 0.1;
const beliefs = (setSpread: number) =>
  onlyDraw(
    textbookWear({ logRateMean: Math.log(0.12), logRateSd: 0.8, partSpread: 0.02, startSd: 0.05, setSpread }),
  );

const FACTS: SetFacts = {
  origin: 'recorded',
  newMm: 11,
  limitMm: 3,
  startAtSd: 0,
  habits: LINING_HABITS,
};

/** A life with exact readings at 0.12 mm per 1000 km, every 10,000 km. */
function life(startAt: number, readings: number): Track {
  const at = Float64Array.from({ length: readings }, (_, index) => startAt + 10 * (index + 1));
  return {
    startAt,
    startMm: 11,
    at,
    atSd: new Float64Array(readings),
    mm: at.map((place) => 11 - 0.12 * (place - startAt)),
    gaugeVariance: new Float64Array(readings).fill(0.01 ** 2),
    set: { ...FACTS, origin: startAt === 0 ? 'in-service' : 'recorded' },
  };
}

const axleOf = (...lives: Track[]): PartTracks[] =>
  [0, 1].map((wheel) => ({ ratioShare: 0, wheel, lives: [...lives] }));

/** Standard deviation of the first part's rate over its mean. */
function relativeSd(posterior: Parameters<typeof partMixture>[0]): number {
  const { weights, means, sds } = partMixture(posterior, 0, 'rate');
  const mean = weights.reduce((sum, weight, index) => sum + weight * means[index]!, 0);
  const square = weights.reduce(
    (sum, weight, index) => sum + weight * (sds[index]! ** 2 + (means[index]! - mean) ** 2),
    0,
  );
  return Math.sqrt(square) / mean;
}

describe('the rate of a new set', () => {
  it('the rate of a new set is known less well than that of the set before it', () => {
    const after = (setSpread: number) =>
      relativeSd(wearPosterior(axleOf(life(0, 6), life(60, 0)), beliefs(setSpread), 60));
    expect(after(0)).toBeLessThan(0.05);
    expect(after(SPREAD) / Math.hypot(after(0), SPREAD)).toBeCloseTo(1, 1);
  });

  it('the rate of the first set does not depend on other sets', () => {
    const first = (setSpread: number) =>
      relativeSd(wearPosterior(axleOf(life(0, 2)), beliefs(setSpread), 20));
    expect(first(SPREAD)).toBeCloseTo(first(0), 12);
  });

  it('the rate of the set that follows the present one has a spread', () => {
    const after = (setSpread: number) => {
      const draws = beliefs(setSpread);
      return relativeSd(freshParts(wearPosterior(axleOf(life(0, 6)), draws, 60), [0, 0], draws, 11));
    };
    expect(after(SPREAD) / Math.hypot(after(0), SPREAD)).toBeCloseTo(1, 1);
  });

  it('the rate of a set fitted without a record has a spread', () => {
    const renewed = life(0, 6);
    renewed.at = Float64Array.of(...renewed.at, 70);
    renewed.mm = Float64Array.of(...renewed.mm, 10.4);
    renewed.atSd = new Float64Array(7);
    renewed.gaugeVariance = new Float64Array(7).fill(0.01 ** 2);
    const after = (setSpread: number) => {
      const draws = beliefs(setSpread).map(({ weight, parameters }) => ({
        weight,
        parameters: { ...parameters, replacedWornChance: 0.3 },
      }));
      const posterior = wearPosterior(axleOf(renewed), draws, 70);
      expect(posterior.hypotheses[0]!.told.unseen).not.toBeNull();
      return relativeSd(posterior);
    };
    expect(after(SPREAD)).toBeGreaterThan(1.5 * after(0));
  });
});
