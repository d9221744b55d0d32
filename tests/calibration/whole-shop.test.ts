import { describe, expect, it } from 'vitest';
import { simulateShop } from '../../bench/shopHistory.js';
import { forecastShop, KINDS, shopScore, type ShopScore } from '../../bench/wholeShopScores.js';
import { STARTING } from '../../src/core/assessment/whichExperience.js';

/**
 * A small shop where everything goes wrong at once, forecast without experience. `npm run bench:whole-shop` does the
 * same with more vehicles, against the bars in docs/calibration.md. So few vehicles need wide bounds; forecasts that
 * know nothing of unknown sets, unrecorded replacements, standstills and mistyped odometers miss them by far.
 */
const VEHICLES = 60;

describe('forecasts in a shop where everything goes wrong at once', { timeout: 120_000 }, () => {
  const cases = forecastShop(simulateShop(VEHICLES, 20_260), STARTING);
  const scoreOf = (kind: string): ShopScore =>
    shopScore(cases.filter(KINDS.find(({ name }) => name === kind)!.holds));

  it('hold as often as they claim', () => {
    const { covers, early, late } = scoreOf('all');
    expect(covers).toBeGreaterThan(72);
    expect(Math.max(early, late)).toBeLessThan(18);
  });

  it('are far nearer than a line from new, and not much further off than with a perfect record', () => {
    const { againstTwoPoint, againstTwin } = scoreOf('all');
    expect(againstTwoPoint).toBeLessThan(0.5);
    expect(againstTwin).toBeLessThan(1.5);
  });

  it('know that a used vehicle may have come on a later set', () => {
    const { covers, againstTwoPoint } = scoreOf('set unknown');
    expect(covers).toBeGreaterThan(60);
    expect(againstTwoPoint).toBeLessThan(0.3);
  });

  it('recognise a set that was replaced without a record', () => {
    const { covers, againstTwoPoint } = scoreOf('replaced and not recorded');
    expect(covers).toBeGreaterThan(55);
    expect(againstTwoPoint).toBeLessThan(0.25);
  });

  it('let a standstill end', () => {
    const { covers, againstTwoPoint } = scoreOf('stood still lately');
    expect(covers).toBeGreaterThan(55);
    expect(againstTwoPoint).toBeLessThan(0.4);
  });
});
