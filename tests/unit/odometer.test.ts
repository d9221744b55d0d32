import { describe, expect, it } from 'vitest';
import { toDay, toFullDate } from '../../src/core/calendar.js';
import { layRoad, TYPICAL_KM_PER_DAY } from '../../src/core/odometer.js';
import { odometerConflict } from '../../src/core/odometerConflict.js';
import { historyOf, km, type VehicleDraft, type VisitDraft } from '../support/coreHistories.js';

const IN_SERVICE: VehicleDraft = { inService: { date: '2024-01-01', odometer: km(12) } };
const NOT_KNOWN: VehicleDraft = {};

const roadOf = (vehicle: VehicleDraft, visits: VisitDraft[]) => layRoad(historyOf(vehicle, visits));
const kmOf = (vehicle: VehicleDraft, visits: VisitDraft[]) =>
  roadOf(vehicle, visits).places.map((place) => place?.km ?? null);

describe('the distance along a vehicle’s visits', () => {
  it('the distance along a vehicle’s visits counts from in-service if the odometer was read then', () => {
    const road = roadOf(IN_SERVICE, [
      { date: '2024-04-10', odometer: km(5012) },
      { date: '2024-07-19', odometer: km(9012) },
    ]);
    expect(road.inService).toEqual({ km: 0, sdKm: 0 });
    expect(road.places).toEqual([
      { km: 5000, sdKm: 0 },
      { km: 9000, sdKm: 0 },
    ]);
    expect(road.stretches).toEqual([
      { fromDay: toDay('2024-01-01'), toDay: toDay('2024-04-10'), km: 5000 },
      { fromDay: toDay('2024-04-10'), toDay: toDay('2024-07-19'), km: 4000 },
    ]);
  });

  it('the distance along a vehicle’s visits counts from the first reading if in-service is unknown', () => {
    const road = roadOf(NOT_KNOWN, [
      { date: '2024-04-10', odometer: km(61_000) },
      { date: '2024-07-19', odometer: { value: 40_000, unit: 'mi' } },
    ]);
    expect(road.inService).toBeNull();
    expect(road.places.map((place) => place!.km)).toEqual([0, 40_000 * 1.609344 - 61_000]);
  });

  it('the distance along a vehicle’s visits counts days at the typical distance if the odometer was never read', () => {
    const road = roadOf({ inService: { date: '2024-01-01' } }, [
      { date: '2024-04-10' },
      { date: '2024-07-19' },
    ]);
    expect(road).toEqual({
      // 100 and 200 days.
      places: [100, 200].map((days) => ({ km: days * TYPICAL_KM_PER_DAY, sdKm: 0 })),
      inService: { km: 0, sdKm: 0 },
      stretches: [],
      doubted: [],
      perhapsInMiles: null,
      isByDistance: false,
    });
  });

  describe('readings that may be miles sent as kilometres', () => {
    const HALF_A_YEAR = 182;
    const START = toDay('2024-01-01');
    const read = (halfYears: number, value: number, more: Partial<VisitDraft> = {}): VisitDraft => ({
      date: toFullDate(START + HALF_A_YEAR * halfYears),
      odometer: km(value),
      ...more,
    });
    const perhaps = (...later: VisitDraft[]) =>
      roadOf(NOT_KNOWN, [read(1, 10_000), read(2, 20_000), ...later]).perhapsInMiles;
    // 40,000 and 50,000 km.
    const inMiles = [read(4, 24_855), read(5, 31_069)];

    it('readings that may be miles are those from the first that shows little use on', () =>
      expect(perhaps(...inMiles)).toMatchObject({
        fromDay: START + 2 * HALF_A_YEAR,
        date: inMiles[0]!.date,
        latest: { miles: 31_069, km: 31_069 * 1.609344 },
      }));

    it.each([
      ['the odometer was replaced', [...inMiles, read(6, 10, { odometerReplaced: {} })]],
      ['use is as before in kilometres', [inMiles[0]!, read(5, 34_855), read(6, 44_855)]],
      ['use would be far higher than before in miles', [read(4, 33_000)]],
      ['the vehicle stood so long that use would be low in miles too', [read(14, 24_855)]],
      ['use rose', [read(4, 50_000)]],
    ])('readings that may be miles are none if %s', (_why, later) => expect(perhaps(...later)).toBeNull());
  });

  it('the distance is empty without visits', () => {
    expect(roadOf(NOT_KNOWN, [])).toEqual({
      places: [],
      inService: null,
      stretches: [],
      doubted: [],
      perhapsInMiles: null,
      isByDistance: false,
    });
  });

  it('the distance along a vehicle’s visits continues across a replaced odometer whose last reading is known', () => {
    const visits: VisitDraft[] = [
      { date: '2024-04-10', odometer: km(5012) },
      {
        date: '2024-07-19',
        odometer: km(30),
        odometerReplaced: { oldFinal: km(8012), newStart: km(10) },
      },
      { date: '2024-10-27', odometer: km(4010) },
    ];
    expect(kmOf(IN_SERVICE, visits)).toEqual([5000, 8020, 12_000]);
    expect(roadOf(IN_SERVICE, visits).stretches.map((stretch) => stretch.km)).toEqual([5000, 3020, 3980]);
  });

  it('the distance along a vehicle’s visits continues from the new odometer’s start if nothing else was read at its fitting', () => {
    const visits: VisitDraft[] = [
      { date: '2024-04-10', odometer: km(5012) },
      { date: '2024-07-19', odometerReplaced: { oldFinal: km(8012), newStart: km(0) } },
      { date: '2024-10-27', odometer: km(4000) },
    ];
    expect(kmOf(IN_SERVICE, visits)).toEqual([5000, 8000, 12_000]);
  });

  it('the distance along a vehicle’s visits continues across two replacements', () => {
    const visits: VisitDraft[] = [
      { date: '2024-04-10', odometer: km(0), odometerReplaced: { oldFinal: km(1012), newStart: km(0) } },
      { date: '2024-07-19', odometer: km(500), odometerReplaced: { oldFinal: km(2000), newStart: km(500) } },
      { date: '2024-10-27', odometer: km(1500) },
    ];
    expect(kmOf(IN_SERVICE, visits)).toEqual([1000, 3000, 4000]);
  });

  it('a lost last reading is bridged at the mean daily distance, with its uncertainty', () => {
    const road = roadOf(IN_SERVICE, [
      // 100 days, 50 km a day.
      { date: '2024-04-10', odometer: km(5012) },
      { date: '2024-07-19', odometer: km(0), odometerReplaced: { oldFinal: null, newStart: km(0) } },
      { date: '2024-10-27', odometer: km(5000) },
    ]);
    expect(road.places[0]).toEqual({ km: 5000, sdKm: 0 });
    expect(road.places[1]!.km).toBeCloseTo(10_000, 6);
    expect(road.places[1]!.sdKm).toBeGreaterThan(0);
    expect(road.places[2]!.km).toBeCloseTo(15_000, 6);
    // A distance read afterwards adds no uncertainty.
    expect(road.places[2]!.sdKm).toBe(road.places[1]!.sdKm);
    // The hidden distance itself does not change the daily distance.
    expect(road.stretches.map((stretch) => stretch.km)).toEqual([5000, 5000]);
  });

  it('no hidden distance is estimated at a pace that no vehicle keeps, after a wrong reading', () => {
    const [, before, after] = kmOf(NOT_KNOWN, [
      { date: '2016-12-31', odometer: km(52_560) },
      { date: '2017-01-02', odometer: km(106_524) },
      { date: '2019-03-12', odometer: km(15_321), odometerReplaced: { oldFinal: null, newStart: null } },
    ]);
    const days = toDay('2019-03-12') - toDay('2017-01-02');
    expect(after! - before!).toBeLessThanOrEqual(1500 * days);
  });

  it('an unread visit is placed between its neighbours by date', () => {
    const road = roadOf(IN_SERVICE, [
      { date: '2024-04-10', odometer: km(5012) },
      { date: '2024-05-05' },
      { date: '2024-07-19', odometer: km(9012) },
    ]);
    // 25 of 100 days.
    expect(road.places[1]!.km).toBeCloseTo(6000, 6);
    expect(road.places[1]!.sdKm).toBeGreaterThan(0);
    expect(road.stretches).toHaveLength(2);
  });

  it('an unread visit after the last reading is placed at the mean daily distance, less certainly the later it is', () => {
    const at = (date: string) =>
      roadOf(IN_SERVICE, [{ date: '2024-04-10', odometer: km(5012) }, { date }]).places[1]!;
    // 50 km a day.
    expect(at('2024-04-20').km).toBeCloseTo(5500, 6);
    expect(at('2024-07-19').km).toBeCloseTo(10_000, 6);
    expect(at('2024-07-19').sdKm).toBeGreaterThan(at('2024-04-20').sdKm);
  });

  it('an unread visit before the first reading is placed before it', () => {
    const [first] = roadOf(NOT_KNOWN, [
      { date: '2024-04-10' },
      { date: '2024-04-20', odometer: km(1000) },
      { date: '2024-07-29', odometer: km(6000) },
    ]).places;
    // 10 days at 50 km a day.
    expect(first!.km).toBeCloseTo(-500, 6);
  });

  it('the distance along a vehicle’s visits counts days if the odometer was read only once and there are visits on other days', () => {
    const road = roadOf(NOT_KNOWN, [{ date: '2024-04-10' }, { date: '2024-04-20', odometer: km(1000) }]);
    expect(road.isByDistance).toBe(false);
    expect(road.places.map((place) => place.km)).toEqual([0, 10 * TYPICAL_KM_PER_DAY]);
  });

  it('an unread visit on a day with a reading is placed at that reading', () => {
    expect(
      kmOf(IN_SERVICE, [
        { date: '2024-04-10', time: '08:00', odometer: km(5012) },
        { date: '2024-04-10', time: '09:00' },
      ]),
    ).toEqual([5000, 5000]);
  });

  it('several visits on one day are one end of an interval', () => {
    const road = roadOf(IN_SERVICE, [
      { date: '2024-04-10', odometer: km(5012) },
      { date: '2024-04-10', odometer: km(5022) },
      { date: '2024-07-19', odometer: km(9022) },
    ]);
    expect(road.places.map((place) => place!.km)).toEqual([5000, 5010, 9010]);
    expect(road.stretches.map((stretch) => stretch.km)).toEqual([5010, 4000]);
  });

  it('an interval without driving is included', () => {
    const { stretches } = roadOf(NOT_KNOWN, [
      { date: '2024-04-10', odometer: km(5000) },
      { date: '2024-07-19', odometer: km(5000) },
    ]);
    expect(stretches.map((stretch) => stretch.km)).toEqual([0]);
  });
});

/** The conflict that the visit named `new` causes. */
function conflictOf(vehicle: VehicleDraft, visits: VisitDraft[]) {
  return odometerConflict(historyOf(vehicle, visits), 'new');
}

describe('an odometer reading that contradicts another visit', () => {
  const before: VisitDraft = { id: 'before', date: '2024-04-10', odometer: km(5000) };
  const after: VisitDraft = { id: 'after', date: '2024-10-27', odometer: km(9000) };
  const at = (value: number, more: Partial<VisitDraft> = {}): VisitDraft => ({
    id: 'new',
    date: '2024-07-19',
    odometer: km(value),
    ...more,
  });

  it.each([5000, 7000, 9000])('there is no conflict at %i km between 5000 and 9000', (value) => {
    expect(conflictOf(NOT_KNOWN, [before, at(value), after])).toBeNull();
  });

  it('a reading below an earlier visit’s names that visit', () => {
    const conflict = conflictOf(NOT_KNOWN, [before, at(4999), after])!;
    expect(conflict).toMatchObject({ field: 'odometer', visitId: 'before' });
    expect(conflict.detail).toContain('4,999 km is below the 5,000 km');
    expect(conflict.detail).toContain('2024-04-10');
  });

  it('a reading above a later visit’s names that visit', () => {
    const conflict = conflictOf(NOT_KNOWN, [before, at(9001), after])!;
    expect(conflict).toMatchObject({ field: 'odometer', visitId: 'after' });
    expect(conflict.detail).toContain('9,001 km is above the 9,000 km');
  });

  it('visits without an odometer reading are skipped', () => {
    const unread: VisitDraft[] = [{ date: '2024-05-01' }, { date: '2024-09-01' }];
    expect(conflictOf(NOT_KNOWN, [before, ...unread, at(4999), after])).toMatchObject({ visitId: 'before' });
    expect(conflictOf(NOT_KNOWN, [before, ...unread, at(9001), after])).toMatchObject({ visitId: 'after' });
  });

  it('a visit without an odometer reading never conflicts', () => {
    expect(conflictOf(IN_SERVICE, [before, { id: 'new', date: '2024-07-19' }, after])).toBeNull();
  });

  it('miles are compared with kilometres', () => {
    const inMiles = (value: number) => at(0, { odometer: { value, unit: 'mi' } });
    expect(conflictOf(NOT_KNOWN, [before, inMiles(3107), after])).toBeNull();
    expect(conflictOf(NOT_KNOWN, [before, inMiles(3106), after])).toMatchObject({ visitId: 'before' });
  });

  it('a reading below that at in-service conflicts', () => {
    expect(conflictOf(IN_SERVICE, [at(11)])).toMatchObject({ field: 'odometer', visitId: null });
    expect(conflictOf(IN_SERVICE, [at(12)])).toBeNull();
  });

  describe('after an odometer was replaced', () => {
    const replaced = (oldFinal: number | null, newStart: number | null) => ({
      odometerReplaced: {
        oldFinal: oldFinal === null ? null : km(oldFinal),
        newStart: newStart === null ? null : km(newStart),
      },
    });

    it('readings below the old odometer or in-service do not conflict', () => {
      expect(conflictOf(IN_SERVICE, [before, at(3, replaced(6000, 0))])).toBeNull();
      expect(conflictOf(IN_SERVICE, [before, at(3, replaced(null, null))])).toBeNull();
    });

    it('a reading below the new odometer’s start conflicts', () => {
      expect(conflictOf(NOT_KNOWN, [before, at(3, replaced(6000, 4))])).toMatchObject({
        field: 'odometer',
        visitId: null,
      });
    });

    it('an old odometer that ended below an earlier visit’s conflicts', () => {
      expect(conflictOf(NOT_KNOWN, [before, at(3, replaced(4999, 0))])).toMatchObject({
        field: 'odometerReplaced/oldFinal',
        visitId: 'before',
      });
      expect(conflictOf(NOT_KNOWN, [before, at(3, replaced(5000, 0))])).toBeNull();
    });

    it('a new odometer that starts above a later visit’s conflicts', () => {
      const unread = { ...at(0, replaced(6000, 9500)), odometer: null };
      expect(conflictOf(NOT_KNOWN, [before, unread, after])).toMatchObject({
        field: 'odometerReplaced/newStart',
        visitId: 'after',
      });
    });

    it('a later reading is checked only against its own odometer', () => {
      const swap: VisitDraft = {
        id: 'swap',
        date: '2024-06-01',
        odometer: km(10),
        ...replaced(5500, 0),
      };
      expect(conflictOf(NOT_KNOWN, [before, swap, at(800)])).toBeNull();
      expect(conflictOf(NOT_KNOWN, [before, swap, at(9)])).toMatchObject({ visitId: 'swap' });
    });

    it('an earlier reading is checked only against its own odometer', () => {
      const swap: VisitDraft = { id: 'swap', date: '2024-09-01', odometer: km(10), ...replaced(7500, 0) };
      expect(conflictOf(NOT_KNOWN, [before, at(7000), swap, after])).toBeNull();
      expect(conflictOf(NOT_KNOWN, [before, at(7501), swap])).toMatchObject({
        field: 'odometer',
        visitId: 'swap',
      });
    });

    it('nothing is checked if the old odometer’s last reading is lost', () => {
      const swap: VisitDraft = { id: 'swap', date: '2024-09-01', odometer: km(10), ...replaced(null, 0) };
      expect(conflictOf(NOT_KNOWN, [before, at(99_999), swap])).toBeNull();
    });
  });

  it('an old odometer that ends below its reading at in-service conflicts', () => {
    const visit = {
      id: 'new',
      date: '2024-06-01',
      odometer: km(100),
      odometerReplaced: { oldFinal: km(5), newStart: km(0) },
    };
    expect(conflictOf(IN_SERVICE, [visit])).toMatchObject({ field: 'odometerReplaced/oldFinal' });
  });
});

describe('a new odometer with an unknown start', () => {
  const visits: VisitDraft[] = [
    { date: '2024-01-01', odometer: km(10_000) },
    { date: '2024-04-10', odometer: null, odometerReplaced: { oldFinal: km(20_000), newStart: null } },
    { date: '2024-07-19', odometer: km(10_000) },
  ];

  it('the visit of the new odometer is placed where the old one ended, and the next visit by its date', () => {
    const { places, stretches } = roadOf(NOT_KNOWN, visits);
    expect(places[1]).toEqual({ km: 10_000, sdKm: 0 });
    expect(places[2]!.km).toBeCloseTo(20_000, 6);
    expect(places[2]!.sdKm).toBeGreaterThan(0);
    expect(stretches.map((stretch) => stretch.km)).toEqual([10_000]);
  });
});
