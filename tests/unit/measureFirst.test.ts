import { describe, expect, it } from 'vitest';
import { measureDateOf, measureReasons, type Unmeasured } from '../../src/core/assessment/measureFirst.js';
import { DEFAULT_POLICY } from '../../src/core/assessment/policy.js';
import { PROBABILITIES, type Crossing } from '../../src/core/forecast/crossing.js';

/** A crossing whose days grow linearly with the chance: at 5 %, 10 % and 90 % they are the given days. */
function crossingOf(at5: number, at10: number, at90: number | null): Crossing {
  const days = PROBABILITIES.map((probability) => {
    if (probability <= 0.05) return (at5 * probability) / 0.05;
    if (probability <= 0.1) return at5 + ((at10 - at5) * (probability - 0.05)) / 0.05;
    return at90 === null ? null : at10 + ((at90 - at10) * (probability - 0.1)) / 0.8;
  });
  return { already: 0, days };
}

describe('the date from which an axle should be measured', () => {
  const policy = { visitIntervalDays: 182, longestDaysWithoutReading: 365, dueSoonDays: 60 };
  const dateOf = (crossing: Crossing, rhythmDays: number | null = null) =>
    measureDateOf(crossing, '2026-03-01', { rhythmDays, policy });

  it('the date is that of a chance of 5 % if early and late are farther apart than the visits', () => {
    expect(dateOf(crossingOf(40, 70, 300))).toBe('2026-04-10');
    expect(dateOf(crossingOf(39.2, 70, 300))).toBe('2026-04-10');
    expect(dateOf(crossingOf(40, 70, null))).toBe('2026-04-10');
  });

  it('there is no date if a visit is expected early enough to plan with', () => {
    expect(dateOf(crossingOf(40, 70, 252))).toBeNull();
    expect(dateOf(crossingOf(40, 70, 253))).not.toBeNull();
    // The vehicle's usual interval decides, if it has one.
    expect(dateOf(crossingOf(40, 70, 252), 90)).not.toBeNull();
    expect(dateOf(crossingOf(40, 70, 253), 365)).toBeNull();
  });

  it('there is no date without a forecast', () => {
    expect(dateOf({ already: 0.05, days: PROBABILITIES.map((p) => (p <= 0.05 ? 0 : null)) })).toBeNull();
    expect(dateOf({ already: 0, days: PROBABILITIES.map(() => null) })).toBeNull();
  });
});

describe('the reasons to measure', () => {
  const axle: Unmeasured = {
    measureDate: '2026-04-10',
    expectedDate: '2026-08-31',
    earlyDate: '2026-05-10',
    lateDate: '2026-12-26',
    lastReadingDate: '2026-03-01',
    chance: 0.0412,
  };
  const reasons = (changes: Partial<Unmeasured>, today = '2026-03-10') =>
    measureReasons({ ...axle, ...changes }, { today, horizon: '2026-05-09' }, DEFAULT_POLICY);
  const codes = (...asked: Parameters<typeof reasons>) => reasons(...asked).map(({ code }) => code);

  it('the reasons to measure say in words what to measure and why', () => {
    expect(reasons({})).toEqual([
      {
        code: 'dates-too-far-apart',
        detail:
          'The early and late dates are 230 days apart, longer than the time between visits. The chance that the limit is reached by 2026-05-09 is 4.1 %. The next visit is expected on 2026-08-31. Measure all linings of this axle: another reading narrows its dates.',
      },
    ]);
    expect(reasons({ lateDate: null })[0]!.detail).toContain('more than 30 years apart');
  });

  it('a vehicle expected in time has no reason to be measured first until it misses that visit', () => {
    expect(codes({ expectedDate: '2026-04-10' })).toEqual([]);
    expect(codes({ expectedDate: '2026-04-11' })).toEqual(['dates-too-far-apart']);
    expect(codes({ expectedDate: '2026-03-10' })).toEqual([]);
    const [missed] = reasons({ expectedDate: '2026-03-09' });
    expect(missed!.detail).toContain('The vehicle was expected on 2026-03-09');
  });

  it('there are no reasons before the horizon, and both if both apply', () => {
    expect(codes({ measureDate: '2026-05-10' })).toEqual([]);
    expect(codes({ measureDate: '2026-05-09' })).toEqual(['dates-too-far-apart']);
    expect(codes({ measureDate: null })).toEqual([]);
    expect(codes({ lastReadingDate: '2025-03-10' })).toEqual(['dates-too-far-apart']);
    expect(codes({ lastReadingDate: '2025-03-09' })).toEqual(['reading-overdue', 'dates-too-far-apart']);
    expect(codes({ lastReadingDate: null, measureDate: null })).toEqual([]);
  });
});
