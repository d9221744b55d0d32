import { describe, expect, it } from 'vitest';
import type { Outlook } from '../../src/core/assessment/outlookShape.js';
import { isBacklog, newsOf, standingIn, type Cause } from '../../src/core/events/news.js';
import { retryAfterMs, RETRY_DELAYS_MS, verdictOf } from '../../src/core/events/retries.js';
import { fourPads, km, outlookOf, type VisitDraft } from '../support/coreHistories.js';

const VAN = { inService: { date: '2024-01-01', odometer: km(0) } };
const seen = (date: string, odometerKm: number, thickness: number): VisitDraft => ({
  date,
  odometer: km(odometerKm),
  readings: fourPads(thickness),
});
const STEADY = [seen('2024-07-01', 10_000, 10), seen('2025-01-01', 20_000, 9), seen('2025-07-01', 30_000, 8)];
/** All four pads past their limit of 2 mm, and far from their prediction. */
const WORN = [...STEADY, seen('2025-12-01', 38_000, 1.5)];

const before = outlookOf(VAN, STEADY);
const after = outlookOf(VAN, WORN);
const raisedBy = (from: Outlook | null, to: Outlook, cause: Cause): Record<string, number> => {
  const counts: Record<string, number> = {};
  for (const { type } of newsOf(standingIn(from), to, cause)) counts[type] = (counts[type] ?? 0) + 1;
  return counts;
};

describe('the events that an outlook raises', () => {
  it.each<[Cause, Record<string, number>]>([
    ['history', { 'limit.passed': 4, 'reading.off_forecast': 4 }],
    ['import', { 'limit.passed': 4 }],
    ['settings', { 'limit.passed': 4 }],
    ['experience', {}],
    ['program', {}],
  ])('the cause decides which events an outlook raises: %s', (cause, expected) => {
    expect(raisedBy(before, after, cause)).toEqual(expected);
  });

  it('an outlook raises only events for what was not so before', () => {
    expect(raisedBy(after, after, 'history')).toEqual({});
    expect(raisedBy(after, before, 'history')).toEqual({});
    expect(raisedBy(null, before, 'history')).toEqual({});
    expect(raisedBy(null, after, 'history')).toEqual(raisedBy(before, after, 'history'));
  });

  it('an older visit than the newest raises no contradiction', () => {
    const later = outlookOf(VAN, [...WORN, { date: '2025-12-02', work: [{ kind: 'fluid-changed' }] }]);
    expect(raisedBy(before, later, 'history')).toEqual({ 'limit.passed': 4 });
  });
});

describe('old history that is entered', () => {
  it.each([
    ['a newest visit of a month ago', before, after, '2026-01-01', false],
    ['a newest visit of longer ago', before, after, '2026-01-02', true],
    ['the first visit, years later', null, after, '2028-01-01', true],
    ['a change that leaves the newest visit', after, after, '2028-01-01', false],
    ['a vehicle without a visit', null, outlookOf(VAN, []), '2028-01-01', false],
  ])('old history that is entered is distinguished from news: %s', (_name, from, to, today, expected) => {
    expect(isBacklog(from, to, today)).toBe(expected);
  });
});

describe('the outcome of a delivery attempt', () => {
  const after = (status: number | null, tries = 1, retryAfter: number | null = null, chance = 0) =>
    verdictOf({ status, retryAfterMs: retryAfter }, tries, chance);

  it('only 200 to 299 is success', () => {
    for (const status of [200, 204, 299]) expect(after(status)).toEqual({ kind: 'delivered' });
    for (const status of [100, 199, 300, 301, 304, 400, 404, 500, 599, null])
      expect([status, after(status).kind]).toEqual([status, 'again']);
    expect(after(410)).toEqual({ kind: 'gone' });
  });

  it('the wait follows the schedule, at most a tenth longer, up to ten attempts', () => {
    for (let tries = 1; tries < 10; tries++) {
      const delay = RETRY_DELAYS_MS[tries]!;
      expect(after(500, tries)).toEqual({ kind: 'again', inMs: delay, pauseMs: null });
      expect(after(500, tries, null, 1)).toEqual({
        kind: 'again',
        inMs: Math.round(1.1 * delay),
        pauseMs: null,
      });
    }
    expect(after(500, 10)).toEqual({ kind: 'given-up' });
    expect(after(429, 10, 1000)).toEqual({ kind: 'given-up' });
  });

  it('Retry-After is followed in answers that ask for fewer requests, up to a day', () => {
    expect(after(429, 1, 60_000)).toEqual({ kind: 'again', inMs: 60_000, pauseMs: 60_000 });
    expect(after(503, 3, 60_000)).toEqual({ kind: 'again', inMs: 1_800_000, pauseMs: 60_000 });
    expect(after(503, 1, 1e12)).toEqual({ kind: 'again', inMs: 86_400_000, pauseMs: 86_400_000 });
    expect(after(500, 1, 60_000)).toEqual({ kind: 'again', inMs: 5_000, pauseMs: null });
  });
});

describe('the Retry-After header', () => {
  const now = new Date('2026-03-10T12:00:00Z');
  it.each([
    ['120', 120_000],
    [' 0 ', 0],
    ['Tue, 10 Mar 2026 12:01:00 GMT', 60_000],
    ['Tue, 10 Mar 2026 11:00:00 GMT', 0],
    ['soon', null],
    ['-5', null],
    ['', null],
    [undefined, null],
  ])('a value of %j is %j ms', (header, expected) => {
    expect(retryAfterMs(header, now)).toBe(expected);
  });
});
