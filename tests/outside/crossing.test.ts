import { pnorm } from 'lib-r-math.js';
import { describe, expect, it } from 'vitest';
import { crossingDistance, survival, survivalBy, type Survival } from '../../src/core/forecast/crossing.js';
import { wearPosterior } from '../../src/core/forecast/wear.js';
import { onlyDraw, textbookWear } from '../support/parameters.js';

/**
 * The forecast assumes that the limit is reached when the thickness at a distance is under it (the marginal crossing).
 * For a known rate, the Wiener process that models the thickness has an exact first passage, the inverse Gaussian
 * distribution: mean D/b and shape D²/σ². J. L. Folks and R. S. Chhikara, "The inverse Gaussian distribution and its
 * statistical application: a review", Journal of the Royal Statistical Society B 40 (1978) 263–289 (from memory). If
 * the wander is as large as pads show, the two must agree within 1 % of the distance.
 */
function inverseGaussian(x: number, mean: number, shape: number): number {
  const root = Math.sqrt(shape / x);
  const first = pnorm(root * (x / mean - 1), 0, 1, true, true);
  // The second term is a huge number times a tiny one, so it is added on the log scale.
  const second = (2 * shape) / mean + pnorm(-root * (x / mean + 1), 0, 1, true, true);
  const top = Math.max(first, second);
  return Math.exp(top + Math.log(Math.exp(first - top) + Math.exp(second - top)));
}

function quantile(distribution: (x: number) => number, probability: number, highest: number): number {
  let low = 0;
  let high = highest;
  for (let step = 0; step < 60; step++) {
    const middle = 0.5 * (low + high);
    if (distribution(middle) < probability) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}

const REMAINING_MM = 3;
const RATE = 0.12; // mm per 1000 km
const LIMIT_MM = 2;

/** Chances for a pad of known rate that starts exactly at its thickness and only wanders. */
function chancesOf(wander: number, remainingMm = REMAINING_MM): Survival {
  const none = new Float64Array(0);
  const startMm = LIMIT_MM + remainingMm;
  const track = { startAt: 0, startMm, at: none, atSd: none, mm: none, gaugeVariance: none };
  const known = textbookWear({ logRateMean: Math.log(RATE), logRateSd: 1e-6, wander });
  const posterior = wearPosterior([{ ratioShare: 0, lives: [track] }], onlyDraw(known), 0);
  return survival(posterior, [{ part: 0, limitMm: LIMIT_MM }]);
}

// Quantiles and distribution function at the mean, computed in R 4.2.2.
describe.each([
  {
    mean: 5,
    shape: 20,
    at: [2.06330085530431, 3.22095418780864, 4.45248363350146, 6.17756953412803, 9.8029805018456],
    atMean: 0.594410641301969,
  },
  {
    mean: 5,
    shape: 2,
    at: [0.444838850131028, 1.0728754678813, 2.29853969202365, 5.44110006243162, 18.7736296336019],
    atMean: 0.729123011396114,
  },
  {
    mean: 1,
    shape: 1,
    at: [0.18411327721423, 0.379723027457425, 0.675841305695239, 1.24405975587605, 2.92207597726922],
    atMean: 0.668102001223171,
  },
  {
    mean: 50,
    shape: 1000,
    at: [33.9336366826897, 42.0043108088117, 48.7851692947122, 56.670839973519, 70.2099520761817],
    atMean: 0.544065268092219,
  },
])('the reference, an inverse Gaussian of mean $mean and shape $shape', ({ mean, shape, at, atMean }) => {
  it('the quantiles of the inverse Gaussian agree with R', () => {
    [0.05, 0.25, 0.5, 0.75, 0.95].forEach((probability, index) => {
      expect(inverseGaussian(at[index]!, mean, shape)).toBeCloseTo(probability, 10);
    });
    expect(inverseGaussian(mean, mean, shape)).toBeCloseTo(atMean, 12);
  });
});

/**
 * Maximum error of linear interpolation between two entries of the table: an eighth of the step squared times the
 * maximum curvature of Φ, which is 0.242, plus a tenth because the steps are even in log distance.
 */
function straightLineError({ logStep }: Survival, x: number, wander: number): number {
  const step = (x * logStep * RATE) / (wander * Math.sqrt(x));
  return 1.1 * 0.242 * (step ** 2 / 8) + 1e-6;
}

describe.each([0.03, 0.05])('3 mm at 0.12 mm per 1000 km with a wander of %f mm', (wander) => {
  const chances = chancesOf(wander);
  const firstPassage = (x: number) => inverseGaussian(x, REMAINING_MM / RATE, (REMAINING_MM / wander) ** 2);

  it.each([0.02, 0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95, 0.98])(
    'the chance of crossing is %f within a hundredth of the distance of first passage, and never before it',
    (probability) => {
      const distance = crossingDistance(chances, probability)!;
      const exact = quantile(firstPassage, probability, 100);
      expect(distance / exact - 1).toBeLessThan(0.01);
      // Linear interpolation in the table may make the crossing slightly early.
      expect(distance / exact - 1).toBeGreaterThan(-0.001);
    },
  );

  it('the marginal chance is Φ((remaining − rate·x)/(wander·√x)) at every distance', () => {
    for (let x = 18; x <= 34; x += 0.25) {
      const marginal = pnorm((REMAINING_MM - RATE * x) / (wander * Math.sqrt(x)));
      expect(Math.abs(survivalBy(chances, x) - marginal)).toBeLessThan(straightLineError(chances, x, wander));
    }
  });
});

it('the crossing with three times the wander differs from first passage by 3 % or more, so the bound can fail', () => {
  const wander = 0.15;
  const exact = quantile(
    (x) => inverseGaussian(x, REMAINING_MM / RATE, (REMAINING_MM / wander) ** 2),
    0.5,
    200,
  );
  // 24.25 and 25.00 thousand km, computed in R 4.2.2.
  expect(exact).toBeCloseTo(24.25, 2);
  expect(crossingDistance(chancesOf(wander), 0.5)!).toBeCloseTo(25, 1);
});

it('a limit that has already been passed is reached with chance 1', () => {
  const passed = chancesOf(0.03, -0.5);
  expect(passed.atStart).toBeLessThan(1e-6);
  expect(crossingDistance(passed, 0.1)).toBe(0);
  expect(crossingDistance(passed, 0.9)).toBe(0);
});
