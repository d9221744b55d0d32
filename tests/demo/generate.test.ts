import { describe, expect, it } from 'vitest';
import { generateDemo, type DemoVehicle } from '../../seed/generate.js';
import { toDay } from '../../src/core/calendar.js';
import { STANDARD_GAUGES } from '../../src/core/gauges.js';
import { toKm, toMm } from '../../src/core/units.js';
import { hasValidVinCheckDigit } from '../../src/core/vin.js';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { VisitBody, type ReadingBody } from '../../src/core/vocabulary/visit.js';

const TODAY = '2026-03-02';
const SEEDS = [1, 7, 20_260];
const DATES = [TODAY, '2024-02-29', '2027-09-19'];

interface ParsedVehicle {
  vehicle: VehicleBody;
  visits: VisitBody[];
}

const parse = ({ vehicle, visits }: DemoVehicle): ParsedVehicle => ({
  vehicle: VehicleBody.parse(vehicle),
  visits: visits.map((visit) => VisitBody.parse(visit)),
});

const demos = SEEDS.map((seed) => ({ seed, fleet: generateDemo(seed, TODAY).map(parse) }));
const fleet = demos[0]!.fleet;

const present = <T>(values: readonly (T | null | undefined)[]): T[] =>
  values.filter((value) => value != null);
const readingsOf = (visit: VisitBody): ReadingBody[] => visit.readings ?? [];
const allVisits = (vehicles: readonly ParsedVehicle[]) => vehicles.flatMap(({ visits }) => visits);
const allReadings = (vehicles: readonly ParsedVehicle[]) => allVisits(vehicles).flatMap(readingsOf);
const allWork = (vehicles: readonly ParsedVehicle[]) =>
  allVisits(vehicles).flatMap((visit) => visit.work ?? []);

function placeOf(reading: ReadingBody): string {
  const { kind, axle, side, repeat, taken } = reading;
  const where =
    kind === 'pad-thickness'
      ? `${reading.pad} ${reading.at}`
      : kind === 'rotor-thickness'
        ? String(reading.point)
        : '';
  return [kind, axle, side, where, repeat, taken].join('/');
}

/** One pad's thickness at the visits that read it as found, mm; null marks a replacement in between. */
function padCourse({ visits }: ParsedVehicle, axle: string, side: string, pad: string): (number | null)[] {
  return visits.flatMap((visit) => {
    const found = readingsOf(visit).filter(
      (reading) =>
        reading.kind === 'pad-thickness' &&
        reading.axle === axle &&
        reading.side === side &&
        reading.pad === pad &&
        reading.at === 'thinnest' &&
        reading.gauge !== 'visual' &&
        reading.taken === 'as-found',
    );
    const isReplaced = visit.work?.some((item) => item.kind === 'pads-replaced' && item.axle === axle);
    return [...found.slice(0, 1).map(toMm), ...(isReplaced ? [null] : [])];
  });
}

const odometerKm = (visit: VisitBody): number | null => (visit.odometer ? toKm(visit.odometer) : null);

describe('the demo fleet', () => {
  it('the demo fleet is the same for the same seed and date', () => {
    expect(generateDemo(1, TODAY)).toEqual(generateDemo(1, TODAY));
  });

  it('the demo fleet differs by seed', () => {
    expect(generateDemo(1, TODAY)).not.toEqual(generateDemo(2, TODAY));
  });

  it('the demo fleet shares no objects with later fleets', () => {
    const first = generateDemo(1, TODAY);
    const untouched = structuredClone(first);
    for (const { vehicle } of first) vehicle.axles.front = { brake: 'drum', pad: null };
    first[0]!.vehicle.grossMass!.value = 1;
    expect(generateDemo(1, TODAY)).toEqual(untouched);
  });

  it('the demo fleet moves with the date', () => {
    const later = generateDemo(SEEDS[0]!, '2026-06-10');
    const daysLater = toDay('2026-06-10') - toDay(TODAY);
    fleet.forEach(({ visits }, index) => {
      const shift = toDay(later[index]!.visits.at(-1)!.date) - toDay(visits.at(-1)!.date);
      // A visit that falls on a Sunday moves to the Saturday before.
      expect(Math.abs(shift - daysLater)).toBeLessThanOrEqual(1);
    });
  });

  it.each(SEEDS.flatMap((seed) => DATES.map((today) => [seed, today] as const)))(
    'the demo fleet satisfies every rule of the service with seed %i on %s',
    (seed, today) => {
      for (const vehicle of generateDemo(seed, today).map(parse)) expectValid(vehicle, today);
    },
  );

  it.each(demos)('no two vehicles have the same name with seed $seed', ({ fleet: vehicles }) => {
    for (const key of ['externalId', 'registration', 'vin'] as const) {
      const names = present(vehicles.map(({ vehicle }) => vehicle[key]));
      expect(names.length).toBeGreaterThan(vehicles.length / 3);
      expect(new Set(names).size).toBe(names.length);
    }
  });

  it('the demo fleet has the fleets, models, powertrains and three years that a demo needs', () => {
    const vehicles = fleet.map(({ vehicle }) => vehicle);
    expect(fleet.length).toBeGreaterThanOrEqual(44);
    expect(new Set(present(vehicles.map((vehicle) => vehicle.fleet))).size).toBe(3);
    expect(vehicles.filter((vehicle) => vehicle.fleet === null)).toHaveLength(10);
    expect(new Set(present(vehicles.map((vehicle) => vehicle.model))).size).toBeGreaterThanOrEqual(7);
    expect(new Set(vehicles.map((vehicle) => vehicle.powertrain))).toEqual(
      new Set(['combustion', 'hybrid', 'battery-electric', 'none']),
    );
    const trailers = vehicles.filter((vehicle) => vehicle.powertrain === 'none');
    expect(trailers.map((trailer) => Object.keys(trailer.axles))).toEqual([['axle-1', 'axle-2']]);
    const days = allVisits(fleet).map((visit) => toDay(visit.date));
    expect(Math.max(...days) - Math.min(...days)).toBeGreaterThan(1000);
  });

  it.each(DATES)('every vehicle was last seen within the months before %s', (today) => {
    const lastSeen = generateDemo(1, today).map(({ visits }) => toDay(today) - toDay(visits.at(-1)!.date));
    expect(Math.max(...lastSeen)).toBeLessThan(300);
    expect(lastSeen.filter((days) => days < 60).length).toBeGreaterThan(20);
  });

  it.each(demos)('some pads are soon due with seed $seed', ({ fleet: vehicles }) => {
    const nearLimit = vehicles.filter(({ vehicle, visits }) => {
      const course = ['left', 'right'].flatMap((side) =>
        ['inner', 'outer'].map((pad) => padCourse({ vehicle, visits }, 'front', side, pad).at(-1)),
      );
      return present(course).some((mm) => mm < 4);
    });
    expect(nearLimit.length).toBeGreaterThanOrEqual(3);
  });
});

function expectValid({ vehicle, visits }: ParsedVehicle, today: string): void {
  const { inService, outOfService, vin } = vehicle;
  if (vin) expect(hasValidVinCheckDigit(vin)).toBe(true);
  const dates = visits.map((visit) => visit.date);
  expect(dates.length).toBeGreaterThan(0);
  expect(dates).toEqual([...new Set(dates)].sort());
  expect(dates.at(-1)! <= (outOfService?.date ?? today)).toBe(true);
  expect((outOfService?.date ?? today) <= today).toBe(true);
  if (inService) expect(dates[0]! >= inService.date).toBe(true);
  expect(new Set(visits.map((visit) => visit.workOrder)).size).toBe(visits.length);
  expectOdometerRises(visits, inService?.odometer ? toKm(inService.odometer) : 0);
  for (const visit of visits) expectPlacesExist(vehicle, visit);
}

function expectOdometerRises(visits: readonly VisitBody[], startKm: number): void {
  let shown = startKm;
  for (const visit of visits) {
    if (visit.odometerReplaced) {
      expect(toKm(visit.odometerReplaced.oldFinal!)).toBeGreaterThanOrEqual(shown);
      shown = toKm(visit.odometerReplaced.newStart!);
    }
    const km = odometerKm(visit) ?? shown;
    expect(km).toBeGreaterThanOrEqual(shown);
    shown = km;
  }
}

function expectPlacesExist(vehicle: VehicleBody, visit: VisitBody): void {
  const readings = readingsOf(visit);
  const places = readings.map(placeOf);
  expect(new Set(places).size).toBe(places.length);
  for (const { axle, gauge } of readings) {
    expect(vehicle.axles[axle]?.brake).toBe('disc');
    if (gauge != null) expect(STANDARD_GAUGES.has(gauge)).toBe(true);
  }
  const parts: { axle?: string | null }[] = [
    ...(visit.conditions ?? []),
    ...(visit.notMeasured ?? []),
    ...(visit.work ?? []),
    ...(visit.torques ?? []),
  ];
  for (const { axle } of parts) if (axle != null) expect(vehicle.axles).toHaveProperty(axle);
}

describe.each(demos)('the realistic imperfections with seed $seed', ({ fleet: vehicles }) => {
  const some = (test: (vehicle: ParsedVehicle) => boolean): boolean => vehicles.some(test);

  it('readings are in several units by several gauges, with whole thirty-seconds', () => {
    const readings = allReadings(vehicles);
    expect(new Set(readings.map((reading) => reading.unit))).toEqual(new Set(['mm', 'in', 'in/32']));
    const gauges = new Set(readings.map((reading) => reading.gauge ?? null));
    expect(gauges).toEqual(
      new Set([
        'pad-gauge',
        'pad-gauge-1mm',
        'pad-gauge-thirty-seconds',
        'depth-gauge',
        'caliper',
        'micrometer',
        'dial-indicator',
        'visual',
        null,
      ]),
    );
    const thirtySeconds = readings.filter((reading) => reading.unit === 'in/32');
    expect(thirtySeconds.every((reading) => Number.isInteger(reading.value))).toBe(true);
  });

  it('rotors have four points and more, run-out, repeats and pad ends', () => {
    const readings = allReadings(vehicles);
    expect(readings.some((reading) => reading.kind === 'rotor-thickness' && reading.point === 4)).toBe(true);
    expect(readings.some((reading) => reading.kind === 'rotor-runout')).toBe(true);
    expect(readings.some((reading) => reading.repeat > 1)).toBe(true);
    expect(readings.some((reading) => reading.kind === 'pad-thickness' && reading.at === 'trailing')).toBe(
      true,
    );
  });

  it('positions lack a reading, with and without a stated reason', () => {
    expect(
      allVisits(vehicles).some((visit) => visit.notMeasured?.some((hole) => hole.pad && hole.side)),
    ).toBe(true);
    const silentlyMissing = (visit: VisitBody): boolean =>
      !visit.notMeasured &&
      readingsOf(visit).filter((reading) => reading.kind === 'pad-thickness' && reading.axle === 'front')
        .length === 3;
    expect(allVisits(vehicles).some(silentlyMissing)).toBe(true);
  });

  it('there are miles, torques in both units, road tests and every ordinary kind of work', () => {
    const visits = allVisits(vehicles);
    expect(visits.some((visit) => visit.odometer?.unit === 'mi')).toBe(true);
    const torqueUnits = visits.flatMap((visit) => (visit.torques ?? []).map((torque) => torque.unit));
    expect(new Set(torqueUnits)).toEqual(new Set(['Nm', 'ft-lbf']));
    expect(visits.some((visit) => visit.roadTest)).toBe(true);
    const kinds = new Set(allWork(vehicles).map((item) => item.kind));
    for (const kind of ['pads-replaced', 'rotor-replaced', 'slides-serviced', 'fluid-changed'] as const) {
      expect(kinds).toContain(kind);
    }
  });

  it('there are drums, vehicles without full specifications and one specified in inches', () => {
    expect(some(({ vehicle }) => vehicle.axles.rear?.brake === 'drum')).toBe(true);
    expect(some(({ vehicle }) => !vehicle.inService)).toBe(true);
    expect(
      some(({ vehicle }) => vehicle.axles.front?.pad?.new != null && !vehicle.axles.front.pad.limit),
    ).toBe(true);
    expect(some(({ vehicle }) => vehicle.axles.front?.brake === 'disc' && !vehicle.axles.front.rotor)).toBe(
      true,
    );
    expect(some(({ vehicle }) => vehicle.axles.front?.rotor?.new?.unit === 'in')).toBe(true);
  });

  it('a sticking slide has one inner pad well ahead of the other three', () => {
    const worn = (vehicle: ParsedVehicle, side: string, pad: string): number => {
      const course = present(padCourse(vehicle, 'front', side, pad));
      return course[0]! - course.at(-1)!;
    };
    const isSticking = (vehicle: ParsedVehicle): boolean =>
      vehicle.visits.length > 4 &&
      worn(vehicle, 'left', 'inner') > 1.3 * worn(vehicle, 'right', 'inner') &&
      worn(vehicle, 'left', 'inner') > 1.3 * worn(vehicle, 'left', 'outer');
    expect(some(isSticking)).toBe(true);
  });

  it('a machined rotor has readings before and after', () => {
    const visit = allVisits(vehicles).find((each) =>
      each.work?.some((item) => item.kind === 'rotor-machined'),
    )!;
    const taken = readingsOf(visit).filter((reading) => reading.kind === 'rotor-thickness');
    expect(new Set(taken.map((reading) => reading.taken))).toEqual(new Set(['as-found', 'as-left']));
  });

  it('there are a replaced odometer, an unread one, and a vehicle that stood for months', () => {
    expect(some(({ visits }) => visits.some((visit) => visit.odometerReplaced))).toBe(true);
    expect(some(({ visits }) => visits.some((visit) => visit.odometer === null))).toBe(true);
    const stood = ({ visits }: ParsedVehicle): boolean =>
      visits.some((visit, index) => {
        const before = visits[index - 1];
        if (!before || toDay(visit.date) - toDay(before.date) < 150) return false;
        return odometerKm(visit) !== null && odometerKm(visit) === odometerKm(before);
      });
    expect(some(stood)).toBe(true);
  });

  it('a pad below its limit at the last visit was left in', () => {
    const isBelow = ({ vehicle, visits }: ParsedVehicle): boolean => {
      const last = visits.at(-1)!;
      const limit = vehicle.axles.front?.pad?.limit;
      const isLeftIn = !last.work?.some((item) => item.kind === 'pads-replaced' && item.axle === 'front');
      return (
        limit != null &&
        isLeftIn &&
        readingsOf(last).some(
          (reading) =>
            reading.kind === 'pad-thickness' && reading.axle === 'front' && toMm(reading) < toMm(limit),
        )
      );
    };
    expect(some(isBelow)).toBe(true);
  });

  it('a gross misreading makes a pad seem to grow and shrink again', () => {
    const isMisread = (vehicle: ParsedVehicle): boolean => {
      const course = padCourse(vehicle, 'front', 'right', 'outer');
      return course.some((mm, index) => {
        const [before, after] = [course[index - 1], course[index + 1]];
        return mm != null && before != null && after != null && mm > before + 2 && mm > after + 2;
      });
    };
    expect(some(isMisread)).toBe(true);
  });

  it('there are vehicles without a reading, with a single one, and out of service', () => {
    const counts = vehicles.map(({ visits }) => visits.flatMap(readingsOf).length);
    expect(counts).toContain(0);
    expect(counts).toContain(1);
    expect(vehicles.filter(({ vehicle }) => vehicle.outOfService)).toHaveLength(1);
  });

  it('there are cracked and scored rotors', () => {
    const states = allVisits(vehicles).flatMap((visit) => (visit.conditions ?? []).map((each) => each.state));
    expect(states).toContain('cracked');
    expect(states).toContain('scored');
  });
});
