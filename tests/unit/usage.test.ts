import { describe, expect, it } from 'vitest';
import { startingExperience } from '../../src/core/forecast/experience.js';
import {
  paceQuantile,
  seasonVariance,
  usagePosterior,
  type UsagePosterior,
} from '../../src/core/forecast/usage.js';
import type { Stretch } from '../../src/core/odometer.js';

const { usage } = startingExperience({ steeredOrFront: true, regenerative: false });

/** Stretches one after another, each of so many days and kilometres. */
function posteriorOf(...driven: [days: number, km: number][]): UsagePosterior {
  let day = 0;
  const stretches = driven.map(([days, km]): Stretch => {
    const stretch = { fromDay: day, toDay: day + days, km };
    day += days;
    return stretch;
  });
  return usagePosterior(stretches, usage);
}

const paces = (posterior: UsagePosterior) => ({
  low: paceQuantile(posterior, 0.1),
  median: paceQuantile(posterior, 0.5),
  high: paceQuantile(posterior, 0.9),
});

describe('a quantile of the pace', () => {
  const posterior: UsagePosterior = {
    weights: Float64Array.of(0.25, 0.5, 0.25),
    paces: Float64Array.of(10, 20, 40),
    dayToDay: new Float64Array(3),
    season: new Float64Array(3),
  };

  it('is the node in the middle of a symmetrical posterior', () => {
    expect(paceQuantile(posterior, 0.5)).toBeCloseTo(20, 9);
  });

  it('lies half way between nodes, in logarithms, where the weights below reach it', () => {
    expect(paceQuantile(posterior, 0.25)).toBeCloseTo(Math.sqrt(10 * 20), 9);
    expect(paceQuantile(posterior, 0.75)).toBeCloseTo(Math.sqrt(20 * 40), 9);
  });

  it('rises with the probability and stays at the nodes’ ends', () => {
    let before = 0;
    for (let probability = 0; probability <= 1; probability += 0.01) {
      const pace = paceQuantile(posterior, probability);
      expect(pace).toBeGreaterThanOrEqual(before);
      before = pace;
    }
    expect(paceQuantile(posterior, 0)).toBeGreaterThanOrEqual(10);
    expect(paceQuantile(posterior, 1)).toBeLessThanOrEqual(40);
  });

  it('is the one node’s where there is one', () => {
    const single = {
      weights: Float64Array.of(1),
      paces: Float64Array.of(33),
      dayToDay: new Float64Array(1),
      season: new Float64Array(1),
    };
    expect(paceQuantile(single, 0.1)).toBe(33);
    expect(paceQuantile(single, 0.9)).toBe(33);
  });
});

describe('the pace of a vehicle', () => {
  it('that told nothing is the starting value, widely spread', () => {
    const { low, median, high } = paces(posteriorOf());
    // The starting values are 40 km a day with a standard deviation of the log of 0.7 and more.
    expect(median).toBeGreaterThan(36);
    expect(median).toBeLessThan(44);
    expect(high / low).toBeGreaterThan(Math.exp(2 * 1.2816 * 0.7));
  });

  it('that drives steadily is what it drove', () => {
    const { low, median, high } = paces(posteriorOf([180, 18_000], [185, 18_500], [180, 18_000]));
    expect(median).toBeGreaterThan(97);
    expect(median).toBeLessThan(103);
    expect(low).toBeGreaterThan(80);
    expect(high).toBeLessThan(125);
  });

  it('is the better known the longer it was watched', () => {
    const width = (posterior: UsagePosterior): number => {
      const { low, high } = paces(posterior);
      return high / low;
    };
    const short = width(posteriorOf([20, 1200]));
    const long = width(posteriorOf([180, 10_800]));
    expect(width(posteriorOf())).toBeGreaterThan(short);
    expect(short).toBeGreaterThan(long);
  });

  it('that changed its use is nearer to the late pace than the mean of all', () => {
    const { median } = paces(posteriorOf([180, 3600], [180, 3600], [180, 18_000], [180, 18_000]));
    expect(median).toBeGreaterThan(80);
  });

  it('that stands parked is next to nothing, and the less the longer it stands', () => {
    const months = [2, 6, 12].map((count) =>
      paces(posteriorOf(...Array.from({ length: count }, (): [number, number] => [30, 0]))),
    );
    expect(months[2]!.median).toBeLessThan(0.5);
    expect(months[2]!.high).toBeLessThan(months[1]!.high);
    expect(months[1]!.high).toBeLessThan(months[0]!.high);
    expect(months[0]!.median).toBeGreaterThan(months[2]!.median);
  });

  it('that stood for a hundred days is taken for parked, though it may be in use again', () => {
    const { median, high } = paces(posteriorOf([100, 0]));
    expect(median).toBeLessThan(1);
    expect(high).toBeGreaterThan(1);
  });

  it('that stood and drives again is that of driving', () => {
    const { median } = paces(posteriorOf([180, 0], [180, 9000], [180, 9000]));
    expect(median).toBeGreaterThan(40);
    expect(median).toBeLessThan(55);
  });

  it.each([
    ['a very fast one', [100, 200_000]],
    ['a very slow one', [1000, 1]],
    ['one odd day', [1, 3000]],
  ] as [string, [number, number]][])('is a pace still for %s', (_name, driven) => {
    const posterior = posteriorOf(driven);
    const { low, median, high } = paces(posterior);
    expect(low).toBeGreaterThan(0);
    expect(low).toBeLessThanOrEqual(median);
    expect(median).toBeLessThanOrEqual(high);
    expect(high).toBeLessThan(20_000);
    expect(posterior.weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 9);
  });
});

describe('the season', () => {
  it('evens out over whole years and is widest over half a year', () => {
    expect(seasonVariance(0.2, 365.25)).toBeCloseTo(0, 9);
    expect(seasonVariance(0.2, 0)).toBe(0);
    // Half a year on the high side of a sine of amplitude 0.2: 0.2 · 365.25/π days, squared, averaged over the phase.
    expect(seasonVariance(0.2, 365.25 / 2)).toBeCloseTo(0.5 * ((0.2 * 365.25) / Math.PI) ** 2, 6);
  });
});
