import { describe, expect, it } from 'vitest';
import { linerUnits, rawFatigueUnits, realWearScore, scoreUnits } from '../../bench/realWearScores.js';
import { referenceRows } from '../support/referenceData.js';

/**
 * Forecasts of wear that was measured, scaled to brake pads: cylinder liners and fatigue cracks (data/README.md), each
 * reading from those before it. Nobody publishes repeated readings of brake pads. `npm run bench:real-wear` prints the
 * table, with a fit that leaves out one unit at a time; here a fit leaves out a third, so that the test stays short.
 */
const FOLDS = 3;
/** Percent: 72 to 90 with two standard errors of so few readings on either side. */
const COVERS = [62, 95] as const;

describe.each([
  { name: 'cylinder liners', units: linerUnits(referenceRows('cylinder_liners.csv')) },
  { name: 'fatigue cracks', units: rawFatigueUnits(referenceRows('fatigue.csv')) },
])('forecasts of $name', { timeout: 120_000 }, ({ units }) => {
  describe.each([
    ['the starting values', null],
    ['a fit to other units', FOLDS],
  ])('by %s', (_, folds) => {
    const cases = scoreUnits(units, folds);
    const score = realWearScore(cases);

    it('hold about as often as they claim', () => {
      expect(score.covers).toBeGreaterThan(COVERS[0]);
      expect(score.covers).toBeLessThan(COVERS[1]);
    });

    it('are nearer than the straight line through what was read', () => {
      expect(score.againstLine).toBeLessThan(1);
    });

    it('are not too sure of a unit that was read twice or more', () => {
      const { covers } = realWearScore(cases.filter(({ before }) => before >= 2));
      // Once it was 33 % of the liners.
      expect(covers).toBeGreaterThan(50);
    });
  });
});
