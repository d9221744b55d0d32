import { describe, expect, it } from 'vitest';
import { toDay } from '../../src/core/calendar.js';
import { layRoad, odometerConflict, TYPICAL_KM_PER_DAY } from '../../src/core/odometer.js';
import { historyOf, km, type VehicleDraft, type VisitDraft } from '../support/coreHistories.js';

const IN_SERVICE: VehicleDraft = { inService: { date: '2024-01-01', odometer: km(12) } };
const NOT_KNOWN: VehicleDraft = {};

const roadOf = (vehicle: VehicleDraft, visits: VisitDraft[]) => layRoad(historyOf(vehicle, visits));
const kmOf = (vehicle: VehicleDraft, visits: VisitDraft[]) =>
  roadOf(vehicle, visits).places.map((place) => place?.km ?? null);

describe('the road', () => {
  it('counts from in-service where the odometer was read then', () => {
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

  it('counts from the first reading where in-service is not known', () => {
    const road = roadOf(NOT_KNOWN, [
      { date: '2024-04-10', odometer: km(61_000) },
      { date: '2024-07-19', odometer: { value: 40_000, unit: 'mi' } },
    ]);
    expect(road.inService).toBeNull();
    expect(road.places.map((place) => place!.km)).toEqual([0, 40_000 * 1.609344 - 61_000]);
  });

  it('counts days at the typical distance where no odometer was ever read', () => {
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
      isByDistance: false,
    });
  });

  it('has no places without visits', () => {
    expect(roadOf(NOT_KNOWN, [])).toEqual({
      places: [],
      inService: null,
      stretches: [],
      doubted: [],
      isByDistance: false,
    });
  });

  it('counts on through a replaced odometer whose last reading is known', () => {
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

  it('counts on from the new odometer’s start where nothing else was read at its fitting', () => {
    const visits: VisitDraft[] = [
      { date: '2024-04-10', odometer: km(5012) },
      { date: '2024-07-19', odometerReplaced: { oldFinal: km(8012), newStart: km(0) } },
      { date: '2024-10-27', odometer: km(4000) },
    ];
    expect(kmOf(IN_SERVICE, visits)).toEqual([5000, 8000, 12_000]);
  });

  it('counts on through two replacements', () => {
    const visits: VisitDraft[] = [
      { date: '2024-04-10', odometer: km(0), odometerReplaced: { oldFinal: km(1012), newStart: km(0) } },
      { date: '2024-07-19', odometer: km(500), odometerReplaced: { oldFinal: km(2000), newStart: km(500) } },
      { date: '2024-10-27', odometer: km(1500) },
    ];
    expect(kmOf(IN_SERVICE, visits)).toEqual([1000, 3000, 4000]);
  });

  it('bridges the distance hidden by a lost last reading at the mean pace, and says how unsure it is', () => {
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
    // A distance read afterwards adds nothing to what is unsure.
    expect(road.places[2]!.sdKm).toBe(road.places[1]!.sdKm);
    // The hidden distance itself says nothing of the pace.
    expect(road.stretches.map((stretch) => stretch.km)).toEqual([5000, 5000]);
  });

  it('places an unread visit between its neighbours by date', () => {
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

  it('places an unread visit beyond the last reading at the mean pace, less surely the farther', () => {
    const at = (date: string) =>
      roadOf(IN_SERVICE, [{ date: '2024-04-10', odometer: km(5012) }, { date }]).places[1]!;
    // 50 km a day.
    expect(at('2024-04-20').km).toBeCloseTo(5500, 6);
    expect(at('2024-07-19').km).toBeCloseTo(10_000, 6);
    expect(at('2024-07-19').sdKm).toBeGreaterThan(at('2024-04-20').sdKm);
  });

  it('places an unread visit before the first reading behind it', () => {
    const [first] = roadOf(NOT_KNOWN, [
      { date: '2024-04-10' },
      { date: '2024-04-20', odometer: km(1000) },
      { date: '2024-07-29', odometer: km(6000) },
    ]).places;
    // 10 days at 50 km a day.
    expect(first!.km).toBeCloseTo(-500, 6);
  });

  it('counts days where the odometer was read but once and there are visits on other days', () => {
    const road = roadOf(NOT_KNOWN, [{ date: '2024-04-10' }, { date: '2024-04-20', odometer: km(1000) }]);
    expect(road.isByDistance).toBe(false);
    expect(road.places.map((place) => place.km)).toEqual([0, 10 * TYPICAL_KM_PER_DAY]);
  });

  it('places an unread visit of a day with a reading at that reading', () => {
    expect(
      kmOf(IN_SERVICE, [
        { date: '2024-04-10', time: '08:00', odometer: km(5012) },
        { date: '2024-04-10', time: '09:00' },
      ]),
    ).toEqual([5000, 5000]);
  });

  it('takes several visits of a day as one end of a stretch', () => {
    const road = roadOf(IN_SERVICE, [
      { date: '2024-04-10', odometer: km(5012) },
      { date: '2024-04-10', odometer: km(5022) },
      { date: '2024-07-19', odometer: km(9022) },
    ]);
    expect(road.places.map((place) => place!.km)).toEqual([5000, 5010, 9010]);
    expect(road.stretches.map((stretch) => stretch.km)).toEqual([5010, 4000]);
  });

  it('keeps a stretch in which nothing was driven', () => {
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

describe('an odometer in conflict', () => {
  const before: VisitDraft = { id: 'before', date: '2024-04-10', odometer: km(5000) };
  const after: VisitDraft = { id: 'after', date: '2024-10-27', odometer: km(9000) };
  const at = (value: number, more: Partial<VisitDraft> = {}): VisitDraft => ({
    id: 'new',
    date: '2024-07-19',
    odometer: km(value),
    ...more,
  });

  it.each([5000, 7000, 9000])('is not one at %i km between 5000 and 9000', (value) => {
    expect(conflictOf(NOT_KNOWN, [before, at(value), after])).toBeNull();
  });

  it('is below an earlier visit’s, and names that visit', () => {
    const conflict = conflictOf(NOT_KNOWN, [before, at(4999), after])!;
    expect(conflict).toMatchObject({ field: 'odometer', visitId: 'before' });
    expect(conflict.detail).toContain('4999 km is below the 5000 km');
    expect(conflict.detail).toContain('2024-04-10');
  });

  it('is above a later visit’s, and names that visit', () => {
    const conflict = conflictOf(NOT_KNOWN, [before, at(9001), after])!;
    expect(conflict).toMatchObject({ field: 'odometer', visitId: 'after' });
    expect(conflict.detail).toContain('9001 km is above the 9000 km');
  });

  it('looks past visits whose odometer was not read', () => {
    const unread: VisitDraft[] = [{ date: '2024-05-01' }, { date: '2024-09-01' }];
    expect(conflictOf(NOT_KNOWN, [before, ...unread, at(4999), after])).toMatchObject({ visitId: 'before' });
    expect(conflictOf(NOT_KNOWN, [before, ...unread, at(9001), after])).toMatchObject({ visitId: 'after' });
  });

  it('is never one where the odometer was not read', () => {
    expect(conflictOf(IN_SERVICE, [before, { id: 'new', date: '2024-07-19' }, after])).toBeNull();
  });

  it('compares miles with kilometres', () => {
    const inMiles = (value: number) => at(0, { odometer: { value, unit: 'mi' } });
    expect(conflictOf(NOT_KNOWN, [before, inMiles(3107), after])).toBeNull();
    expect(conflictOf(NOT_KNOWN, [before, inMiles(3106), after])).toMatchObject({ visitId: 'before' });
  });

  it('is below the reading at in-service', () => {
    expect(conflictOf(IN_SERVICE, [at(11)])).toMatchObject({ field: 'odometer', visitId: null });
    expect(conflictOf(IN_SERVICE, [at(12)])).toBeNull();
  });

  describe('with a replaced odometer', () => {
    const replaced = (oldFinal: number | null, newStart: number | null) => ({
      odometerReplaced: {
        oldFinal: oldFinal === null ? null : km(oldFinal),
        newStart: newStart === null ? null : km(newStart),
      },
    });

    it('is not one below the readings of the old odometer or of in-service', () => {
      expect(conflictOf(IN_SERVICE, [before, at(3, replaced(6000, 0))])).toBeNull();
      expect(conflictOf(IN_SERVICE, [before, at(3, replaced(null, null))])).toBeNull();
    });

    it('is below the one it started from', () => {
      expect(conflictOf(NOT_KNOWN, [before, at(3, replaced(6000, 4))])).toMatchObject({
        field: 'odometer',
        visitId: null,
      });
    });

    it('ended below an earlier visit’s', () => {
      expect(conflictOf(NOT_KNOWN, [before, at(3, replaced(4999, 0))])).toMatchObject({
        field: 'odometerReplaced/oldFinal',
        visitId: 'before',
      });
      expect(conflictOf(NOT_KNOWN, [before, at(3, replaced(5000, 0))])).toBeNull();
    });

    it('starts above a later visit’s', () => {
      const unread = { ...at(0, replaced(6000, 9500)), odometer: null };
      expect(conflictOf(NOT_KNOWN, [before, unread, after])).toMatchObject({
        field: 'odometerReplaced/newStart',
        visitId: 'after',
      });
    });

    it('is checked against its own segment only, after the replacement', () => {
      const swap: VisitDraft = {
        id: 'swap',
        date: '2024-06-01',
        odometer: km(10),
        ...replaced(5500, 0),
      };
      expect(conflictOf(NOT_KNOWN, [before, swap, at(800)])).toBeNull();
      expect(conflictOf(NOT_KNOWN, [before, swap, at(9)])).toMatchObject({ visitId: 'swap' });
    });

    it('is checked against its own segment only, before the replacement', () => {
      const swap: VisitDraft = { id: 'swap', date: '2024-09-01', odometer: km(10), ...replaced(7500, 0) };
      expect(conflictOf(NOT_KNOWN, [before, at(7000), swap, after])).toBeNull();
      expect(conflictOf(NOT_KNOWN, [before, at(7501), swap])).toMatchObject({
        field: 'odometer',
        visitId: 'swap',
      });
    });

    it('has nothing to be checked against where the old odometer’s last reading is lost', () => {
      const swap: VisitDraft = { id: 'swap', date: '2024-09-01', odometer: km(10), ...replaced(null, 0) };
      expect(conflictOf(NOT_KNOWN, [before, at(99_999), swap])).toBeNull();
    });
  });

  it('is an old odometer that ends below where it was in service', () => {
    const visit = {
      id: 'new',
      date: '2024-06-01',
      odometer: km(100),
      odometerReplaced: { oldFinal: km(5), newStart: km(0) },
    };
    expect(conflictOf(IN_SERVICE, [visit])).toMatchObject({ field: 'odometerReplaced/oldFinal' });
  });
});

describe('a new odometer of unknown start', () => {
  const visits: VisitDraft[] = [
    { date: '2024-01-01', odometer: km(10_000) },
    { date: '2024-04-10', odometer: null, odometerReplaced: { oldFinal: km(20_000), newStart: null } },
    { date: '2024-07-19', odometer: km(10_000) },
  ];

  it('places its visit where the old one ended, and the next by its date', () => {
    const { places, stretches } = roadOf(NOT_KNOWN, visits);
    expect(places[1]).toEqual({ km: 10_000, sdKm: 0 });
    expect(places[2]!.km).toBeCloseTo(20_000, 6);
    expect(places[2]!.sdKm).toBeGreaterThan(0);
    expect(stretches.map((stretch) => stretch.km)).toEqual([10_000]);
  });
});
