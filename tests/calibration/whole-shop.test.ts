import { describe, expect, it } from 'vitest';
import { simulateShop } from '../../bench/shopHistory.js';
import { forecastShop, KINDS, shopScore, type ShopScore } from '../../bench/wholeShopScores.js';
import { STARTING } from '../../src/core/assessment/whichExperience.js';
import { inDepth } from '../support/thorough.js';

/**
 * A small shop with every kind of messy record, forecast without experience. `npm run bench:whole-shop` does the
 * same with more vehicles, against the bars in docs/calibration.md. So few vehicles need wide bounds; a forecast that
 * ignores unknown sets, unrecorded replacements, standstills and mistyped odometer readings misses them by far.
 */
const VEHICLES = inDepth(40, 60);

describe('forecasts in a shop with every kind of messy record', { timeout: 120_000 }, () => {
  const cases = forecastShop(simulateShop(VEHICLES, 20_260), STARTING);
  const scoreOf = (kind: string): ShopScore =>
    shopScore(cases.filter(KINDS.find(({ name }) => name === kind)!.holds));

  it('the 80 % intervals cover about as often as they claim', () => {
    const { covers, early, late } = scoreOf('all');
    expect(covers).toBeGreaterThan(72);
    expect(Math.max(early, late)).toBeLessThan(18);
  });

  it('dates are far closer than a straight line from new, and not much worse than with a perfect record', () => {
    const { againstTwoPoint, againstTwin } = scoreOf('all');
    expect(againstTwoPoint).toBeLessThan(0.5);
    expect(againstTwin).toBeLessThan(1.5);
  });

  it('the forecast allows for a later set on a used vehicle', () => {
    const { covers, againstTwoPoint } = scoreOf('set unknown');
    expect(covers).toBeGreaterThan(60);
    expect(againstTwoPoint).toBeLessThan(0.3);
  });

  it('the forecast recognizes a set that was replaced without a record', () => {
    const { covers, againstTwoPoint } = scoreOf('replaced and not recorded');
    expect(covers).toBeGreaterThan(55);
    expect(againstTwoPoint).toBeLessThan(0.25);
  });

  it('the forecast expects a standstill to end', () => {
    const { covers, againstTwoPoint } = scoreOf('stood still lately');
    expect(covers).toBeGreaterThan(55);
    expect(againstTwoPoint).toBeLessThan(0.4);
  });
});
