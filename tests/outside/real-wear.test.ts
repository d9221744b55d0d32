import { describe, expect, it } from 'vitest';
import {
  fatigueUnits,
  linerUnits,
  rawFatigueUnits,
  realWearScore,
  scoreUnits,
  type ReadingCase,
} from '../../bench/realWearScores.js';
import { referenceRows } from '../support/referenceData.js';

/**
 * Forecasts of wear that was measured, scaled to brake pads: cylinder liners and fatigue cracks (data/README.md), each
 * reading from those before it. Nobody publishes repeated readings of brake pads. `npm run bench:real-wear` prints the
 * table.
 */
const DATA = [
  { name: 'cylinder liners', units: linerUnits(referenceRows('cylinder_liners.csv')) },
  { name: 'fatigue cracks, straightened', units: fatigueUnits(referenceRows('fatigue.csv')) },
  { name: 'fatigue cracks as measured', units: rawFatigueUnits(referenceRows('fatigue.csv')) },
];
/** A fit that leaves out a quarter of the units at a time; the bench leaves out one. */
const FOLDS = 4;

describe.each(DATA)('forecasts of $name', { timeout: 120_000 }, ({ units }) => {
  describe.each([
    ['the starting values', null],
    ['a fit to other units', FOLDS],
  ])('by %s', (_, folds) => {
    const cases: ReadingCase[] = scoreUnits(units, folds);
    const score = realWearScore(cases);
    console.log(
      JSON.stringify(score),
      JSON.stringify(realWearScore(cases.filter(({ before }) => before >= 2))),
    );

    it('hold about as often as they claim', () => {
      expect(score.covers).toBeGreaterThan(72);
      expect(score.covers).toBeLessThan(90);
    });

    it('are nearer than the straight line through what was read', () => {
      expect(score.againstLine).toBeLessThan(1);
    });
  });
});
