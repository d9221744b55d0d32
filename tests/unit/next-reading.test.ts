import { describe, expect, it } from 'vitest';
import { crps, readingForetold, scoreReading } from '../../src/core/accuracy/nextReading.js';
import { startingExperience } from '../../src/core/forecast/experience.js';
import { normalCdf, type NormalMixture } from '../../src/core/forecast/normal.js';

const mixtureOf = (...components: [weight: number, mean: number, sd: number][]): NormalMixture => ({
  weights: Float64Array.from(components, ([weight]) => weight),
  means: Float64Array.from(components, ([, mean]) => mean),
  sds: Float64Array.from(components, ([, , sd]) => sd),
});
const mixture = mixtureOf([0.7, 8, 0.3], [0.3, 7, 0.8]);

describe('the continuous ranked probability score', () => {
  it('the score of a standard normal at its mean is (√2 − 1)/√π', () => {
    expect(crps(mixtureOf([1, 0, 1]), 0)).toBeCloseTo((Math.SQRT2 - 1) / Math.sqrt(Math.PI), 9);
  });

  it('the continuous ranked probability score is the area between the distribution and the step at the reading', () => {
    const [from, to, steps] = [0, 14, 200_000];
    for (const value of [6.1, 7.8, 9.4]) {
      let area = 0;
      for (let index = 0; index < steps; index++) {
        const x = from + ((index + 0.5) * (to - from)) / steps;
        const below = 0.7 * normalCdf((x - 8) / 0.3) + 0.3 * normalCdf((x - 7) / 0.8);
        area += (below - Number(x >= value)) ** 2 * ((to - from) / steps);
      }
      expect(crps(mixture, value)).toBeCloseTo(area, 4);
    }
  });
});

describe('the prediction of a reading', () => {
  const experience = startingExperience({ steeredOrFront: true, regenerative: false });
  const foretold = readingForetold(mixture, experience, { gaugeUncertaintyMm: 0.3, misreadRangeMm: 12 });

  it('the prediction of a reading is spread by the gauge, by the gauge’s placement and by the error that a visit’s readings share', () => {
    // Placement 0.2 mm in the starting values.
    const shared = experience.pads.reduce((sum, draw) => sum + draw.weight * draw.parameters.visitSd ** 2, 0);
    expect(foretold.sds[0]).toBeCloseTo(Math.sqrt(0.3 ** 2 + 0.3 ** 2 + 0.2 ** 2 + shared), 9);
    expect(foretold.weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 12);
  });

  it('the prediction includes a small chance of a gross misreading or a sudden loss', () => {
    // A sixth of the misreadings fall under 2 mm, and some of the sudden losses.
    const { misreadChance, suddenChance } = experience.pads[0]!.parameters;
    const { chance } = scoreReading(foretold, 7.8, 2);
    expect(chance).toBeGreaterThan((0.95 * misreadChance) / 6);
    expect(chance).toBeLessThan(misreadChance / 6 + suddenChance);
    expect(scoreReading(foretold, 7.8, 12).chance).toBeGreaterThan(0.99);
  });

  it('a predicted misreading falls anywhere in the range of its part', () => {
    const read = { gaugeUncertaintyMm: 0.3, misreadRangeMm: 6 };
    const { misreadChance } = experience.pads[0]!.parameters;
    const chance = scoreReading(readingForetold(mixture, experience, read), 7.8, 3).chance;
    expect(chance).toBeGreaterThan((0.95 * misreadChance) / 2);
  });

  it('the prediction of a reading is scored by its error and by its cumulative chance', () => {
    const score = scoreReading(mixtureOf([1, 8, 0.5]), 8, 8.5);
    expect(score.offMm).toBeCloseTo(0.5, 12);
    expect(score.chance).toBeCloseTo(0.841345, 5);
  });
});
