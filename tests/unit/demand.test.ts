import { describe, expect, it } from 'vitest';
import { PROBABILITIES, type Crossing } from '../../src/core/forecast/crossing.js';
import {
  demandTally,
  lastDayOf,
  liningChances,
  monthsFrom,
  rotorChances,
  type AxleNeeds,
} from '../../src/core/planning/demand.js';
import { demandWords } from '../../src/core/planning/demandWords.js';

/** Reached on a day uniformly distributed over a year. */
const WITHIN_A_YEAR: Crossing = { already: 0, days: PROBABILITIES.map((chance) => chance * 365) };
const needs = (changes: Partial<AxleNeeds> = {}): AxleNeeds => ({
  crossing: WITHIN_A_YEAR,
  asAtDate: '2026-01-01',
  failing: false,
  counterpart: null,
  rotorChance: 0.25,
  rotorsNow: false,
  ...changes,
});
const ends = (today: string, months: number) => monthsFrom(today, months).map(lastDayOf);

describe('the months of a demand report', () => {
  it('the months of a demand report begin with the month of the date, and end with the calendar month', () => {
    expect(monthsFrom('2026-11-27', 4)).toEqual(['2026-11', '2026-12', '2027-01', '2027-02']);
    expect(ends('2027-11-30', 5)).toEqual([
      '2027-11-30',
      '2027-12-31',
      '2028-01-31',
      '2028-02-29',
      '2028-03-31',
    ]);
  });
});

describe('the chances of an axle by month', () => {
  it('the chance of an axle in a month is that of the month’s days, and what may have been reached already counts in the first', () => {
    const chances = liningChances(needs(), ends('2026-03-10', 3));
    [89, 30, 31].forEach((days, month) => expect(chances[month]).toBeCloseTo(days / 365, 6));
  });

  it('the chances of an axle are all in the first month if a reading fails', () => {
    expect(liningChances(needs({ failing: true }), ends('2026-03-10', 3))).toEqual([1, 0, 0]);
  });

  it('the chances of an axle by month never add up to more than one', () => {
    const chances = liningChances(needs(), ends('2026-03-10', 24));
    expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(0.999, 9);
    expect(Math.min(...chances)).toBeGreaterThanOrEqual(0);
  });

  it('rotors count with the linings, or at once if they must be replaced now', () => {
    const linings = [0.2, 0.4];
    const of = (changes: Partial<AxleNeeds>) => rotorChances(needs(changes), linings, ends('2026-01-10', 2));
    [0.05, 0.1].forEach((chance, month) => expect(of({})[month]).toBeCloseTo(chance, 12));
    expect(of({ rotorChance: null })).toEqual([0, 0]);
    expect(of({ rotorChance: null, rotorsNow: true })).toEqual([1, 0]);
    expect(of({ counterpart: { crossing: WITHIN_A_YEAR, failing: true } })).toEqual([1, 0]);
  });

  it('rotors count on their own limit if it comes before that of the linings', () => {
    const counterpart = { crossing: WITHIN_A_YEAR, failing: false };
    const own = rotorChances(needs({ counterpart }), [0.1, 0], ends('2026-01-10', 2));
    expect(own[0]).toBeCloseTo(30 / 365, 6);
    expect(own[1]).toBeCloseTo(28 / 365, 6);
  });

  it('a month’s chance does not depend on how many months follow', () => {
    for (const today of ['2026-01-10', '2026-11-30']) {
      const some = needs({
        crossing: { already: 0, days: PROBABILITIES.map((chance) => 200 + chance * 365) },
      });
      const all = liningChances(some, ends(today, 24));
      for (const months of [1, 6, 12]) {
        expect(liningChances(some, ends(today, months))).toEqual(all.slice(0, months));
      }
    }
  });
});

describe('the demand for parts over all axles', () => {
  it('the demand for parts over all axles is separate by kind, named by the brake, and omits kinds without demand', () => {
    const tally = demandTally<{ axle: string; brake: 'disc' | 'drum' }>(['2026-03', '2026-04']);
    tally.takeIn('f', { axle: 'front', brake: 'disc' }, [0.5, 0.25], [0, 0]);
    tally.takeIn('f', { axle: 'front', brake: 'disc' }, [0.5, 0.5], [0, 0]);
    tally.takeIn('r', { axle: 'rear', brake: 'drum' }, [1, 0], [1, 0]);
    expect(tally.demands()).toEqual([
      { month: '2026-03', axle: 'front', brake: 'disc', item: 'pad-set', expected: 1, low: 0, high: 2 },
      { month: '2026-03', axle: 'rear', brake: 'drum', item: 'shoe-set', expected: 1, low: 1, high: 1 },
      { month: '2026-03', axle: 'rear', brake: 'drum', item: 'drum-pair', expected: 1, low: 1, high: 1 },
      { month: '2026-04', axle: 'front', brake: 'disc', item: 'pad-set', expected: 0.75, low: 0, high: 2 },
    ]);
  });

  it('the demand for parts over all axles is described in words, with what it leaves out', () => {
    const totals = [
      { month: '2026-03', item: 'pad-set', expected: 2, low: 1, high: 3 },
      { month: '2026-04', item: 'pad-set', expected: 1.25, low: 0, high: 2 },
    ] as const;
    const words = demandWords(['2026-03', '2026-04'], totals, { unassessedCount: 2, rotorsUnknownCount: 3 });
    expect(words).toBe(
      'From March 2026 to April 2026: 3.3 sets of pads (2 of them in March 2026, overdue ones included). Left out: 2 axles without a forecast and the rotors or drums of 3 axles, which have no forecast. Use these figures to order parts, and still check every brake.',
    );
  });
});
