import { describe, expect, it } from 'vitest';
import { padSets } from '../../src/core/accuracy/padSets.js';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import { layRoad } from '../../src/core/odometer.js';
import { fourPads, historyOf, km, mm, type VisitDraft } from '../support/coreHistories.js';

/** Pads of 11 mm with a limit of 2 mm, fitted on day 0 at 0 km. */
const START = '2023-01-01';
const FIRST_DAY = toDay(START);
const vehicle = { inService: { date: START, odometer: km(0) } };

const at = (day: number, odometerKm: number | null, more: Partial<VisitDraft> = {}): VisitDraft => ({
  date: toFullDate(FIRST_DAY + day),
  odometer: odometerKm === null ? null : km(odometerKm),
  ...more,
});
const CHANGED = [{ kind: 'pads-replaced' as const, axle: 'front' as const }];

function setsOf(drafts: VisitDraft[], of: object = vehicle) {
  const history = historyOf(of, drafts);
  return padSets(history, layRoad(history), 'front').map(({ from, to, reached, lastReadDay }) => ({
    from,
    to,
    reached: reached && { ...reached, day: reached.day - FIRST_DAY },
    lastReadDay: lastReadDay === null ? null : lastReadDay - FIRST_DAY,
  }));
}

describe('the day a set of pads reached its limit', () => {
  it('the day is on the line between the first pad’s last reading above the limit and the next', () => {
    const [set] = setsOf([
      at(200, 20_000, { readings: fourPads(8) }),
      at(400, 40_000, { readings: fourPads([4, 5, 5, 5]) }),
      at(600, 60_000, { readings: fourPads([1, 1.9, 2.5, 2.5]) }),
    ]);
    // Left inner loses 3 mm in 20 000 km and has 2 mm to lose: two thirds of the way.
    expect(set!.reached!.day).toBeCloseTo(400 + 400 / 3, 6);
    expect(set!.reached!.km).toBeCloseTo(40_000 + 40_000 / 3, 6);
    expect(set!.reached!.how).toBe('interpolated');
    expect(set).toMatchObject({ from: 0, to: null, lastReadDay: 600 });
  });

  it('the day a set of pads reached its limit is at a reading exactly at the limit', () => {
    const [set] = setsOf([
      at(200, 20_000, { readings: fourPads(6) }),
      at(400, 40_000, { readings: fourPads(2) }),
    ]);
    expect(set!.reached).toEqual({ day: 400, km: 40_000, how: 'interpolated' });
  });

  it('the day a set of pads reached its limit may be before the first reading, on the line from the fitting', () => {
    const [set] = setsOf([at(400, 40_000, { readings: fourPads(1) })]);
    expect(set!.reached!.day).toBeCloseTo(360, 6);
    expect(set!.reached!.km).toBeCloseTo(36_000, 6);
  });

  it('a reading under the limit that later ones contradict does not count', () => {
    const [set] = setsOf([
      at(200, 20_000, { readings: fourPads(8) }),
      at(400, 40_000, { readings: fourPads([1, 6, 6, 6]) }),
      at(600, 60_000, { readings: fourPads(4) }),
    ]);
    expect(set).toMatchObject({ reached: null, lastReadDay: 600 });
  });

  it('the day a set of pads reached its limit is unknown for pads never seen above their limit and fitted at an unknown time', () => {
    const [set] = setsOf([at(200, 20_000, { readings: fourPads(1.5) })], {});
    expect(set).toEqual({ from: 0, to: null, reached: null, lastReadDay: null });
  });

  it('the highest limit of the pads then fitted governs, whatever limits later sets have', () => {
    const [first, second] = setsOf([
      at(100, 10_000, { readings: fourPads(8) }),
      at(200, 20_000, {
        readings: fourPads(5),
        work: [{ ...CHANGED[0]!, new: mm(11), limit: mm(6) }],
      }),
      at(400, 40_000, { readings: fourPads(5) }),
    ]);
    expect(first).toMatchObject({ from: 0, to: 1, reached: null });
    // From 11 mm at day 200 to 5 mm at day 400; 6 mm after five sixths.
    expect(second).toMatchObject({ from: 1, to: null });
    expect(second!.reached!.day).toBeCloseTo(200 + 1000 / 6, 6);
  });
});

describe('pads that were changed early', () => {
  const worn = [
    at(200, 20_000, { readings: fourPads(8) }),
    at(400, 40_000, { readings: fourPads(5) }),
    at(500, 50_000, { readings: fourPads(3.5), work: CHANGED }),
  ];

  it('the day of such pads follows from their own wear and the distance driven later', () => {
    const [set] = setsOf([...worn, at(700, 80_000)]);
    // 0.15 mm per 1000 km from the fitting on: 9 mm last 60 000 km, 10 000 more at 150 km a day.
    expect(set!.reached!.km).toBeCloseTo(60_000, 4);
    expect(set!.reached!.day).toBeCloseTo(500 + 10_000 / 150, 6);
    expect(set!.reached!.how).toBe('extrapolated');
  });

  it('the day of such pads follows from the pace of their life if the vehicle has not driven as far', () => {
    const [set] = setsOf(worn);
    expect(set!.reached!.day).toBeCloseTo(600, 6);
  });

  it('pads changed before 70 % of their use was gone have no such day', () => {
    const [set] = setsOf([
      at(200, 20_000, { readings: fourPads(8) }),
      // 11 − 0.69 × 9 mm
      at(400, 40_000, { readings: fourPads(4.79), work: CHANGED }),
    ]);
    expect(set).toEqual({ from: 0, to: 1, reached: null, lastReadDay: 400 });
  });

  it('each side ends by itself: remaining pads continue with the next set', () => {
    const left = [{ ...CHANGED[0]!, side: 'left' as const }];
    const [first, second] = setsOf([
      at(200, 20_000, { readings: fourPads([7, 7, 8, 8]) }),
      at(300, 30_000, { readings: fourPads([5, 5, 6.5, 6.5]), work: left }),
      at(600, 60_000, { readings: fourPads([7, 7, 1, 3]) }),
    ]);
    expect(first).toMatchObject({ from: 0, to: 1, reached: null });
    // Right inner from 6.5 mm at day 300 to 1 mm at day 600.
    expect(second).toMatchObject({ from: 1, to: null });
    expect(second!.reached!.day).toBeCloseTo(300 + (300 * 4.5) / 5.5, 6);
  });
});
