import BetterSqlite from 'better-sqlite3';
import { parse } from 'csv-parse/sync';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import type { Accuracy, PastForecast } from '../../src/core/vocabulary/accuracy.js';
import { ROLES } from '../../src/core/vocabulary/terms.js';
import type { Wear } from '../../src/core/vocabulary/wear.js';
import { axleWith, fourPads, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { read, recordHistory, recordVisit } from '../support/recording.js';
import { FLEET, onSqlite, startService, type Service } from '../support/service.js';

type Report = Accuracy & {
  vehicles: number;
  pendingVehicles: number;
  reasons: { field: string; code: string }[];
  total: number;
  items: PastForecast[];
  nextCursor: string | null;
};

const PATH = '/v1/reports/forecast-accuracy';
const report = (service: Service, query = '') => read<Report>(service, `${PATH}?${query}`);
const START = '2023-01-01';
const dayOf = (days: number) => toFullDate(toDay(START) + days);

/**
 * Pads of 11 mm that lose 3 mm in every 200 days and 20 000 km: 2 mm are reached on day 600 at 60 000 km. They are read
 * on days 200, 400 and 700.
 */
const wornVisits = (): Body[] =>
  [200, 400, 700].map((day) => {
    const value = 11 - (3 * day) / 200;
    return visitBody(
      dayOf(day),
      100 * day,
      fourPads([value, value, value, value].map((v) => Math.max(0.2, v)) as never),
    );
  });

const wornVehicle = (changes: Body = {}): Body =>
  vehicleBody({
    inService: { date: START, odometer: { value: 0, unit: 'km' } },
    axles: { front: axleWith(11, 2) },
    ...changes,
  });

describe('the accuracy report of an empty shop', () => {
  let service: Service;
  beforeAll(async () => {
    service = await startService();
  });
  afterAll(() => service.close());

  it('the accuracy report of an empty shop is available and gives only reasons', async () => {
    const { dates, nextReadings, words, ...rest } = await report(service);
    expect(rest).toEqual({
      vehicles: 0,
      pendingVehicles: 0,
      reasons: [],
      total: 0,
      items: [],
      nextCursor: null,
    });
    expect(words).toContain('too few to judge');
    expect(dates.total).toMatchObject({ forecasts: 0, figures: null });
    expect(dates.total.reasons[0]!.code).toBe('too-few-pad-sets');
    expect(nextReadings.total.reasons[0]!.code).toBe('too-few-vehicles');
    expect(dates.byReadings).toHaveLength(5);
    expect(dates.bySet).toHaveLength(4);
    expect(dates.byAxleAndModel).toEqual([]);
  });

  it('the accuracy report of an empty shop is only a header row as CSV', async () => {
    const { text } = await service.as('owner', 'get', `${PATH}?format=csv`);
    expect(text).toMatch(/^vehicleId,externalId,.*lineErrorDays\r\n$/);
  });
});

describe('the accuracy report of vehicles whose pads are known to have worn out', () => {
  let service: Service;
  const ids: string[] = [];
  beforeAll(async () => {
    service = await startService();
    for (let index = 0; index < 6; index++) {
      const fleet = index < 5 ? FLEET : 'south-depot';
      const body = wornVehicle({ fleet, model: index % 2 === 0 ? 'van' : 'bus' });
      ids.push((await recordHistory(service, body, wornVisits())).id);
    }
  });
  afterAll(() => service.close());
  afterEach(() => vi.restoreAllMocks());

  it('the report gives the error of every forecast, beside the date forecast on that day', async () => {
    const { items, total } = await report(service);
    expect(total).toBe(12);
    expect(items.map(({ forecastDate }) => forecastDate)).toEqual([
      ...Array<string>(6).fill(dayOf(400)),
      ...Array<string>(6).fill(dayOf(200)),
    ]);
    for (const item of items) {
      const wear = await read<Wear>(service, `/v1/vehicles/${item.vehicleId}/wear?asOf=${item.forecastDate}`);
      const { date, distanceKm, basis } = wear.axles[0]!.replacement;
      expect(item.set).toBe(basis.set);
      expect(date).toMatchObject({ early: item.earlyDate, median: item.medianDate, late: item.lateDate });
      // Read at 0.5 mm on day 700, and on its line at 2 mm on day 600.
      expect(item).toMatchObject({ reachedDate: dayOf(600), howKnown: 'interpolated' });
      const daysLeft = 600 - (toDay(item.forecastDate) - toDay(START));
      const forecastDays = toDay(item.medianDate!) - toDay(item.forecastDate);
      expect(item.errorDays).toBeGreaterThan(forecastDays - 1 - daysLeft);
      expect(item.errorDays).toBeLessThanOrEqual(forecastDays - daysLeft);
      expect(item.errorKm).toBeCloseTo(distanceKm!.median! - 100 * daysLeft, 0);
      expect(item.twoPointErrorDays).toBe(0);
      expect(item.lineErrorDays).toBe(0);
      expect(item.inside80).toBe(item.earlyDate! <= item.reachedDate && item.reachedDate <= item.lateDate!);
    }
  });

  it('the summary shows that the hand rules are hard to beat for steady wear', async () => {
    const { dates, nextReadings, vehicles, words } = await report(service);
    expect(vehicles).toBe(6);
    const { total } = dates;
    expect(total).toMatchObject({
      vehicles: 6,
      padSets: 6,
      forecasts: 12,
      underWay: 0,
    });
    expect(total.figures).toMatchObject({
      interpolatedShare: 1,
      extrapolatedShare: 0,
      inside80: 12,
      inside80Share: 1,
      againstTwoPoint: { forecasts: 12, meanAbsoluteErrorDays: 0, ratio: null },
    });
    expect(words).toMatch(/^Of 12 forecasts for 6 sets of pads on 6 vehicles, 12 \(100 %/);
    // The readings of days 400 and 700 are predicted at the visits before.
    expect(nextReadings.total).toMatchObject({ vehicles: 6, readings: 48 });
    expect(nextReadings.total.figures!.inside95Share).toBe(1);
    expect(nextReadings.byReadings.map(({ stage, readings }) => [stage, readings])).toEqual([
      ['0', 0],
      ['1–4', 24],
      ['5–8', 24],
      ['9–16', 0],
      ['17+', 0],
    ]);
    expect(dates.byAxleAndModel.map(({ model, padSets }) => [model, padSets])).toEqual([
      ['bus', 3],
      ['van', 3],
    ]);
  });

  it('the report can be limited to a fleet, a model and an axle', async () => {
    expect((await report(service, `fleet=${FLEET}`)).total).toBe(10);
    expect((await report(service, 'model=van')).dates.total.padSets).toBe(3);
    expect((await report(service, 'axle=rear')).total).toBe(0);
    expect(await report(service, 'fleet=nowhere')).toMatchObject({ total: 0, vehicles: 0 });
  });

  it('the pages of the report hold every forecast once', async () => {
    const whole = (await report(service)).items;
    const seen: PastForecast[] = [];
    let cursor = '';
    do {
      const page = await report(service, `limit=5${cursor}`);
      expect(page.items.length).toBeLessThanOrEqual(5);
      expect(page.total).toBe(12);
      seen.push(...page.items);
      cursor = page.nextCursor === null ? '' : `&cursor=${page.nextCursor}`;
    } while (cursor !== '');
    expect(seen).toEqual(whole);
    const { nextCursor } = await report(service, 'limit=5');
    const other = await service.as('owner', 'get', `${PATH}?fleet=${FLEET}&cursor=${nextCursor}`);
    expect(other.status).toBe(400);
  });

  it('the CSV report has the same forecasts on one page', async () => {
    const { items } = await report(service);
    const response = await service.as('technician', 'get', `${PATH}?format=csv&limit=2`);
    expect(response.headers['content-type']).toMatch(/^text\/csv; charset=utf-8/);
    expect(response.headers['pending-vehicles']).toBe('0');
    const rows = parse(response.text, { columns: true, record_delimiter: '\r\n' }) as Record<
      string,
      string
    >[];
    expect(rows).toHaveLength(12);
    const { reasons: _reasons, ...first } = items[0]!;
    expect(rows[0]).toEqual(
      Object.fromEntries(Object.entries(first).map(([name, value]) => [name, String(value)])),
    );
  });

  it('every role may read the report, and a fleet manager sees only the own fleets', async () => {
    expect((await service.anonymous('get', PATH)).status).toBe(401);
    for (const role of ROLES) expect((await service.as(role, 'get', PATH)).status).toBe(200);
    const own = (await service.as('fleet-manager', 'get', PATH)).body as Report;
    expect(own).toMatchObject({ vehicles: 5, total: 10 });
    expect(own.items.map(({ vehicleId }) => vehicleId)).not.toContain(ids[5]);
    const other = (await service.as('fleet-manager', 'get', `${PATH}?fleet=south-depot`)).body as Report;
    expect(other).toMatchObject({ vehicles: 0, total: 0, items: [] });
    const csv = await service.as('fleet-manager', 'get', `${PATH}?format=csv`);
    expect(csv.text).not.toContain('south-depot');
  });

  it('the report refuses unknown parameters', async () => {
    for (const query of ['axle=middle', 'format=ics', 'limit=0', 'since=2020-01-01'])
      expect((await service.as('owner', 'get', `${PATH}?${query}`)).status).toBe(400);
  });

  it.skipIf(!onSqlite)(
    'the report reads stored scores if nothing has changed, and recomputes outdated ones',
    async () => {
      await report(service);
      const connection = new BetterSqlite(service.file, { readonly: true });
      const commits = (): unknown => connection.pragma('data_version', { simple: true });
      try {
        const before = commits();
        const known = await report(service);
        expect(commits()).toBe(before);

        await service.store.experience.refit();
        const refitted = commits();
        expect((await report(service)).items).toEqual(known.items);
        expect(commits()).toBe(refitted);

        // The reading of 0.5 mm was a mistake, so the day on which the limit is reached is unknown again.
        await recordVisit(service, ids[0]!, visitBody(dayOf(720), 72_000, fourPads([4, 4, 4, 4])));
        const { items, dates } = await report(service);
        expect(items).toEqual(known.items.filter(({ vehicleId }) => vehicleId !== ids[0]));
        expect(dates.total.underWay).toBe(3);
      } finally {
        connection.close();
      }
    },
  );

  it('the report says what has not been scored yet, and does not keep the caller waiting for it', async () => {
    await recordVisit(service, ids[1]!, visitBody(dayOf(721), 72_100));
    let now = performance.now();
    vi.spyOn(performance, 'now').mockImplementation(() => (now += 10_000));
    const { pendingVehicles, vehicles, reasons, words } = await report(service);
    expect({ pendingVehicles, vehicles }).toEqual({ pendingVehicles: 1, vehicles: 5 });
    expect(reasons).toEqual([expect.objectContaining({ field: 'pendingVehicles', code: 'still-scoring' })]);
    expect(words).toMatch(/^The past forecasts of 1 vehicle have not been scored yet/);
    const csv = await service.as('owner', 'get', `${PATH}?format=csv`);
    expect(csv.headers['pending-vehicles']).toBe('1');
    vi.restoreAllMocks();
    expect(await report(service)).toMatchObject({ pendingVehicles: 0, vehicles: 6, reasons: [] });
  });
});

describe('a shop that started with old records', () => {
  let service: Service;
  beforeAll(async () => {
    service = await startService();
    // 27 visits, enough to learn from by the end of 2023.
    for (let index = 0; index < 9; index++)
      await recordHistory(service, wornVehicle({ model: 'van' }), wornVisits());
  });
  afterAll(() => service.close());

  it('the past forecasts of a shop with old records use what the shop would have known at the time', async () => {
    await service.store.experience.refit();
    const before = await report(service);
    expect(new Set(before.items.map(({ experience }) => experience))).toEqual(new Set(['starting-values']));

    // Days 200 and 400 are in July 2023 and February 2024, day 700 in December 2024.
    await recordHistory(service, wornVehicle({ model: 'van' }), [
      visitBody('2023-12-20', 30_000, fourPads([7, 7, 7, 7])),
      visitBody('2024-06-01', 46_000, fourPads([4.1, 4.1, 4.1, 4.1])),
      visitBody('2024-07-05', 49_000, fourPads([3.7, 3.7, 3.7, 3.7])),
      visitBody('2025-01-20', 69_000, fourPads([0.7, 0.7, 0.7, 0.7])),
    ]);
    const fits = async () => (await service.rowCounts())['past_experiences'];
    expect(await fits()).toBe(0);
    await service.store.accuracy.bringUpToDate();
    const made = await fits();
    expect(made).toBeGreaterThan(0);
    await service.store.accuracy.bringUpToDate();
    expect(await fits()).toBe(made);
    const { items, pendingVehicles } = await report(service);
    expect(pendingVehicles).toBe(0);
    const experienceOn = (date: string) =>
      new Set(items.filter(({ forecastDate }) => forecastDate === date).map(({ experience }) => experience));
    expect(experienceOn(dayOf(400))).toEqual(new Set(['starting-values']));
    expect(experienceOn('2024-07-05')).toEqual(new Set(['up to 2024-06-30 front friction van']));
    for (const { experience, forecastDate } of items) {
      const learnedTo = /^up to (\S+)/.exec(experience)?.[1];
      if (learnedTo) expect(learnedTo < forecastDate).toBe(true);
    }
  });

  it('a wear answer as of a past date uses the same experience', async () => {
    const { items } = await report(service);
    const { vehicleId } = items.find(({ forecastDate }) => forecastDate === '2024-07-05')!;
    const experienceOn = async (date: string) => {
      const wear = await read<Wear>(service, `/v1/vehicles/${vehicleId}/wear?asOf=${date}`);
      return wear.axles[0]!.replacement.basis.experience;
    };
    expect(await experienceOn('2024-06-29')).toBe('starting-values');
    expect(await experienceOn('2024-07-05')).toBe('up to 2024-06-30 front friction van');
  });
});
