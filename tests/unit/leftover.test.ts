import { dnorm, pnorm, qnorm } from 'lib-r-math.js';
import { describe, expect, it } from 'vitest';
import { leftoverOn, type AskableForecast } from '../../src/core/forecast/leftover.js';
import { steadyUse } from '../../src/core/forecast/usage.js';
import type { UsagePosterior } from '../../src/core/forecast/usagePosterior.js';
import { wearPosterior } from '../../src/core/forecast/wear.js';
import { onlyDraw, textbookWear } from '../support/parameters.js';

const RATE = 0.12; // mm per 1000 km
const LIMIT_MM = 2;
const DAYS = [0, 30, 120, 300, 420, 600];

/** Pads of known thickness and rate, with wander only. */
function forecastOf(remainingMm: number[], wander: number, usage: UsagePosterior): AskableForecast {
  const none = new Float64Array(0);
  const parts = remainingMm.map((mm) => ({
    ratioShare: 0,
    lives: [{ startAt: 0, startMm: LIMIT_MM + mm, at: none, atSd: none, mm: none, gaugeVariance: none }],
  }));
  const known = textbookWear({ logRateMean: Math.log(RATE), logRateSd: 1e-6, wander });
  const limited = remainingMm.map((_, part) => ({ part, limitMm: LIMIT_MM }));
  return { posterior: wearPosterior(parts, onlyDraw(known), 0), limited, usage, ratesByPace: null };
}

/** Mean and percentiles of a normal quantity whose negative values count as 0. */
function rectified(mean: number, sd: number) {
  const z = mean / sd;
  const at = (probability: number): number => Math.max(0, mean + sd * (qnorm(probability) as number));
  return {
    mean: sd * (dnorm(z) as number) + mean * (pnorm(z) as number),
    low: at(0.1),
    median: at(0.5),
    high: at(0.9),
  };
}

const NAMES = ['mean', 'low', 'median', 'high'] as const;
/** Half a step between the amounts at most. */
const CLOSE_MM = 0.04;

describe('the lining left on a pad', () => {
  it.each([0.03, 0.1])(
    'the distribution of the lining left is normal, truncated at 0, with a wander of %f mm',
    (wander) => {
      const left = leftoverOn(DAYS, forecastOf([3], wander, steadyUse(60)));
      DAYS.slice(1).forEach((days, index) => {
        const distance = (60 * days) / 1000;
        const exact = rectified(3 - RATE * distance, wander * Math.sqrt(distance));
        for (const name of NAMES) {
          expect(Math.abs(left[index + 1]![name] - exact[name]), `${name} after ${days}`).toBeLessThan(
            CLOSE_MM,
          );
        }
      });
    },
  );

  it('the lining left on a pad is averaged over the possible daily distances', () => {
    const paces = [30, 50, 60, 75, 100];
    const left = leftoverOn(DAYS, forecastOf([3], 0.05, steadyUse(...paces)));
    DAYS.slice(1).forEach((days, index) => {
      const means = paces.map((pace) => {
        const distance = (pace * days) / 1000;
        return rectified(3 - RATE * distance, 0.05 * Math.sqrt(distance)).mean;
      });
      const exact = means.reduce((sum, mean) => sum + mean, 0) / paces.length;
      expect(Math.abs(left[index + 1]!.mean - exact)).toBeLessThan(CLOSE_MM);
    });
  });

  it('the lining left on a pad is that of the pad with least left', () => {
    const usage = steadyUse(60);
    const [alone, beside] = [[2], [2, 6]].map((remaining) =>
      leftoverOn(DAYS, forecastOf(remaining, 0.05, usage)),
    );
    alone!.forEach(({ mean }, index) => expect(beside![index]!.mean).toBeCloseTo(mean, 2));
  });

  it('the lining left on a pad is zero once the limit has been passed', () => {
    const nothing = { mean: 0, low: 0, median: 0, high: 0 };
    expect(leftoverOn([0, 10], forecastOf([-1], 0.05, steadyUse(60)))).toEqual([nothing, nothing]);
    const [late] = leftoverOn([4000], forecastOf([3], 0.05, steadyUse(60)));
    expect(late!.high).toBeLessThan(0.02);
  });

  it('the lining left on a pad never grows from one day to the next', () => {
    const left = leftoverOn(DAYS, forecastOf([4, 3.5, 5], 0.1, steadyUse(30, 60, 120)));
    for (const name of NAMES) {
      const amounts = left.map((each) => each[name]);
      expect(amounts).toEqual([...amounts].sort((a, b) => b - a));
    }
    for (const { mean, low, median, high } of left) {
      expect(low).toBeLessThanOrEqual(median);
      expect(median).toBeLessThanOrEqual(high);
      expect(mean).toBeLessThanOrEqual(high + CLOSE_MM);
    }
  });
});
