import { describe, expect, it } from 'vitest';
import { drawAround, minimise } from '../../src/core/forecast/laplace.js';
import { poolGroup, weighty } from '../../src/core/forecast/pooling.js';

describe('the mean of a group', () => {
  /** Members who agree on 1, with a likelihood whose tails are those of a much wider one. */
  const agreeing = (members: number, sd: number) => {
    const log = (mean: number): number => {
      const near = Math.exp(-0.5 * ((mean - 1) / sd) ** 2) / sd;
      return members * Math.log(0.98 * near + 0.008 * Math.exp(-0.5 * ((mean - 1) / 2.5) ** 2));
    };
    const curve = (mean: number) => ({
      log: log(mean),
      slope: (log(mean + 0.01) - log(mean - 0.01)) / 0.02,
      curvature: (log(mean + 0.01) + log(mean - 0.01) - 2 * log(mean)) / 0.01 ** 2,
    });
    return { log, curve };
  };

  it('the mean of a group is found from any starting point', () => {
    for (const members of [1, 10, 150, 1000]) {
      for (const start of [-1, 0, 0.7, 0.98, 1.6]) {
        const { mean, variance } = poolGroup(agreeing(members, 0.06), { mean: 0.6, sd: 0.25 }, start);
        // A product of normals: the members' and the prior's.
        const precision = members / 0.06 ** 2 + 1 / 0.25 ** 2;
        const expected = (members / 0.06 ** 2 + 0.6 / 0.25 ** 2) / precision;
        expect(Math.abs(mean - expected), `${members} from ${start}`).toBeLessThan(0.02);
        expect(Math.sqrt(variance * precision), `${members} from ${start}`).toBeGreaterThan(0.7);
        expect(Math.sqrt(variance * precision), `${members} from ${start}`).toBeLessThan(1.5);
      }
    }
  });
});

describe('draws around a mode', () => {
  it('there are several draws if the posterior falls off faster than its curvature says', () => {
    // Flat around the mode, with a wall beyond: all but one or two draws are almost impossible.
    const wall = (x: Float64Array) => x.reduce((sum, at) => sum + 0.5 * at * at + (1.5 * at) ** 10, 0);
    const draws = drawAround(wall, minimise(wall, new Float64Array(9)), 8);
    expect(draws.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    expect(weighty(draws).length).toBeGreaterThanOrEqual(3);
    expect(Math.max(...draws.map(({ weight }) => weight))).toBeLessThan(0.35);
  });
});
