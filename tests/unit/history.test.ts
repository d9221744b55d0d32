import { describe, expect, it } from 'vitest';
import { inOrder } from '../../src/core/history.js';
import { km, visitsOf, type VisitDraft } from '../support/coreHistories.js';

/** Every order in which the same visits can be given. */
function permutations<T>(items: readonly T[]): T[][] {
  if (items.length < 2) return [[...items]];
  return items.flatMap((item, index) =>
    permutations(items.filter((_, other) => other !== index)).map((rest) => [item, ...rest]),
  );
}

const named = (id: string, date: string, more: Partial<VisitDraft> = {}): VisitDraft => ({
  id,
  date,
  ...more,
});

/** These visits are placed in this order, in whatever order they are given. */
function expectOrder(drafts: readonly VisitDraft[], expected: readonly string[]): void {
  for (const permutation of permutations(visitsOf(drafts))) {
    expect(inOrder(permutation).map(({ id }) => id)).toEqual(expected);
  }
}

describe('the order of visits', () => {
  it('visits are ordered by date, whatever the order of arrival', () => {
    expectOrder(
      [named('c', '2026-03-02'), named('a', '2024-02-29'), named('b', '2025-12-31')],
      ['a', 'b', 'c'],
    );
  });

  it('visits of one day are ordered by time', () => {
    expectOrder(
      [
        named('afternoon', '2026-03-02', { time: '15:30' }),
        named('morning', '2026-03-02', { time: '08:10' }),
        named('noon', '2026-03-02', { time: '12:00' }),
      ],
      ['morning', 'noon', 'afternoon'],
    );
  });

  it('visits of one day are ordered by time before odometer, so that a replaced odometer may start lower', () => {
    expectOrder(
      [
        named('new-odometer', '2026-03-02', {
          time: '15:30',
          odometer: km(3),
          odometerReplaced: { oldFinal: km(61_240), newStart: km(0) },
        }),
        named('old-odometer', '2026-03-02', { time: '08:10', odometer: km(61_240) }),
      ],
      ['old-odometer', 'new-odometer'],
    );
  });

  it('visits at one time are ordered by odometer', () => {
    expectOrder(
      [
        named('b', '2026-03-02', { time: '08:10', odometer: km(61_250) }),
        named('a', '2026-03-02', { time: '08:10', odometer: km(61_240) }),
      ],
      ['a', 'b'],
    );
  });

  it('visits without times are ordered by odometer', () => {
    expectOrder(
      [
        named('c', '2026-03-02', { odometer: km(61_260) }),
        named('a', '2026-03-02', { odometer: km(61_240) }),
        named('b', '2026-03-02', { odometer: km(61_250) }),
      ],
      ['a', 'b', 'c'],
    );
  });

  it('a visit without a time is placed among the timed ones where its odometer allows', () => {
    expectOrder(
      [
        named('c', '2026-03-02', { time: '08:10', odometer: km(61_260) }),
        named('b', '2026-03-02', { odometer: km(61_250) }),
        named('a', '2026-03-02', { time: '07:00', odometer: km(61_240) }),
      ],
      ['a', 'b', 'c'],
    );
  });

  it('the times of a day stay in order even if one of its visits has none', () => {
    expectOrder(
      [
        named('afternoon', '2026-03-02', { time: '16:00' }),
        named('morning', '2026-03-02', { time: '08:00' }),
        named('untimed', '2026-03-02'),
      ],
      ['morning', 'afternoon', 'untimed'],
    );
  });

  it('a visit without time and odometer is placed by its arrival among the timed ones', () => {
    expectOrder(
      [
        named('morning', '2026-03-02', { time: '08:00' }),
        named('untimed', '2026-03-02'),
        named('afternoon', '2026-03-02', { time: '16:00' }),
      ],
      ['morning', 'untimed', 'afternoon'],
    );
  });

  it('visits with equal odometer readings are ordered by arrival', () => {
    expectOrder(
      [
        named('first', '2026-03-02', { odometer: km(61_240) }),
        named('second', '2026-03-02', { odometer: km(61_240) }),
      ],
      ['first', 'second'],
    );
  });

  it('visits without times and odometer readings are ordered by arrival', () => {
    expectOrder(
      [named('first', '2026-03-02'), named('second', '2026-03-02'), named('third', '2026-03-02')],
      ['first', 'second', 'third'],
    );
  });

  it('the order leaves the input unchanged', () => {
    const visits = visitsOf([named('b', '2026-03-02'), named('a', '2025-03-02')]);
    inOrder(visits);
    expect(visits.map(({ id }) => id)).toEqual(['b', 'a']);
  });

  it('visits without times come by odometer, then those without a reading, then a replaced odometer', () => {
    expectOrder(
      [
        named('far', '2026-03-02', { odometer: km(100) }),
        named('unread', '2026-03-02', { odometer: null }),
        named('near', '2026-03-02', { odometer: km(50) }),
        named('replaced', '2026-03-02', {
          odometer: km(10),
          odometerReplaced: { oldFinal: km(100), newStart: km(0) },
        }),
      ],
      ['near', 'far', 'unread', 'replaced'],
    );
  });
});
