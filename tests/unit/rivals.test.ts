import { describe, expect, it } from 'vitest';
import { lineRule, twoPointRule, type LinePad } from '../../src/core/accuracy/rivals.js';

const fitted = { day: 0, km: 0, mm: 11 };
const marks = [
  { day: 0, km: 0 },
  { day: 100, km: 20_000 },
  { day: 200, km: 30_000 },
];
const pad = (first: number, second: number): LinePad => ({
  fitted,
  limitMm: 2,
  looks: [
    { day: 100, km: 20_000, mm: first },
    { day: 200, km: 30_000, mm: second },
  ],
});

describe('the forecast rules that a workshop uses by hand', () => {
  it('the two-point rule goes from new to the latest reading, at the last two visits’ km a day', () => {
    // 3 mm in 30 000 km: 9 mm last 90 000 km, 60 000 more at 100 km a day.
    expect(twoPointRule([pad(7, 8)], marks)).toBeCloseTo(600, 9);
  });

  it('the line rule extends the least-squares line, at the mean km a day', () => {
    // (20·4 + 30·3)/(20² + 30²) mm per 1000 km, 150 km a day.
    const rate = 170 / 1300;
    expect(lineRule([pad(7, 8)], marks)).toBeCloseTo((9 / rate - 30) / 0.15, 9);
  });

  it('the rules take the earliest pad, and no date before today', () => {
    expect(twoPointRule([pad(9, 9), pad(7, 5)], marks)).toBeCloseTo((45_000 - 30_000) / 100, 9);
    expect(twoPointRule([pad(9, 1)], marks)).toBe(0);
  });

  it('the rules say never if no wear is visible, and nothing without readings', () => {
    expect(twoPointRule([pad(11, 11)], marks)).toBe(Infinity);
    expect(lineRule([{ ...pad(11, 11), looks: [] }], marks)).toBeNull();
    expect(twoPointRule([pad(9, 8)], marks.slice(0, 1))).toBeNull();
  });
});
