import { describe, expect, it } from 'vitest';
import { axleWear } from '../../src/core/assessment/wearAnswer.js';
import { covers, liningsOf } from '../../src/core/assessment/linings.js';
import { toDay } from '../../src/core/calendar.js';
import { padLives } from '../../src/core/lives.js';
import { layRoad } from '../../src/core/odometer.js';
import type { Side } from '../../src/core/vocabulary/terms.js';
import { ReadingBody } from '../../src/core/vocabulary/visit.js';
import {
  fourPads,
  historyOf,
  km,
  mm,
  outlookOf,
  padReading,
  type ReadingDraft,
  type VisitDraft,
} from '../support/coreHistories.js';

const thinnest = (value: number, side: Side | null = null): ReadingDraft => ({
  kind: 'pad-thickness',
  axle: 'front',
  side,
  pad: 'thinnest',
  gauge: 'depth-gauge',
  ...mm(value),
});
const at = (date: string, odometer: number, readings: ReadingDraft[], more: object = {}): VisitDraft => ({
  date,
  odometer: km(odometer),
  readings,
  ...more,
});
const newPads = (side?: Side) => ({
  work: [{ kind: 'pads-replaced' as const, axle: 'front' as const, ...(side && { side }) }],
});
const SINCE = { inService: { date: '2023-01-01', odometer: km(0) } };

const linings = (visits: VisitDraft[], axles?: object) =>
  liningsOf(historyOf(axles ? { axles } : {}, visits), 'front').map(({ side, pad }) => `${side} ${pad}`);

describe('the linings of an axle that are tracked', () => {
  const NAMED = ['left inner', 'left outer', 'right inner', 'right outer'];
  it('the pads by name while nothing was measured', () => expect(linings([])).toEqual(NAMED));

  it('the axle’s thinnest alone, if only that was ever measured', () =>
    expect(linings([at('2024-01-01', 10_000, [thinnest(8)])])).toEqual(['null thinnest']));

  it('one a wheel, if only wheels’ thinnest were measured', () =>
    expect(linings([at('2024-01-01', 10_000, [thinnest(8, 'left')])])).toEqual([
      'left thinnest',
      'right thinnest',
    ]));

  it('the axle’s thinnest beside the pads by name', () =>
    expect(
      linings([
        at('2024-01-01', 10_000, [padReading('left', 'inner', 9)]),
        at('2025-01-01', 20_000, [thinnest(8)]),
      ]),
    ).toEqual([...NAMED, 'null thinnest']));

  it('a wheel’s thinnest only on the wheel where it was measured, beside others', () =>
    expect(linings([at('2024-01-01', 10_000, [...fourPads(9), thinnest(8, 'right')])])).toEqual([
      ...NAMED,
      'right thinnest',
    ]));

  it('shoes of a drum brake likewise', () =>
    expect(
      linings([at('2024-01-01', 10_000, [{ kind: 'shoe-thickness', axle: 'front', ...mm(4) }])], {
        front: { brake: 'drum' },
      }),
    ).toEqual(['null thinnest']));

  it('a reading of the thinnest covers the linings of its wheel or axle', () => {
    const axle = { side: null, pad: 'thinnest' } as const;
    const left = { side: 'left', pad: 'thinnest' } as const;
    expect(covers(axle, left)).toBe(true);
    expect(covers(axle, { side: 'right', pad: 'outer' })).toBe(true);
    expect(covers(left, { side: 'left', pad: 'inner' })).toBe(true);
    expect(covers(left, { side: 'right', pad: 'inner' })).toBe(false);
    expect(covers(left, axle)).toBe(false);
    expect(covers({ side: 'left', pad: 'inner' }, axle)).toBe(false);
  });
});

describe('the lives of the axle’s thinnest pad', () => {
  const livesOf = (...visits: VisitDraft[]) => {
    const history = historyOf(SINCE, visits);
    return padLives(history, layRoad(history), 'front', null, 'thinnest').map(
      ({ origin, start, startMm, observations }) => ({
        origin,
        start: start?.day ?? null,
        startMm,
        read: observations.map((each) => each.mm),
      }),
    );
  };
  const before = at('2024-01-01', 10_000, [thinnest(8)]);

  it('new pads on the axle begin a new one', () =>
    expect(
      livesOf(before, at('2025-01-01', 20_000, [], newPads()), at('2026-01-01', 30_000, [thinnest(10)])),
    ).toEqual([
      { origin: 'in-service', start: toDay('2023-01-01'), startMm: 11, read: [8] },
      { origin: 'replaced', start: toDay('2025-01-01'), startMm: 11, read: [10] },
    ]));

  it('new pads on one side only do not, since the thinnest is then on the other', () =>
    expect(
      livesOf(before, at('2025-01-01', 20_000, [], newPads('left')), at('2026-01-01', 30_000, [thinnest(6)])),
    ).toEqual([{ origin: 'in-service', start: toDay('2023-01-01'), startMm: 11, read: [8, 6] }]));

  it('both sides within a month are one set', () =>
    expect(
      livesOf(
        before,
        at('2025-01-01', 20_000, [], newPads('left')),
        at('2025-01-10', 20_200, [], newPads('right')),
        at('2026-01-01', 30_000, [thinnest(10)]),
      ),
    ).toMatchObject([{ read: [8] }, { origin: 'replaced', start: toDay('2025-01-10'), read: [10] }]));

  it('both sides far apart begin one of unknown age', () =>
    expect(
      livesOf(
        before,
        at('2025-01-01', 20_000, [], newPads('left')),
        at('2025-09-01', 26_000, [], newPads('right')),
        at('2026-01-01', 30_000, [thinnest(9.5)]),
      ),
    ).toMatchObject([{ read: [8] }, { origin: 'first-reading', start: null, startMm: null, read: [9.5] }]));

  it('a reading thicker than before new pads on one side is of the other wheel, whose age is unknown', () =>
    expect(
      livesOf(
        before,
        at('2025-01-01', 20_000, [thinnest(3)], newPads('left')),
        at('2026-01-01', 30_000, [thinnest(6)]),
      ),
    ).toMatchObject([{ read: [8, 3] }, { origin: 'first-reading', start: null, read: [6] }]));
});

describe('the forecast from the thinnest pad', () => {
  const wearOf = (visits: VisitDraft[]) => {
    const outlook = outlookOf(SINCE, visits);
    return axleWear(outlook.axles[0]!, outlook, { today: visits.at(-1)!.date, until: null });
  };
  const daysOf = (visits: VisitDraft[]) => {
    const { early, median, late } = wearOf(visits).replacement.date!;
    return [early, median, late].map((date) => (date === null ? Infinity : toDay(date)));
  };

  it.each([5, 5.5, 6, 6.5, 7])('read thinner than %f mm it never moves a date later', (value) => {
    const until = (last: number): VisitDraft[] => [
      at('2024-01-01', 20_000, [thinnest(9)]),
      at('2025-01-01', 40_000, [thinnest(7.5)]),
      at('2026-01-01', 60_000, [thinnest(last)]),
    ];
    const [thicker, thinner] = [daysOf(until(value)), daysOf(until(value - 0.5))];
    thinner.forEach((day, index) => expect(day).toBeLessThanOrEqual(thicker[index]!));
  });

  it('pads by name that were not measured since they were fitted do not make the date earlier', () => {
    const since = [
      at('2025-06-01', 30_000, [], newPads()),
      at('2026-01-01', 40_000, [thinnest(9.5)]),
      at('2026-06-01', 50_000, [thinnest(8)]),
    ];
    const wear = wearOf([at('2025-01-01', 20_000, fourPads(9)), ...since]);
    expect(wear.pads).toHaveLength(5);
    expect(wear.replacement.governingPad).toEqual({ side: null, pad: 'thinnest' });
    expect(wear.findings.map(({ code }) => code)).not.toContain('position-never-measured');
    const alone = wearOf([at('2025-01-01', 20_000, [thinnest(9)]), ...since]);
    const early = (of: typeof wear): number => toDay(of.replacement.date!.early!) - toDay('2026-06-01');
    expect(early(wear) / early(alone)).toBeGreaterThan(0.9);
  });

  it('an axle overdue by its forecast names the thinnest pad, not one of several', () => {
    const visits = [at('2025-01-01', 40_000, [thinnest(5)]), at('2026-01-01', 60_000, [thinnest(2.3)])];
    const outlook = outlookOf(SINCE, visits);
    const { reasons, overdue } = axleWear(outlook.axles[0]!, outlook, {
      today: '2027-01-01',
      until: null,
    }).replacement;
    expect(overdue).toBe(true);
    expect(reasons.map(({ detail }) => detail).join()).toContain(
      'the thinnest pad has probably reached its limit',
    );
  });
});

describe('a reading without a side', () => {
  it.each([
    [{ pad: 'thinnest' }, true],
    [{ pad: 'thinnest', side: null }, true],
    [{ pad: 'inner' }, false],
    [{ pad: 'outer', side: null }, false],
  ])('%o is accepted: %s', (place, isAccepted) =>
    expect(ReadingBody.safeParse({ kind: 'pad-thickness', axle: 'front', ...place, ...mm(6) }).success).toBe(
      isAccepted,
    ),
  );
});
