import { describe, expect, it } from 'vitest';
import { cutOff } from '../../src/core/forecast/renewal.js';

const STEPS = 20_000;

/** Mean and variance of a truncated normal distribution by the midpoint rule. */
function byQuadrature(mean: number, sd: number, from: number, to: number) {
  const step = (to - from) / STEPS;
  const values = Array.from({ length: STEPS }, (_, index) => from + (index + 0.5) * step);
  const densities = values.map((value) => Math.exp(-0.5 * ((value - mean) / sd) ** 2));
  const total = densities.reduce((sum, density) => sum + density, 0);
  const expected = values.reduce((sum, value, index) => sum + value * densities[index]!, 0) / total;
  const variance =
    values.reduce((sum, value, index) => sum + (value - expected) ** 2 * densities[index]!, 0) / total;
  return { mean: expected, variance };
}

describe('a normal distribution truncated to an interval', () => {
  it.each([
    [5, 2, 0, 10],
    [-1, 3, 0, 10],
    [12, 4, 0, 10],
    [30, 40, 0, 10],
    [-200, 400, 0, 10],
    [300, 600, 0, 10],
    [1e5, 1e5, 0, 10],
    [-3e7, 1e7, 0, 200],
  ])('has the mean and variance of its density: %d ± %d on %d to %d', (mean, sd, from, to) => {
    const cut = cutOff(mean, sd, from, to);
    const exact = byQuadrature(mean, sd, from, to);
    expect(Math.abs(cut.mean - exact.mean)).toBeLessThan(0.01 * (to - from));
    expect(cut.variance / exact.variance).toBeGreaterThan(0.98);
    expect(cut.variance / exact.variance).toBeLessThan(1.02);
  });

  it('stays within the interval however wide it was', () => {
    for (let power = 0; power < 12; power += 0.25) {
      for (const z of [-6, -3, 0, 3, 6]) {
        const { mean, variance } = cutOff(z * 10 ** power, 10 ** power, 0, 100);
        expect(mean).toBeGreaterThanOrEqual(0);
        expect(mean).toBeLessThanOrEqual(100);
        expect(variance).toBeGreaterThan(0);
        expect(variance).toBeLessThan(100 ** 2 / 11.9);
      }
    }
  });
});
