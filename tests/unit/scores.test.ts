import { describe, expect, it } from 'vitest';
import { outlookFor } from '../../src/core/assessment/outlook.js';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import { PROBABILITIES } from '../../src/core/forecast/crossing.js';
import { startingExperience } from '../../src/core/forecast/experience.js';
import {
  DISC_AXLE,
  fourPads,
  historyOf,
  km,
  mm,
  POLICY,
  type VehicleDraft,
  type VisitDraft,
} from '../support/coreHistories.js';
import { scoresOf } from '../support/scoring.js';

const START = '2023-01-01';
const vehicle: VehicleDraft = { inService: { date: START, odometer: km(0) } };
const at = (day: number, odometerKm: number, more: Partial<VisitDraft> = {}): VisitDraft => ({
  date: toFullDate(toDay(START) + day),
  odometer: km(odometerKm),
  ...more,
});

/** 0.15 mm per 1000 km and 100 km a day: the limit of 2 mm is reached on day 600 at 60 000 km. */
const worn = [
  at(200, 20_000, { readings: fourPads(8) }),
  at(400, 40_000, { readings: fourPads(5) }),
  at(500, 50_000),
  at(700, 70_000, { readings: fourPads(0.5) }),
];

describe('forecasts of a set of pads that wore out', () => {
  const history = historyOf(vehicle, worn);
  const { dates } = scoresOf(history);

  it('every visit before the limit was reached has a forecast, compared with that day', () => {
    expect(dates.map(({ date, readings, reached }) => ({ date, readings, reached }))).toEqual(
      [
        [200, 4],
        [400, 8],
        [500, 8],
      ].map(([day, readings]) => ({
        date: at(day!, 0).date,
        readings,
        reached: {
          days: expect.closeTo(600 - day!, 6) as number,
          km: expect.closeTo(60_000 - 100 * day!, 4) as number,
          how: 'interpolated',
        },
      })),
    );
  });

  it('forecasts of a set of pads that wore out equal the outlook’s own on that day', () => {
    const experience = startingExperience({ steeredOrFront: true, regenerative: false });
    for (const [index, score] of dates.entries()) {
      const then = { ...history, visits: history.visits.slice(0, index + 1) };
      const { crossing, replacement } = outlookFor(then, () => experience, POLICY).axles[0]!;
      const [early, median, late] = [0.1, 0.5, 0.9].map(
        (point) => crossing!.days[PROBABILITIES.indexOf(point)],
      );
      expect(score.days).toEqual({ early, median, late });
      expect(score.km.median).toBeCloseTo(replacement.distanceKm!.median!, 0);
      expect(score.experience).toBe('starting-values');
    }
  });

  it('forecasts of a set of pads that wore out are listed beside the workshop’s rules', () => {
    for (const { twoPointDays, lineDays, reached } of dates) {
      expect(twoPointDays).toBeCloseTo(reached!.days, 6);
      expect(lineDays).toBeCloseTo(reached!.days, 6);
    }
  });

  it('the chance that the limit is reached by then is scored', () => {
    for (const { chance, days, reached } of dates) {
      expect(chance > 0.5).toBe(reached!.days > days.median!);
      expect(chance).toBeGreaterThan(0.05);
      expect(chance).toBeLessThan(0.95);
    }
  });
});

describe('other scores', () => {
  it('a forecast is unfinished until a reading decides, up to the last day the pads were read', () => {
    const { dates } = scoresOf(historyOf(vehicle, worn.slice(0, 3)));
    // No later reading has decided the forecasts of days 400 and 500.
    expect(dates.map(({ date, reached }) => [date, reached])).toEqual([[worn[0]!.date, null]]);
  });

  it('each visit uses the experience of its own day and no other', () => {
    const asked: string[] = [];
    const experience = startingExperience({ steeredOrFront: true, regenerative: false });
    const learned = { ...experience, name: 'learned' };
    const { dates } = scoresOf(historyOf(vehicle, worn), (date) => {
      asked.push(date);
      return () => (date < worn[1]!.date ? experience : learned);
    });
    expect(dates.map((score) => score.experience)).toEqual(['starting-values', 'learned', 'learned']);
    expect(asked).toEqual(worn.slice(0, 3).map(({ date }) => date));
  });

  it('the specification of a later set is not used', () => {
    const change = { kind: 'pads-replaced' as const, axle: 'front' as const, new: mm(11), limit: mm(4) };
    const { dates } = scoresOf(historyOf(vehicle, [...worn, at(701, 70_100, { work: [change] })]));
    expect(dates).toEqual(scoresOf(historyOf(vehicle, worn)).dates);
  });

  it('the sets of one axle are separate, and so are the axles', () => {
    const change = [{ kind: 'pads-replaced' as const, axle: 'front' as const }];
    const rear = worn.map(({ readings = [] }) =>
      readings!.map((reading) => ({ ...reading, axle: 'rear' as const })),
    );
    const history = historyOf({ ...vehicle, axles: { front: DISC_AXLE, rear: DISC_AXLE } }, [
      ...worn
        .slice(0, 3)
        .map((visit, index) => ({ ...visit, readings: [...(visit.readings ?? []), ...rear[index]!] })),
      { ...worn[3]!, work: change },
      at(900, 90_000, { readings: fourPads(8) }),
      at(1400, 140_000, { readings: fourPads(0.5) }),
    ]);
    const { dates } = scoresOf(history);
    expect(dates.map(({ axle, setNumber }) => `${axle} ${setNumber}`)).toEqual([
      ...Array<string>(3).fill('front 1'),
      ...Array<string>(2).fill('front 2'),
      // The rear was last read on day 400.
      'rear 1',
    ]);
  });

  it('a vehicle with drum brakes, without an odometer or without a limit has no score', () => {
    const drum = { ...vehicle, axles: { front: { brake: 'drum' as const } } };
    expect(scoresOf(historyOf(drum, [at(200, 20_000), at(400, 40_000)]))).toEqual({
      dates: [],
      readings: [],
    });
    const unread = worn.map((visit) => ({ ...visit, odometer: null }));
    expect(scoresOf(historyOf({}, unread))).toEqual({ dates: [], readings: [] });
    const noLimit = { ...vehicle, axles: { front: { brake: 'disc' as const, pad: { new: mm(11) } } } };
    expect(scoresOf(historyOf(noLimit, worn)).dates).toEqual([]);
  });
});

describe('the score of the next reading', () => {
  it('every pad’s reading at the next visit is scored, with the odometer read at both', () => {
    const { readings } = scoresOf(historyOf(vehicle, worn));
    // From day 200 to 400 after 4 readings; from day 500 to 700 after 8.
    expect(readings.map(({ stage, readings: count }) => [stage, count])).toEqual([
      ['1–4', 4],
      ['5–8', 4],
    ]);
    for (const { inside, tenths, readings: count } of readings) {
      expect(inside[0]).toBeLessThanOrEqual(inside[1]!);
      expect(inside[1]).toBeLessThanOrEqual(inside[2]!);
      expect(tenths.reduce((sum, tenth) => sum + tenth, 0)).toBe(count);
    }
    const unread = [worn[0]!, { ...worn[1]!, odometer: null }, ...worn.slice(2)];
    expect(scoresOf(historyOf(vehicle, unread)).readings.map(({ readings: count }) => count)).toEqual([4]);
  });

  it('as-found readings are scored, not as-left ones', () => {
    const change = [{ kind: 'pads-replaced' as const, axle: 'front' as const }];
    const visits = [
      worn[0]!,
      { ...worn[1]!, readings: [...fourPads(5), ...fourPads(11, { taken: 'as-left' })], work: change },
    ];
    const [tally] = scoresOf(historyOf(vehicle, visits)).readings;
    expect(tally!.readings).toBe(4);
    // A forecast of about 5 mm: a new pad would be 6 mm off.
    expect(tally!.absoluteOffMm / 4).toBeLessThan(1.5);
  });

  it('the reading of new pads is predicted from their specification', () => {
    const change = [{ kind: 'pads-replaced' as const, axle: 'front' as const }];
    const visits = [at(200, 20_000, { work: change }), at(300, 30_000, { readings: fourPads(9.7) })];
    const { readings } = scoresOf(historyOf(vehicle, visits));
    expect(readings.map(({ stage, readings: count }) => [stage, count])).toEqual([['0', 4]]);
    // 0.13 mm per 1000 km is what the starting values expect.
    expect(readings[0]!.absoluteOffMm / 4).toBeLessThan(0.2);
  });
});
