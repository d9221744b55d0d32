import { describe, expect, it } from 'vitest';
import { outlookFor, outlookInParts, UnsoundOutlook } from '../../src/core/assessment/outlook.js';
import { wearAnswer } from '../../src/core/assessment/wearAnswer.js';
import { chanceBy, dateInterval, isOverdue } from '../../src/core/assessment/forecastDates.js';
import type { Outlook } from '../../src/core/assessment/outlookShape.js';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import {
  chanceWithin,
  daysAt,
  LONGEST_DAYS,
  PROBABILITIES,
  type Crossing,
} from '../../src/core/forecast/crossing.js';
import { startingExperience } from '../../src/core/forecast/experience.js';
import type { AxleWear, Replacement } from '../../src/core/vocabulary/wear.js';
import {
  DISC_AXLE,
  fourPads,
  historyOf,
  km,
  mm,
  outlookOf,
  POLICY,
  type VehicleDraft,
  type VisitDraft,
} from '../support/coreHistories.js';
import { onlyDraw } from '../support/parameters.js';

const VAN: VehicleDraft = { inService: { date: '2024-01-01', odometer: km(0) } };

/** A visit on a date, after a distance, with all pads at one thickness. */
const seen = (date: string, odometerKm: number, thickness: number): VisitDraft => ({
  date,
  odometer: km(odometerKm),
  readings: fourPads(thickness),
});
/** 55 km a day, 0.15 mm per 1000 km, a visit every half-year. */
const STEADY = [
  seen('2024-07-01', 10_000, 9.5),
  seen('2025-01-01', 20_000, 8),
  seen('2025-07-01', 30_000, 6.5),
];

interface Question {
  today?: string;
  until?: string | null;
}

function answered(outlook: Outlook, { today = '2025-07-02', until = null }: Question = {}): AxleWear {
  return wearAnswer('v-1', outlook, { today, until }).axles[0]!;
}
const replacementOf = (visits: VisitDraft[], question: Question = {}, vehicle = VAN): Replacement =>
  answered(outlookOf(vehicle, visits), question).replacement;

const NO_INTERVAL = { early: null, lowerQuartile: null, median: null, upperQuartile: null, late: null };

describe('the usual interval between visits', () => {
  const rhythmOf = (...dates: string[]) =>
    outlookOf(
      {},
      dates.map((date) => ({ date })),
    ).rhythmDays;

  it('the usual interval is unknown before the third visit', () => {
    expect(rhythmOf()).toBeNull();
    expect(rhythmOf('2024-01-01')).toBeNull();
    expect(rhythmOf('2024-01-01', '2024-07-01')).toBeNull();
  });

  it('the usual interval between visits is the median of the days between visits', () => {
    expect(rhythmOf('2024-01-01', '2024-01-31', '2024-03-11')).toBe(35);
    expect(rhythmOf('2024-01-01', '2024-01-31', '2024-03-11', '2025-03-11')).toBe(40);
  });

  it('visits within a week count as one job', () => {
    expect(rhythmOf('2024-01-01', '2024-01-03', '2024-01-07')).toBeNull();
    expect(rhythmOf('2024-01-01', '2024-01-05', '2024-01-31', '2024-03-01')).toBe(30);
    expect(rhythmOf('2024-01-01', '2024-01-08', '2024-01-15')).toBe(7);
  });

  it('the usual interval between visits follows a change: only the latest six intervals count', () => {
    const yearly = ['2010-01-01', '2011-01-01', '2012-01-01', '2013-01-01'];
    const monthly = [1, 2, 3, 4, 5, 6, 7].map((month) => `2014-0${month}-01`);
    // 28, 30, 30, 31, 31 and 31 days; in the middle 30.5, to whole days.
    expect(rhythmOf(...yearly, ...monthly)).toBe(31);
  });
});

describe('the date of the next visit', () => {
  it('the date of the next visit is the requested date', () => {
    expect(replacementOf(STEADY, { until: '2026-02-01' }).untilNextVisit).toMatchObject({
      date: '2026-02-01',
      dateSource: 'until',
    });
  });

  it('the date of the next visit follows the usual interval, if there is one', () => {
    const rhythm = outlookOf(VAN, STEADY).rhythmDays!;
    expect(replacementOf(STEADY).untilNextVisit).toMatchObject({
      date: toFullDate(toDay('2025-07-01') + rhythm),
      dateSource: 'rhythm',
    });
  });

  it('the date follows the policy’s interval from the latest visit if there is no usual interval', () => {
    expect(replacementOf(STEADY.slice(0, 1), { today: '2024-07-02' }).untilNextVisit).toMatchObject({
      date: toFullDate(toDay('2024-07-01') + POLICY.visitIntervalDays),
      dateSource: 'policy',
    });
  });

  it('the date follows the policy’s interval from today if there is no visit', () => {
    expect(replacementOf([], { today: '2024-07-02' }).untilNextVisit).toMatchObject({
      date: toFullDate(toDay('2024-07-02') + POLICY.visitIntervalDays),
      dateSource: 'policy',
      chanceLimitReached: null,
    });
  });

  it('the date of the next visit is today if it should have been earlier', () => {
    expect(replacementOf(STEADY, { today: '2026-11-11' }).untilNextVisit).toMatchObject({
      date: '2026-11-11',
      dateSource: 'rhythm',
    });
  });

  it('the chance that the limit is reached by the next visit rises with the date', () => {
    const chances = ['2025-08-01', '2026-08-01', '2027-02-01', '2028-01-01'].map(
      (until) => replacementOf(STEADY, { until }).untilNextVisit.chanceLimitReached!,
    );
    expect(chances[0]).toBeLessThan(0.01);
    expect(chances[3]).toBeGreaterThan(0.9);
    expect([...chances].sort((a, b) => a - b)).toEqual(chances);
  });
});

describe('an overdue axle', () => {
  it('a reading that fails its limit makes the axle overdue, whatever the forecast says', () => {
    expect(isOverdue(true, null, '2025-07-02')).toBe(true);
    expect(isOverdue(true, '2030-01-01', '2025-07-02')).toBe(true);
  });

  it.each([
    ['2025-07-01', true],
    ['2025-07-02', true],
    ['2025-07-03', false],
    [null, false],
  ])('a median date of %s makes it %s on 2025-07-02', (median, overdue) => {
    expect(isOverdue(false, median, '2025-07-02')).toBe(overdue);
  });

  it('time alone can make the axle overdue', () => {
    const { median } = replacementOf(STEADY).date!;
    const dayBefore = toFullDate(toDay(median!) - 1);
    expect(replacementOf(STEADY, { today: dayBefore }).overdue).toBe(false);
    expect(replacementOf(STEADY, { today: median! }).overdue).toBe(true);
  });

  it('a reason says so if no pad was measured at its limit', () => {
    const median = replacementOf(STEADY).date!.median!;
    const dayBefore = toFullDate(toDay(median) - 1);
    const reason = expect.objectContaining({ field: 'overdue', code: 'limit-probably-reached' });
    expect(replacementOf(STEADY, { today: median }).reasons).toContainEqual(reason);
    expect(replacementOf(STEADY, { today: dayBefore }).reasons).not.toContainEqual(reason);
  });

  it('one pad at its limit makes the axle overdue at once, with that date', () => {
    const last: VisitDraft = { ...seen('2025-07-01', 30_000, 6.5), readings: fourPads([6.5, 6.5, 2, 6.5]) };
    const replacement = replacementOf([...STEADY.slice(0, 2), last]);
    expect(replacement).toMatchObject({
      overdue: true,
      governingPad: { side: 'right', pad: 'inner' },
      date: { early: '2025-07-01', median: '2025-07-01' },
      distanceKm: { early: 0, median: 0 },
    });
    expect(replacement.untilNextVisit.chanceLimitReached).toBeGreaterThanOrEqual(0.5);
  });

  it('an axle with new pads is no longer overdue', () => {
    const worn = seen('2025-07-01', 30_000, 1.5);
    expect(replacementOf([worn]).overdue).toBe(true);
    const fitted: VisitDraft = { ...worn, work: [{ kind: 'pads-replaced', axle: 'front' }] };
    expect(replacementOf([fitted])).toMatchObject({ overdue: false, basis: { readings: 0 } });
  });
});

/** A crossing with a linear chance from day 100 on: one in a thousand a day. */
const EVEN: Crossing = {
  already: 0,
  days: PROBABILITIES.map((probability) => 100 + 1000 * probability),
};

describe('a chance interpolated from a crossing', () => {
  it('a chance interpolated from a crossing is that of the stored days, linear between them', () => {
    expect(chanceWithin(EVEN, 0)).toBe(0);
    expect(chanceWithin(EVEN, 200)).toBeCloseTo(0.1, 12);
    expect(chanceWithin(EVEN, 637)).toBeCloseTo(0.537, 12);
    expect(chanceWithin(EVEN, 50)).toBeCloseTo((0.001 * 50) / 101, 12);
    expect(chanceWithin(EVEN, 5000)).toBe(0.999);
  });

  it('a chance interpolated from a crossing never falls below the present chance', () => {
    const already: Crossing = {
      already: 0.4,
      days: EVEN.days.map((days, index) => (PROBABILITIES[index]! <= 0.4 ? 0 : days)),
    };
    expect(chanceWithin(already, -10)).toBe(0.4);
    expect(chanceWithin(already, 0)).toBe(0.4);
    expect(chanceWithin(already, 1)).toBeGreaterThan(0.4);
    expect(daysAt(already, 0.1)).toBe(0);
  });

  it('a chance interpolated from a crossing is not extrapolated beyond the stored days', () => {
    const known: Crossing = {
      already: 0,
      days: EVEN.days.map((days, index) => (PROBABILITIES[index]! <= 0.3 ? days : null)),
    };
    expect(chanceWithin(known, 10_000)).toBe(0.3);
    expect(daysAt(known, 0.5)).toBeNull();
  });
});

describe('the forecast dates of an axle', () => {
  const crossingOf = (visits: VisitDraft[]): Crossing => outlookOf(VAN, visits).axles[0]!.crossing!;

  /** One reading after half a year of much or little driving and wear; slow wear puts its dates far ahead. */
  const manifold = [2000, 5000, 10_000, 20_000, 40_000].flatMap((driven) =>
    [10.8, 10, 9, 7, 4, 2.5].map((thickness) => [driven, thickness] as const),
  );

  it.each(manifold)(
    'the forecast dates after %i km at %f mm are the first days with at least their chance',
    (driven, thickness) => {
      const asAt = '2024-07-01';
      const crossing = crossingOf([seen(asAt, driven, thickness)]);
      const { early, median, late } = dateInterval(crossing, asAt);
      const dates = [
        [early, 0.1],
        [median, 0.5],
        [late, 0.9],
      ] as const;
      for (const [date, probability] of dates) {
        if (date === null) {
          expect(chanceWithin(crossing, LONGEST_DAYS)).toBeLessThan(probability);
          continue;
        }
        const days = toDay(date) - toDay(asAt);
        expect(chanceBy(crossing, asAt, date)).toBeGreaterThanOrEqual(probability);
        expect(chanceWithin(crossing, days)).toBeGreaterThanOrEqual(probability);
        if (days > 0) expect(chanceWithin(crossing, days - 1)).toBeLessThan(probability);
      }
    },
  );

  it('the forecast dates of an axle are in order, and so are the distances', () => {
    const { date, distanceKm } = replacementOf(STEADY);
    expect(date!.early! < date!.median! && date!.median! < date!.late!).toBe(true);
    expect(distanceKm!.early!).toBeLessThan(distanceKm!.median!);
    expect(distanceKm!.median!).toBeLessThan(distanceKm!.late!);
  });

  it('the forecast dates of an axle are near those of the steady wear and use', () => {
    const { date, distanceKm } = replacementOf(STEADY);
    // 4.5 mm at 0.15 mm per 1000 km are 30 000 km; the first of four pads is a little sooner.
    expect(distanceKm!.median!).toBeGreaterThan(25_000);
    expect(distanceKm!.median!).toBeLessThan(31_000);
    const days = toDay(date!.median!) - toDay('2025-07-01');
    expect(days * 55).toBeGreaterThan(25_000);
    expect(days * 55).toBeLessThan(31_000);
  });

  it('the forecast dates of an axle move closer together with every reading', () => {
    const width = (visits: VisitDraft[]): number => {
      const { early, late } = replacementOf(visits).distanceKm!;
      return Math.log(late! / early!);
    };
    expect(width(STEADY.slice(0, 2))).toBeLessThan(width(STEADY.slice(0, 1)));
    expect(width(STEADY)).toBeLessThan(width(STEADY.slice(0, 2)));
  });

  it('the chances never fall and stay within 0 and 1', () => {
    const crossing = crossingOf(STEADY);
    let before = 0;
    for (let days = 0; days < 3000; days += 10) {
      const chance = chanceBy(crossing, '2025-07-01', toFullDate(toDay('2025-07-01') + days));
      expect(chance).toBeGreaterThanOrEqual(before);
      expect(chance).toBeLessThanOrEqual(1);
      before = chance;
    }
    expect(before).toBeGreaterThan(0.99);
  });

  it('a request on a later day does not change the dates', () => {
    const outlook = outlookOf(VAN, STEADY);
    const dates = ['2025-07-02', '2026-01-01', '2030-01-01'].map(
      (today) => answered(outlook, { today }).replacement.date,
    );
    expect(dates[1]).toEqual(dates[0]);
    expect(dates[2]).toEqual(dates[0]);
  });
});

describe('the governing pad', () => {
  it('the thinnest of four equal pads governs', () => {
    const visit = { ...seen('2024-07-01', 10_000, 9), readings: fourPads([9, 9, 9, 7]) };
    expect(replacementOf([visit]).governingPad).toEqual({ side: 'right', pad: 'outer' });
  });

  it('the pad closest to its own limit governs if limits differ, not the thinnest', () => {
    const fitted: VisitDraft = {
      date: '2024-01-02',
      odometer: km(10),
      work: [
        { kind: 'pads-replaced', axle: 'front', side: 'left', new: mm(12), limit: mm(6) },
        { kind: 'pads-replaced', axle: 'front', side: 'right', new: mm(9), limit: mm(2) },
      ],
    };
    const visit = { ...seen('2024-07-01', 10_000, 9), readings: fourPads([8.5, 8.5, 8, 8]) };
    expect(replacementOf([fitted, visit])).toMatchObject({ governingPad: { side: 'left' }, limitMm: 6 });
  });
});

describe('figures that cannot be computed', () => {
  const codesOf = (visits: VisitDraft[], vehicle: VehicleDraft = VAN) =>
    replacementOf(visits, {}, vehicle).reasons.map(({ code }) => code);

  it('figures without visits are null with a reason', () => {
    const answer = wearAnswer('v-1', outlookOf(VAN, []), {
      today: '2025-07-02',
      until: null,
    });
    expect(answer.asAt).toBeNull();
    expect(answer.reasons).toMatchObject([{ field: 'asAt', code: 'no-visits' }]);
    expect(answer.axles[0]!.replacement).toMatchObject({ date: null, distanceKm: null, overdue: false });
    expect(answer.axles[0]!.replacement.reasons).toMatchObject([{ field: 'date', code: 'no-readings' }]);
  });

  it('figures without a measured pad are null with a reason', () => {
    expect(codesOf([{ date: '2025-07-01', odometer: km(30_000) }])).toEqual(['no-readings']);
  });

  it('figures without a limit are null with a reason', () => {
    const vehicle = { ...VAN, axles: { front: { brake: 'disc', pad: { new: mm(11) } } } } as const;
    expect(codesOf(STEADY, vehicle)).toEqual(['no-limit']);
    const { pads } = answered(outlookOf(vehicle, STEADY));
    expect(pads.every(({ remainingMm }) => remainingMm === null)).toBe(true);
    expect(pads.every(({ ratePer1000KmMm }) => ratePer1000KmMm !== null)).toBe(true);
  });

  it('distances without an odometer reading are null; dates and remaining thickness are given', () => {
    const unread = STEADY.map((visit) => ({ ...visit, odometer: null }));
    const outlook = outlookOf({ inService: { date: '2024-01-01' } }, unread);
    expect(outlook.usage).toMatchObject({ kmPerDay: null, reasons: [{ code: 'no-odometer' }] });
    const { pads, replacement } = answered(outlook);
    expect(replacement.reasons).toMatchObject([{ field: 'distanceKm', code: 'no-odometer' }]);
    const { early, median, late } = replacement.date!;
    expect([early, median, late]).toEqual([early, median, late].sort());
    // With the odometer, the same readings give nearly the same.
    const read = answered(outlookOf(VAN, STEADY)).replacement.date!;
    expect(Math.abs(toDay(median!) - toDay(read.median!))).toBeLessThan(120);
    const widths = [replacement.date!, read].map((date) => toDay(date.late!) - toDay(date.early!));
    expect(widths[0]! / widths[1]!).toBeGreaterThan(0.5);
    expect(widths[0]! / widths[1]!).toBeLessThan(2);
    expect(replacement.distanceKm).toEqual(NO_INTERVAL);
    expect(pads[0]!.ratePer1000KmMm).toBeNull();
    expect(Math.abs(pads[0]!.remainingMm!.median - 4.5)).toBeLessThan(0.1);
  });

  it('the pads’ figures on an axle with drum brakes are null with a reason', () => {
    const vehicle = { ...VAN, axles: { front: { ...DISC_AXLE, brake: 'drum' } } } as const;
    expect(codesOf([{ date: '2025-07-01', odometer: km(30_000) }], vehicle)).toEqual(['no-readings']);
    expect(answered(outlookOf(vehicle, []))).toMatchObject({
      rotors: [],
      findings: [{ code: 'never-measured' }],
    });
  });

  it('dates beyond thirty years are null, with a reason', () => {
    // 200 km a year.
    const hardlyUsed = [
      seen('2024-07-01', 100, 11),
      seen('2025-01-01', 200, 11),
      seen('2025-07-01', 300, 11),
    ];
    const replacement = replacementOf(hardlyUsed);
    expect(replacement.date!.late).toBeNull();
    expect(replacement.reasons).toMatchObject([{ code: 'beyond-30-years' }]);
  });
});

describe('the date of an answer', () => {
  it('the date of an answer is that of the latest visit, whether or not its odometer was read', () => {
    expect(outlookOf(VAN, STEADY).asAt).toEqual({ date: '2025-07-01', odometerKm: 30_000 });
    expect(outlookOf(VAN, [...STEADY, { date: '2025-08-01' }]).asAt).toEqual({
      date: '2025-08-01',
      odometerKm: null,
    });
  });
});

describe('an axle with the pads of one side replaced', () => {
  const replaced: VisitDraft = {
    ...seen('2025-07-01', 30_000, 4),
    work: [{ kind: 'pads-replaced', axle: 'front', side: 'left' }],
  };

  it('each pad has its own life', () => {
    const { pads } = answered(outlookOf(VAN, [...STEADY.slice(0, 2), replaced]));
    expect(pads.map(({ side, readings, fitted }) => [side, readings, fitted!.date])).toEqual([
      ['left', 0, '2025-07-01'],
      ['left', 0, '2025-07-01'],
      ['right', 3, '2024-01-01'],
      ['right', 3, '2024-01-01'],
    ]);
    expect(pads[0]!.latest).toBeNull();
    expect(pads[2]!.latest).toEqual({ valueMm: 4, date: '2025-07-01' });
  });

  it('a pad of the other side governs', () => {
    expect(replacementOf([...STEADY.slice(0, 2), replaced]).governingPad!.side).toBe('right');
  });
});

it('the same history gives the same outlook', () => {
  expect(outlookOf(VAN, STEADY)).toEqual(outlookOf(VAN, STEADY));
});

it('one draw of the experience is enough for an outlook', () => {
  const starting = startingExperience({ steeredOrFront: true, regenerative: false });
  const { parameters } = starting.pads[0]!;
  const known = { ...starting, pads: onlyDraw(parameters) };
  const [axle] = outlookFor(historyOf(VAN, STEADY), () => known, POLICY).axles;
  expect(daysAt(axle!.crossing!, 0.5)).toBeGreaterThan(0);
});

describe('an outlook that cannot be right', () => {
  const STARTING_VALUES = startingExperience({ steeredOrFront: true, regenerative: false });
  const spoiled = STARTING_VALUES.pads.map((draw) => ({ ...draw, weight: NaN }));
  const fromSpoiled = (): Outlook =>
    outlookFor(historyOf(VAN, STEADY), () => ({ ...STARTING_VALUES, pads: spoiled }), POLICY);

  it('an outlook from an experience whose weights are not numbers is refused', () => {
    expect(fromSpoiled).toThrow('NaN');
  });

  it('later outlooks of the process are right after one that was refused', () => {
    const before = outlookOf(VAN, STEADY);
    expect(fromSpoiled).toThrow();
    expect(outlookOf(VAN, STEADY)).toEqual(before);
  });

  it.each([
    [{ already: NaN }, 'axles / 0 / crossing / already is NaN'],
    [{ already: 1.2 }, 'already is 1.2'],
    [{ days: [30, 20, null] }, 'the front axle’s days to its limit are 30, 20, '],
  ])('an outlook with %o is refused, and the error names the number', (wrong, named) => {
    const { axle, whole } = outlookInParts(historyOf(VAN, STEADY), () => STARTING_VALUES, POLICY);
    const front = axle('front');
    const outlook = (): Outlook => whole([{ ...front, crossing: { ...front.crossing!, ...wrong } }]);
    expect(outlook).toThrow(UnsoundOutlook);
    expect(outlook).toThrow(named);
  });
});
