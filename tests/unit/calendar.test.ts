import { describe, expect, it } from 'vitest';
import { dateIn, latestDateAt, toDay, toFullDate } from '../../src/core/calendar.js';

describe('day numbers', () => {
  it('day numbers count from 1970-01-01', () => {
    expect(toDay('1970-01-01')).toBe(0);
    expect(toDay('1970-01-02')).toBe(1);
    expect(toDay('1969-12-31')).toBe(-1);
    expect(toDay('2026-03-02')).toBe(20_514);
  });

  it.each([
    ['2024-02-28', '2024-03-01', 2],
    ['2025-02-28', '2025-03-01', 1],
    ['2000-02-28', '2000-03-01', 2],
    ['2025-03-29', '2025-03-31', 2],
    ['2025-12-31', '2026-01-01', 1],
  ])('the days from %s to %s are %i', (from, to, days) => {
    expect(toDay(to) - toDay(from)).toBe(days);
    expect(toFullDate(toDay(from) + days)).toBe(to);
  });

  it('a date is the day that its text names, also in the first years and at the end of a month', () => {
    for (const year of ['0000', '0099', '0100', '1900', '2024', '9999']) {
      for (const rest of ['01-01', '02-28', '02-29', '04-30', '12-31']) {
        const text = `${year}-${rest}`;
        const ms = Date.parse(`${text}T00:00:00Z`);
        if (Number.isNaN(ms)) expect(() => toDay(text)).toThrow(RangeError);
        else expect(toDay(text)).toBe(ms / 86_400_000);
      }
    }
  });

  it('day numbers convert back to the same date, for sixty years', () => {
    for (let day = toDay('2000-01-01'); day < toDay('2060-01-01'); day++) {
      expect(toDay(toFullDate(day))).toBe(day);
    }
  });

  it.each(['2026-13-01', 'yesterday', '', '2026-3-2x'])('day numbers cannot be made from "%s"', (text) => {
    expect(() => toDay(text)).toThrow(RangeError);
  });
});

describe('the present date', () => {
  it.each([
    ['2026-03-02T23:30:00Z', 'UTC', '2026-03-02'],
    ['2026-03-02T23:30:00Z', 'Europe/Oslo', '2026-03-03'],
    ['2026-03-02T04:30:00Z', 'America/New_York', '2026-03-01'],
    ['2026-07-02T22:30:00Z', 'Europe/Oslo', '2026-07-03'],
    ['2026-12-31T12:00:00Z', 'Pacific/Kiritimati', '2027-01-01'],
  ])('the present date at %s in %s is %s', (instant, timeZone, date) => {
    expect(dateIn(new Date(instant), timeZone)).toBe(date);
  });

  it.each([
    ['2026-03-02T09:59:59Z', '2026-03-02'],
    ['2026-03-02T10:00:00Z', '2026-03-03'],
  ])('the latest date on earth at %s is %s', (instant, date) => {
    expect(latestDateAt(new Date(instant))).toBe(date);
  });
});
