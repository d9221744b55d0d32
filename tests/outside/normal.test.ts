import { pnorm, qnorm } from 'lib-r-math.js';
import { describe, expect, it } from 'vitest';
import {
  decay,
  exactNormalCdf,
  mixtureQuantiles,
  normalCdf,
  normalQuantile,
  type NormalMixture,
} from '../../src/core/forecast/normal.js';

/**
 * The normal distribution, compared with lib-r-math's port of R's pnorm (W. J. Cody, "Rational Chebyshev approximations
 * for the error function", Mathematics of Computation 23 (1969) 631–637, from memory) and with printed tables.
 */

describe('the distribution function', () => {
  it('the distribution function is within 1e-9 of R on a fine grid, tails included', () => {
    let worst = 0;
    for (let step = -12_000; step <= 12_000; step++) {
      const z = step / 1000 + 1e-4 * Math.sin(step);
      worst = Math.max(worst, Math.abs(normalCdf(z) - pnorm(z)));
    }
    expect(worst).toBeLessThan(1e-9);
  });

  // M. Abramowitz and I. A. Stegun, "Handbook of Mathematical Functions", table 26.1 (from memory).
  it.each([
    [0, 0.5],
    [0.5, 0.691462461274013],
    [1, 0.841344746068543],
    [1.5, 0.933192798731142],
    [2, 0.977249868051821],
    [3, 0.99865010196837],
    [-1, 0.158655253931457],
    [-4, 3.16712418331199e-5],
  ])('the distribution function at %f is the printed %f', (z, probability) => {
    expect(Math.abs(normalCdf(z) - probability)).toBeLessThan(1e-9);
  });

  it('the distribution function never falls, and stays between 0 and 1', () => {
    let before = 0;
    for (let step = -9000; step <= 9000; step++) {
      const here = normalCdf(step / 1000);
      expect(here).toBeGreaterThanOrEqual(before);
      before = here;
    }
    expect(before).toBe(1);
    expect(normalCdf(-Infinity)).toBe(0);
    expect(normalCdf(Infinity)).toBe(1);
  });
});

describe('the distribution function to full precision', () => {
  it('the distribution function agrees with R to 12 digits down to probabilities of 1e-300', () => {
    let worst = 0;
    for (let step = -37_000; step <= 8_000; step++) {
      const z = step / 1000;
      worst = Math.max(worst, Math.abs(exactNormalCdf(z) / pnorm(z) - 1));
    }
    expect(worst).toBeLessThan(1e-12);
  });
});

describe('the exponential for densities', () => {
  it('the exponential has a relative error within 1e-12 of the library over its range', () => {
    let worst = 0;
    for (let step = 0; step <= 100_000; step++) {
      const x = step / 143.7;
      worst = Math.max(worst, Math.abs(decay(x) / Math.exp(-x) - 1));
    }
    expect(worst).toBeLessThan(1e-12);
    expect(decay(0)).toBe(1);
  });

  it('the exponential for densities is 0 far out, and NaN for NaN', () => {
    expect(decay(720)).toBe(Math.exp(-720));
    expect(decay(Infinity)).toBe(0);
    expect(decay(NaN)).toBeNaN();
  });
});

describe('the quantile', () => {
  // R 4.2.2, qnorm; printed tables have the same figures to their digits.
  it.each([
    [0.001, -3.09023230616781],
    [0.025, -1.95996398454005],
    [0.05, -1.64485362695147],
    [0.1, -1.2815515655446],
    [0.5, 0],
    [0.9, 1.2815515655446],
    [0.95, 1.64485362695147],
    [0.975, 1.95996398454005],
  ])('the quantile at %f is %f', (probability, z) => {
    expect(normalQuantile(probability)).toBeCloseTo(z, 12);
  });

  it('the quantile agrees with R to 12 digits down to probabilities of 1e-300, and in the upper tail', () => {
    let worst = 0;
    for (let exponent = -300; exponent < 0; exponent += 0.01) {
      const probability = 10 ** exponent;
      for (const p of [probability, 1 - probability].filter((p) => p < 1 && Math.abs(p - 0.5) > 1e-3)) {
        worst = Math.max(worst, Math.abs(normalQuantile(p) / qnorm(p) - 1));
      }
    }
    expect(worst).toBeLessThan(1e-12);
  });
});

const single = (mean: number, sd: number): NormalMixture => ({
  weights: Float64Array.of(1),
  means: Float64Array.of(mean),
  sds: Float64Array.of(sd),
});

/** A mixture as in the forecast: a normal pad and a fast one; one component has no weight. */
const MIXTURE: NormalMixture = {
  weights: Float64Array.of(0.6, 0.3, 0.1, 0),
  means: Float64Array.of(4.2, 3.1, 0.4, -50),
  sds: Float64Array.of(0.3, 0.5, 0.8, 0.001),
};

function chanceBelow({ weights, means, sds }: NormalMixture, value: number): number {
  return weights.reduce((sum, weight, i) => sum + weight * pnorm((value - means[i]!) / sds[i]!), 0);
}

describe('the quantile of a mixture', () => {
  const probabilities = [0.005, 0.02, 0.1, 0.25, 0.5, 0.75, 0.9, 0.98, 0.995];

  it.each(probabilities)('the quantile at %f has that much probability below it', (probability) => {
    const below = chanceBelow(MIXTURE, mixtureQuantiles(MIXTURE, [probability])[0]!);
    expect(Math.abs(below - probability)).toBeLessThan(1e-3);
  });

  // To a ten-thousandth of the width of the search, which is seven standard deviations of a single component.
  it.each(probabilities)('the quantile at %f of one component is that component’s', (probability) => {
    const exact = 5 + 0.2 * qnorm(probability);
    expect(Math.abs(mixtureQuantiles(single(5, 0.2), [probability])[0]! - exact)).toBeLessThan(
      1e-4 * 7 * 0.2,
    );
  });

  it('the quantile of a mixture rises with the probability', () => {
    const quantiles = probabilities.map((probability) => mixtureQuantiles(MIXTURE, [probability])[0]!);
    quantiles.slice(1).forEach((value, index) => expect(value).toBeGreaterThan(quantiles[index]!));
  });

  it('the quantile of a mixture moves and scales with the mixture', () => {
    const moved: NormalMixture = {
      weights: MIXTURE.weights,
      means: MIXTURE.means.map((mean) => 10 + 2 * mean),
      sds: MIXTURE.sds.map((sd) => 2 * sd),
    };
    for (const probability of probabilities) {
      expect(mixtureQuantiles(moved, [probability])[0]!).toBeCloseTo(
        10 + 2 * mixtureQuantiles(MIXTURE, [probability])[0]!,
        9,
      );
    }
  });
});
