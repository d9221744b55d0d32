import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import type { AxleWear, Wear } from '../../src/core/vocabulary/wear.js';
import { axleWith, fourPads, km, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { unexplainedNulls } from '../support/nulls.js';
import {
  correct,
  read,
  recordHistory,
  recordVehicle,
  recordVisit,
  type Recorded,
} from '../support/recording.js';
import { startService, type Service } from '../support/service.js';

/** Use that changes, wrong odometer readings, and odometers that nobody reads. */

const TODAY = '2026-03-10';
let service: Service;
beforeAll(async () => {
  service = await startService({ now: `${TODAY}T12:00:00Z` });
});
afterAll(() => service.close());

let count = 0;
/** Pads of 12 mm with a limit of 3 mm. */
const van = (changes: Body = {}): Body =>
  vehicleBody({
    externalId: `U-${++count}`,
    registration: null,
    vin: null,
    axles: { front: axleWith(12, 3) },
    ...changes,
  });

const all = (mm: number): Body[] => fourPads([mm, mm, mm, mm], { gauge: 'depth-gauge' });
const daysAgo = (days: number): string => toFullDate(toDay(TODAY) - days);

async function wearOf(vehicleId: string): Promise<Wear> {
  const wear = await read<Wear>(service, `/v1/vehicles/${vehicleId}/wear`);
  expect(unexplainedNulls(wear)).toEqual([]);
  return wear;
}
const front = ({ axles }: Wear): AxleWear => axles[0]!;
const codesOf = (wear: Wear): string[] => front(wear).findings.map(({ code }) => code);
const findingOf = (wear: Wear, code: string) =>
  front(wear).findings.find((finding) => finding.code === code)!;

/** Stretches one after the other up to today; all pads lose 0.125 mm per 1000 km. */
async function driven(stretches: readonly [days: number, km: number][]): Promise<Recorded> {
  let day = toDay(TODAY) - stretches.reduce((sum, [days]) => sum + days, 0);
  let odometer = 0;
  const vehicle = van({ inService: { date: toFullDate(day), odometer: km(0) } });
  const visits = stretches.map(([days, distance]) => {
    day += days;
    odometer += distance;
    const mm = Number((12 - 0.125 * (odometer / 1000)).toFixed(1));
    return visitBody(toFullDate(day), odometer, all(mm));
  });
  return recordHistory(service, vehicle, visits);
}

const steadily: [number, number][] = Array.from({ length: 6 }, () => [182, 49 * 182]);

describe('a vehicle whose use changes', () => {
  // After three years at 49 km a day 53,508 km are driven and 5.3 mm are left, 18,400 km above the limit: by hand 375
  // days at 49 km a day.
  it.each([
    { use: 'goes on', stretches: steadily, from: '2026-12-01', to: '2027-08-01', changed: false },
    {
      use: 'is 400 km in the last four months',
      stretches: [...steadily, [120, 400]] as [number, number][],
      from: '2027-01-01',
      to: '2027-12-31',
      changed: true,
    },
    {
      use: 'is none in the last year',
      stretches: [...steadily, [365, 0]] as [number, number][],
      from: '2027-01-01',
      to: '2028-03-31',
      changed: true,
    },
  ])('the dates allow for use that $use', async ({ stretches, from, to, changed }) => {
    const wear = await wearOf((await driven(stretches)).id);
    const { early, median } = front(wear).replacement.date!;
    expect(early).not.toBeNull();
    expect(early! < median!).toBe(true);
    expect(median! > from && median! < to, `median ${median}`).toBe(true);
    expect(codesOf(wear).includes('use-changed')).toBe(changed);
    if (!changed) return;
    const { numbers, message } = findingOf(wear, 'use-changed');
    expect(numbers.kmPerDayBefore).toBeCloseTo(49, 0);
    expect(numbers.kmPerDayLately).toBeLessThan(5);
    expect(message).toContain('49 km a day before');
  });

  it('the dates of a vehicle driven by season are in the right year, and there is no finding', async () => {
    const years = Array.from({ length: 3 }, (): [number, number][] => [
      [183, 18_000],
      [182, 2000],
    ]).flat();
    // 4.5 mm are left, 12,000 km above the limit, of which the next half-year drives 18,000.
    const wear = await wearOf((await driven(years)).id);
    expect(front(wear).replacement.date!.median!.slice(0, 4)).toBe('2026');
    expect(codesOf(wear)).not.toContain('use-changed');
  });

  it('a vehicle parked for a year is still listed', async () => {
    const { id } = await driven([...steadily, [365, 0]]);
    const listed = async (path: string) =>
      (await read<{ items: { vehicleId: string }[] }>(service, path)).items.some(
        (item) => item.vehicleId === id,
      );
    const due = await listed('/v1/reports/due-soon?limit=200&withinDays=365');
    const measure = await listed('/v1/reports/measure-first?limit=200&withinDays=365');
    expect(due || measure).toBe(true);
  });
});

describe('an impossible odometer reading', () => {
  const visitAt = (days: number, odometer: Body, mm: number): Body => ({
    ...visitBody(daysAgo(days), 0, all(mm)),
    odometer,
  });
  const began = { date: daysAgo(1460), odometer: km(0) };

  it.each([
    { slip: 'one digit too many', wrong: km(450_000), fits: 45_000 },
    { slip: 'kilometres entered as miles', wrong: { value: 45_000, unit: 'mi' }, fits: 45_000 },
    { slip: 'another vehicle’s reading', wrong: km(245_000), fits: null },
  ])('an impossible odometer reading is accepted, doubted and named: $slip', async ({ wrong, fits }) => {
    // 36,000 km in two years; then 9,000 km every half-year.
    const { id } = await recordHistory(service, van({ inService: began }), [
      visitAt(1095, km(18_000), 10),
      visitAt(730, km(36_000), 7.8),
    ]);
    const odd = await recordVisit(service, id, visitAt(548, wrong, 6.8));
    const doubted = await wearOf(id);
    const finding = findingOf(doubted, 'odometer-doubted');
    expect(finding).toMatchObject({ severity: 'check', axle: null });
    expect(finding.message).toContain(daysAgo(548));
    if (fits) expect(finding.numbers.fittingOdometerKm).toBeCloseTo(fits, 0);
    expect(doubted.asAt!.odometerKm).toBeNull();
    expect(doubted.usage.kmPerDay!.median).toBeLessThan(60);
    for (const pad of front(doubted).pads) expect(pad.remainingMm!.low).toBeGreaterThan(0);

    // The next true reading is lower, and the service accepts it.
    await recordVisit(service, id, visitAt(365, km(54_000), 5.7));
    const settled = await wearOf(id);
    expect(findingOf(settled, 'odometer-doubted').severity).toBe('note');
    expect(settled.asAt!.odometerKm).toBe(54_000);
    expect(settled.usage.kmPerDay!.median).toBeGreaterThan(44);
    expect(settled.usage.kmPerDay!.median).toBeLessThan(55);

    // First other members can be corrected while the reading is wrong, and then the reading; after that nothing is
    // doubted.
    const noted = await correct(service, odd.id, { reason: 'a note', changes: { notes: 'seen again' } });
    expect(noted.status).toBe(200);
    const corrected = await correct(service, odd.id, {
      reason: 'misread',
      changes: { odometer: km(45_000) },
    });
    expect(corrected.status).toBe(200);
    expect(codesOf(await wearOf(id))).not.toContain('odometer-doubted');
  });

  it('an odometer reading below a trusted one is refused, and the refusal says what to do', async () => {
    const { id } = await recordHistory(service, van({ inService: began }), [
      visitAt(1095, km(18_000), 10),
      visitAt(730, km(36_000), 7.8),
    ]);
    const response = await service
      .as('technician', 'post', `/v1/vehicles/${id}/visits`)
      .send(visitAt(548, km(35_000), 6.8));
    expect(response.status).toBe(422);
    expect(response.text).toContain('correct that visit first; if the odometer was replaced, record that');
    // 35,000 miles would be possible.
    expect(response.text).toContain('; if it shows miles, send the unit mi (56,327 km)');
    const tooLow = await service
      .as('technician', 'post', `/v1/vehicles/${id}/visits`)
      .send(visitAt(548, km(20_000), 6.8));
    expect([tooLow.status, tooLow.text]).toEqual([422, expect.not.stringContaining('miles')]);
  });

  it('a reading in miles that only looks like little use is named as such', async () => {
    // 27 km a day; 54,000 km are 33,554 miles, so the vehicle seems to have stood.
    const { id } = await recordHistory(service, van({ inService: began }), [
      visitAt(1095, km(18_000), 10),
      visitAt(548, km(33_000), 8),
      visitAt(0, km(33_554), 6.5),
    ]);
    const finding = findingOf(await wearOf(id), 'use-changed');
    expect(finding.check).toContain('if the odometer shows miles: 33,554 miles are 54,000 km');
    expect(finding.numbers.fittingOdometerKm).toBeCloseTo(54_000, -1);
  });

  describe('miles sent as kilometres from one visit on', () => {
    // After three half-years the odometer shows 14,913 miles, less than before: the vehicle was not in the shop.
    const HALF_YEARS = [1, 2, 4, 5, 6];
    const daysBetween = (from: number, to: number): number => 183 * (HALF_YEARS[to]! - HALF_YEARS[from]!);

    const usedVan = (): Body => van({ inService: null });

    /** 8,000 km a half-year, read in km twice and in miles from then on; the pads lose 0.13 mm per 1000 km. */
    const visitsInMiles = (visits: number, grownMm = 0): Body[] =>
      HALF_YEARS.slice(0, visits).map((halfYears, index) => {
        const drivenKm = 8000 * halfYears;
        const mm = 12 - (0.13 * drivenKm) / 1000 + (index === visits - 1 ? grownMm : 0);
        const rounded = (more: number): number => Number((mm + more).toFixed(1));
        const readings = fourPads([rounded(0), rounded(0.1), rounded(0), rounded(-0.1)], {
          gauge: 'depth-gauge',
        });
        const odometer = index < 2 ? drivenKm : Math.round(drivenKm / 1.609344);
        return visitBody(daysAgo(daysBetween(index, visits - 1)), odometer, readings);
      });

    it.each([3, 4, 5])(
      'miles sent as kilometres for %i visits are no sign of a replacement without a record, but of another unit',
      async (visits) => {
        const wear = await wearOf((await recordHistory(service, usedVan(), visitsInMiles(visits))).id);
        expect(codesOf(wear)).not.toContain('replaced-without-record');
        const { check, numbers } = findingOf(wear, 'use-changed');
        expect(check).toContain(
          `correct the unit from the visit of ${daysAgo(daysBetween(2, visits - 1))} on`,
        );
        expect(numbers.fittingOdometerKm).toBeCloseTo(8000 * HALF_YEARS[visits - 1]!, -1);
      },
    );

    it('pads that became thicker are a sign of a replacement nevertheless', async () => {
      const wear = await wearOf((await recordHistory(service, usedVan(), visitsInMiles(5, 4))).id);
      expect(codesOf(wear)).toContain('replaced-without-record');
      expect(codesOf(wear)).toContain('use-changed');
    });

    it('a corrected unit ends the question', async () => {
      const { id } = await recordVehicle(service, usedVan());
      const inMiles: { id: string; value: unknown }[] = [];
      for (const body of visitsInMiles(5)) {
        const visit = await recordVisit(service, id, body);
        inMiles.unshift({ id: visit.id, value: (body.odometer as Body)['value'] });
      }
      for (const { id: visit, value } of inMiles.slice(0, 3)) {
        const changes = { odometer: { value, unit: 'mi' } };
        expect((await correct(service, visit, { reason: 'read in miles', changes })).status).toBe(200);
      }
      const wear = await wearOf(id);
      expect(codesOf(wear)).not.toContain('replaced-without-record');
      expect(codesOf(wear)).not.toContain('use-changed');
      expect(front(wear).pads[0]!.ratePer1000KmMm!.median).toBeCloseTo(0.13, 1);
    });
  });
});

describe('a vehicle whose odometer is never read', () => {
  it('a vehicle whose odometer is never read has dates computed from days, and a reason why it has no distances', async () => {
    // 2.5 mm a year: 12, 9.5 and 7 mm; 4 mm above the limit are left, 1.6 years.
    const unread = (days: number, mm: number): Body => ({
      ...visitBody(daysAgo(days), 0, all(mm)),
      odometer: null,
    });
    const { id } = await recordHistory(service, van({ inService: { date: daysAgo(730) } }), [
      unread(365, 9.5),
      unread(0, 7),
    ]);
    const wear = await wearOf(id);
    const { replacement, pads } = front(wear);
    expect(replacement.date!.median! > '2027-04-01' && replacement.date!.median! < '2028-03-31').toBe(true);
    expect(replacement.date!.early! > TODAY).toBe(true);
    expect(replacement.distanceKm!.median).toBeNull();
    expect(replacement.reasons).toContainEqual(
      expect.objectContaining({ field: 'distanceKm', code: 'no-odometer' }),
    );
    expect(wear.usage.kmPerDay).toBeNull();
    expect(pads[0]!.ratePer1000KmMm).toBeNull();
    expect(pads[0]!.remainingMm!.median).toBeCloseTo(4, 0);
  });
});
