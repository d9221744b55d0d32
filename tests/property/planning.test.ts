import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { experienceOf, STARTING } from '../../src/core/assessment/whichExperience.js';
import { PROBABILITIES, type Crossing } from '../../src/core/forecast/crossing.js';
import { DEFAULT_POLICY } from '../../src/core/assessment/policy.js';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import { chanceOfAtMost, countAt, noneOf, takeIn } from '../../src/core/planning/counts.js';
import { lastDayOf, liningChances, monthsFrom } from '../../src/core/planning/demand.js';
import { replacementPlan } from '../../src/core/planning/replacementPlan.js';
import type { PlanPreference } from '../../src/core/planning/planRule.js';
import type { AxlePlan } from '../../src/core/vocabulary/planning.js';
import { historyOf, messyHistory, outlookOf, TODAY, type SentHistory } from '../support/histories.js';

const chances = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 60 });

/** Any crossing that may be stored: a chance that it has happened, and days that never decrease. */
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
  it('the expected value is the sum of the chances, and the interval contains them to within one', () => {
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
  it('the months of an axle add up to one set of linings at most, and a longer horizon changes no earlier month', () => {
    const months = fc.integer({ min: 1, max: 24 });
    fc.assert(
      fc.property(crossings, fc.boolean(), months, (crossing, failing, count) => {
        const needs = {
          crossing,
          asAtDate: '2025-08-17',
          failing,
          rotorChance: null,
          counterpart: null,
          rotorsNow: false,
        };
        const ends = monthsFrom('2026-03-10', 24).map(lastDayOf);
        const all = liningChances(needs, ends);
        expect(Math.min(...all)).toBeGreaterThanOrEqual(0);
        expect(all.reduce((sum, chance) => sum + chance, 0)).toBeLessThanOrEqual(1 + 1e-12);
        expect(liningChances(needs, ends.slice(0, count))).toEqual(all.slice(0, count));
      }),
    );
  });
});

describe('a replacement plan', () => {
  const dates = fc.uniqueArray(fc.integer({ min: 0, max: 1500 }), { minLength: 2, maxLength: 6 });

  function planFor(sent: SentHistory, days: readonly number[], costs: PlanPreference['costs']): AxlePlan[] {
    const history = historyOf(sent);
    const experienceFor = experienceOf(history.vehicle, STARTING);
    const outlook = outlookOf(sent);
    const today = outlook.asAt?.date ?? TODAY;
    const start = toDay(today);
    const question = {
      today,
      dates: days.map((day) => toFullDate(start + day)),
      costs,
      greatestChance: 0.1,
    };
    return replacementPlan('v-1', history, outlook, experienceFor, DEFAULT_POLICY, question).axles;
  }

  it('the chances rise from visit to visit and the lining left falls', () => {
    fc.assert(
      fc.property(messyHistory(), dates, (sent, days) => {
        for (const { visits } of planFor(sent, days, null)) {
          visits.slice(1).forEach((visit, index) => {
            const before = visits[index]!;
            expect(visit.chanceTooLate).toBeGreaterThanOrEqual(before.chanceTooLate);
            for (const name of ['expected', 'low', 'median', 'high'] as const) {
              expect(visit.wastedMm[name]).toBeGreaterThanOrEqual(0);
              expect(visit.wastedMm[name]).toBeLessThanOrEqual(before.wastedMm[name] + 0.002);
            }
          });
          for (const { wastedMm } of visits) {
            expect(wastedMm.low).toBeLessThanOrEqual(wastedMm.median);
            expect(wastedMm.median).toBeLessThanOrEqual(wastedMm.high);
          }
        }
      }),
      { numRuns: 60 },
    );
  });

  it('a replacement plan recommends no visit that costs more than another, nor one with too great a chance', () => {
    const costs = fc.record({
      tooLate: fc.integer({ min: 0, max: 1000 }),
      perMmWasted: fc.integer({ min: 0, max: 50 }),
    });
    fc.assert(
      fc.property(messyHistory(), dates, costs, (sent, days, asked) => {
        for (const { visits, recommended } of planFor(sent, days, asked)) {
          const chosen = visits.find(({ date }) => date === recommended);
          if (chosen) {
            expect(Math.min(...visits.map(({ expectedCost }) => expectedCost!))).toBe(chosen.expectedCost);
          }
        }
        for (const { visits, recommended } of planFor(sent, days, null)) {
          const chosen = visits.find(({ date }) => date === recommended);
          if (chosen) expect(chosen.chanceTooLate).toBeLessThanOrEqual(0.1);
        }
      }),
      { numRuns: 40 },
    );
  });
});
