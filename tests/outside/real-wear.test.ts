import { describe, expect, it } from 'vitest';
import { linerUnits, rawFatigueUnits, realWearScore, scoreUnits } from '../../bench/realWearScores.js';
import { referenceRows } from '../support/referenceData.js';

/**
 * Forecasts of measured wear, scaled to brake pads: cylinder liners and fatigue cracks (data/README.md). Each reading
 * is forecast from those before it. No repeated readings of brake pads are published. `npm run bench:real-wear` prints
 * the table, with fits that leave out one unit at a time; here each of two fits uses half of the liners.
 */
const LINERS = linerUnits(referenceRows('cylinder_liners.csv'));
const CRACKS = rawFatigueUnits(referenceRows('fatigue.csv'));
const FOLDS = 2;
/** Percent: 72 to 90, plus two standard errors of so few readings on either side. */
const COVERS = [62, 97] as const;

describe.each([
  { name: 'cylinder liners with the starting values', units: LINERS, folds: null },
  { name: 'cylinder liners with a fit to the others', units: LINERS, folds: FOLDS },
  { name: 'fatigue cracks with the starting values', units: CRACKS, folds: null },
])('forecasts of $name', { timeout: 120_000 }, ({ units, folds }) => {
  const cases = scoreUnits(units, folds);
  const score = realWearScore(cases);

  it('the intervals cover about as often as they claim', () => {
    expect(score.covers).toBeGreaterThan(COVERS[0]);
    expect(score.covers).toBeLessThan(COVERS[1]);
  });

  it('the forecasts are closer than a straight line through the readings', () => {
    expect(score.againstLine).toBeLessThan(1);
  });

  it('the forecasts are not too confident for a unit with two readings or more', () => {
    // An earlier version covered 33 % of the liners.
    expect(realWearScore(cases.filter(({ before }) => before >= 2)).covers).toBeGreaterThan(40);
  });
});
