import { describe, expect, it } from 'vitest';
import { startingExperience } from '../../src/core/forecast/experience.js';
import { crossingDays, daysAt, type Survival } from '../../src/core/forecast/crossing.js';
import { seasonVariance } from '../../src/core/forecast/seasons.js';
import { spellsWithin } from '../../src/core/forecast/spells.js';
import { paceQuantile, steadyUse, usagePosterior } from '../../src/core/forecast/usage.js';
import type { UsagePosterior } from '../../src/core/forecast/usagePosterior.js';
import type { Stretch } from '../../src/core/stretches.js';

const { usage } = startingExperience({ steeredOrFront: true, regenerative: false });

/** Intervals one after another, each with its days and kilometres. */
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

describe('a quantile of the daily distance', () => {
  const posterior: UsagePosterior = {
    ...steadyUse(10, 20, 40),
    weights: Float64Array.of(0.25, 0.5, 0.25),
  };

  it('a quantile of a symmetrical posterior is the middle node', () => {
    expect(paceQuantile(posterior, 0.5)).toBeCloseTo(20, 9);
  });

  it('a quantile of the daily distance is half way between nodes, in logarithms, if the weights below reach it', () => {
    expect(paceQuantile(posterior, 0.25)).toBeCloseTo(Math.sqrt(10 * 20), 9);
    expect(paceQuantile(posterior, 0.75)).toBeCloseTo(Math.sqrt(20 * 40), 9);
  });

  it('a quantile of the daily distance rises with the probability and stops at the outer nodes', () => {
    let before = 0;
    for (let probability = 0; probability <= 1; probability += 0.01) {
      const pace = paceQuantile(posterior, probability);
      expect(pace).toBeGreaterThanOrEqual(before);
      before = pace;
    }
    expect(paceQuantile(posterior, 0)).toBeGreaterThanOrEqual(10);
    expect(paceQuantile(posterior, 1)).toBeLessThanOrEqual(40);
  });

  it('a quantile with one node is that node’s distance', () => {
    const single = steadyUse(33);
    expect(paceQuantile(single, 0.1)).toBe(33);
    expect(paceQuantile(single, 0.9)).toBe(33);
  });
});

describe('the daily distance of a vehicle', () => {
  it('the daily distance without data is the starting value, with a wide spread', () => {
    const { low, median, high } = paces(posteriorOf());
    // The starting values are 40 km a day with a standard deviation of the log of 0.7 and more.
    expect(median).toBeGreaterThan(36);
    expect(median).toBeLessThan(44);
    expect(high / low).toBeGreaterThan(Math.exp(2 * 1.2816 * 0.7));
  });

  it('the daily distance of a vehicle that drives steadily is what it drove', () => {
    const { low, median, high } = paces(posteriorOf([180, 18_000], [185, 18_500], [180, 18_000]));
    expect(median).toBeGreaterThan(97);
    expect(median).toBeLessThan(103);
    expect(low).toBeGreaterThan(80);
    expect(high).toBeLessThan(125);
  });

  it('the daily distance of a vehicle gets more certain the longer the vehicle was observed', () => {
    const width = (posterior: UsagePosterior): number => {
      const { low, high } = paces(posterior);
      return high / low;
    };
    const short = width(posteriorOf([20, 1200]));
    const long = width(posteriorOf([180, 10_800]));
    expect(width(posteriorOf())).toBeGreaterThan(short);
    expect(short).toBeGreaterThan(long);
  });

  it('the daily distance after a change of use is closer to the late one than to the overall mean', () => {
    const { median } = paces(posteriorOf([180, 3600], [180, 3600], [180, 18_000], [180, 18_000]));
    expect(median).toBeGreaterThan(80);
  });

  it('a last interval explained by a standstill hardly changes the daily distance', () => {
    const before = paces(posteriorOf([180, 9000], [180, 9000], [180, 9000]));
    const after = paces(posteriorOf([180, 9000], [180, 9000], [180, 9000], [120, 400]));
    expect(after.median).toBeGreaterThan(0.9 * before.median);
  });

  it('a short last interval changes the daily distance less than a long one', () => {
    const medians = [10, 30, 90, 180].map(
      (days) => paces(posteriorOf([180, 9000], [180, 9000], [180, 9000], [days, 100 * days])).median,
    );
    expect(medians).toEqual([...medians].sort((a, b) => a - b));
    expect(medians[0]).toBeLessThan(55);
  });

  it('longer distances never lower the daily distance', () => {
    const medians = [0.5, 1, 1.5, 2, 3].map(
      (factor) =>
        paces(posteriorOf([180, 9000 * factor], [150, 6000 * factor], [200, 11_000 * factor])).median,
    );
    expect(medians).toEqual([...medians].sort((a, b) => a - b));
  });

  it('half a year without a kilometre is certainly a standstill', () => {
    const { ways } = posteriorOf([180, 9000], [180, 9000], [180, 0]);
    const standing = ways.filter(({ isStanding }) => isStanding).flatMap(({ weights }) => [...weights]);
    expect(standing.reduce((sum, weight) => sum + weight, 0)).toBeGreaterThan(0.9);
  });

  it('a vehicle that stood and drives again has its driving distance', () => {
    const { median } = paces(posteriorOf([180, 0], [180, 9000], [180, 9000]));
    expect(median).toBeGreaterThan(40);
    expect(median).toBeLessThan(55);
  });

  it.each([
    ['a very fast one', [100, 200_000]],
    ['a very slow one', [1000, 1]],
    ['one odd day', [1, 3000]],
  ] as [string, [number, number]][])(
    'the daily distance of a vehicle is still valid for %s',
    (_name, driven) => {
      const posterior = posteriorOf(driven);
      const { low, median, high } = paces(posterior);
      expect(low).toBeGreaterThan(0);
      expect(low).toBeLessThanOrEqual(median);
      expect(median).toBeLessThanOrEqual(high);
      expect(high).toBeLessThan(20_000);
      expect(posterior.weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 9);
      const byWay = posterior.ways.flatMap(({ weights }) => [...weights]);
      expect(byWay.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 9);
    },
  );
});

describe('the seasonal use', () => {
  it('the seasonal use averages out over whole years and is widest over half a year', () => {
    expect(seasonVariance(0.2, 365.25)).toBeCloseTo(0, 9);
    expect(seasonVariance(0.2, 0)).toBe(0);
    // Half a year on the high side of a sine of amplitude 0.2: 0.2 · 365.25/π days, squared, averaged over the phase.
    expect(seasonVariance(0.2, 365.25 / 2)).toBeCloseTo(0.5 * ((0.2 * 365.25) / Math.PI) ** 2, 6);
  });
});

/** A limit that is reached after exactly this many km. */
function limitAfter(km: number): Survival {
  const from = (0.5 * km) / 1000;
  const logStep = Math.log(3) / 39;
  const values = Float64Array.from({ length: 40 }, (_, index) =>
    from * Math.exp(index * logStep) * 1000 < km ? 1 : 0,
  );
  const row = { atStart: 1, values };
  return { ...row, from, logStep, byPace: null, unchanged: row };
}

const datesOf = (km: number, ...driven: [days: number, km: number][]) => {
  const crossing = crossingDays(limitAfter(km), posteriorOf(...driven), 0);
  return {
    early: daysAt(crossing, 0.1)!,
    median: daysAt(crossing, 0.5)!,
    late: daysAt(crossing, 0.9)!,
  };
};

const HALF_YEAR = 182;
const steadily = (halfYears: number): [number, number][] =>
  Array.from({ length: halfYears }, () => [HALF_YEAR, 49 * HALF_YEAR]);
/** Alternating half-years of much and little use. */
const seasonally = (years: number): [number, number][] =>
  Array.from({ length: years }, (): [number, number][] => [
    [183, 18_000],
    [182, 2000],
  ]).flat();

describe('the days until 15,000 km more have been driven', () => {
  // By hand: 15,000 km at 49 km a day take 306 days; at 20,000 km a year 274 days, of which the first half-year drives
  // 18,000 km, so that a season begins with the 152 days that 15,000 km take of it.
  it.each([
    { use: '49 km a day', driven: steadily(6), from: 280, to: 330 },
    {
      use: '49 km a day, then 400 km in four months',
      driven: [...steadily(6), [120, 400]],
      from: 306,
      to: 480,
    },
    { use: '49 km a day, then parked for a year', driven: [...steadily(6), [365, 0]], from: 306, to: 600 },
    {
      use: '49 km a day, then parked for a year of monthly visits',
      driven: [...steadily(6), ...Array.from({ length: 12 }, () => [30, 0])],
      from: 306,
      to: 600,
    },
    {
      use: '49 km a day, then 100 km a day for a month',
      driven: [...steadily(6), [30, 3000]],
      from: 150,
      to: 330,
    },
    { use: 'half-years of 18,000 and 2,000 km', driven: seasonally(3), from: 130, to: 250 },
    {
      use: 'half-years of 2,000 and 18,000 km',
      driven: seasonally(4).slice(1, -1),
      from: 250,
      to: 360,
    },
  ] as { use: string; driven: [number, number][]; from: number; to: number }[])(
    'the days are right for $use',
    ({ driven, from, to }) => {
      const { early, median, late } = datesOf(15_000, ...driven);
      expect(early).toBeGreaterThan(0);
      expect(early).toBeLessThan(median);
      expect(median).toBeGreaterThan(from);
      expect(median).toBeLessThan(to);
      expect(late).toBeGreaterThan(median);
    },
  );

  it('a standstill delays the date, however long it has lasted, since it is as likely to end on any day', () => {
    const driving = datesOf(15_000, ...steadily(6)).median;
    const standing = [30, 60, 120, 365].map((days) => datesOf(15_000, ...steadily(6), [days, 0]).median);
    expect(Math.min(...standing)).toBeGreaterThan(driving);
    expect(Math.max(...standing) - Math.min(...standing)).toBeLessThanOrEqual(1);
  });
});

describe('the possible ways to drive a stretch', () => {
  it.each([1, 10, 30, 182, 365, 2000])('the chances of the possible ways sum to one over %i days', (days) => {
    for (const spellsPerYear of [0, 0.05, 0.3, 4]) {
      const moves = spellsWithin(days, { spellsPerYear, spellDays: 110 });
      const sum = (of: (move: (typeof moves)[number]) => number) =>
        moves.reduce((total, move) => total + of(move), 0);
      expect(sum(({ useToUse, useToStanding }) => useToUse + useToStanding)).toBeCloseTo(1, 9);
      if (spellsPerYear > 0)
        expect(
          sum(({ standingToUse, standingToStanding }) => standingToUse + standingToStanding),
        ).toBeCloseTo(1, 9);
      for (const { inUse } of moves) expect(inUse).toBeLessThanOrEqual(days);
    }
  });
});
