import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PROBABILITIES, type Crossing } from '../../src/core/forecast/crossing.js';
import { chanceOfAtMost, countAt, noneOf, takeIn } from '../../src/core/planning/counts.js';
import { lastDayOf, liningChances, monthsFrom } from '../../src/core/planning/demand.js';

const chances = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 60 });

/** Any crossing that may be stored: a chance that it lies behind, and days that never fall. */
const crossings: fc.Arbitrary<Crossing> = fc
  .tuple(
    fc.double({ min: 0, max: 1, noNaN: true }),
    fc.array(fc.double({ min: 0, max: 400, noNaN: true }), {
      minLength: PROBABILITIES.length,
      maxLength: PROBABILITIES.length,
    }),
    fc.integer({ min: 0, max: PROBABILITIES.length }),
  )
  .map(([already, steps, known]) => {
    let day = 0;
    const days = PROBABILITIES.map((probability, index) => {
      if (already >= probability) return 0;
      day += steps[index]!;
      return index < known ? day : null;
    });
    return { already, days };
  });

describe('a count of events', () => {
  it('is expected at the sum of their chances, which its interval holds to within one', () => {
    fc.assert(
      fc.property(chances, (each) => {
        const count = noneOf();
        for (const chance of each) takeIn(count, chance);
        const expected = each.reduce((sum, chance) => sum + chance, 0);
        expect(count.mean).toBeCloseTo(expected, 9);
        const [low, high] = [countAt(count, 0.1), countAt(count, 0.9)];
        expect(low).toBeLessThanOrEqual(high);
        expect(low).toBeLessThan(expected + 1);
        expect(high).toBeGreaterThan(expected - 1);
        expect(chanceOfAtMost(count, high) - chanceOfAtMost(count, low - 1)).toBeGreaterThanOrEqual(
          0.8 - 1e-9,
        );
      }),
    );
  });
});

describe('the months of an axle', () => {
  it('share out no more than one set of linings, and a longer horizon changes none of those before', () => {
    const months = fc.integer({ min: 1, max: 24 });
    fc.assert(
      fc.property(crossings, fc.boolean(), months, (crossing, failing, count) => {
        const needs = { crossing, asAtDate: '2025-08-17', failing, rotorChance: null, rotorsNow: false };
        const ends = monthsFrom('2026-03-10', 24).map(lastDayOf);
        const all = liningChances(needs, ends);
        expect(Math.min(...all)).toBeGreaterThanOrEqual(0);
        expect(all.reduce((sum, chance) => sum + chance, 0)).toBeLessThanOrEqual(1 + 1e-12);
        expect(liningChances(needs, ends.slice(0, count))).toEqual(all.slice(0, count));
      }),
    );
  });
});
