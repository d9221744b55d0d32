import { streams, type Chance } from '../seed/random.js';
import { toDay, toFullDate } from '../src/core/calendar.js';
import { SIDES } from '../src/core/vocabulary/terms.js';
import { EXAMPLE_VEHICLE, VehicleBody } from '../src/core/vocabulary/vehicle.js';
import { VisitBody } from '../src/core/vocabulary/visit.js';

/** An invented shop for the benches: all vehicles have the same number of visits, with eight readings each. */

export interface ShopVehicle {
  vehicle: VehicleBody;
  visits: VisitBody[];
}

const PAD_NEW_MM = 11;
/** Pads this thin are replaced, mm. */
const REPLACED_MM = 4;
const ROTOR_NEW_MM = 28;
const ROTOR_WORN_MM = 26.5;
/** What a rotor loses while its pads lose 1 mm, mm. */
const ROTOR_SHARE = 0.05;
const SEED = 11;

/**
 * @param visits of each vehicle
 * @param today the full-date up to which the visits go; the latest are within one interval before it
 */
export function shopOf(vehicles: number, visits: number, today: string): ShopVehicle[] {
  return streams(SEED, vehicles).map((chance, index) => ({
    vehicle: VehicleBody.parse({
      ...EXAMPLE_VEHICLE,
      externalId: `BENCH-${index}`,
      registration: null,
      model: `model-${index % 8}`,
      fleet: `fleet-${index % 10}`,
      inService: null,
    }),
    visits: visitsOf(chance, visits, toDay(today)),
  }));
}

function visitsOf(chance: Chance, visits: number, today: number): VisitBody[] {
  const intervalDays = chance.whole(80, 160);
  const kmPerDay = chance.logNormal(55, 0.4);
  const mmPer1000Km = chance.logNormal(0.1, 0.3);
  const first = today - chance.whole(0, intervalDays) - intervalDays * (visits - 1);
  const padMm = chance.between(6, PAD_NEW_MM);
  const rotorMm = chance.between(27.2, ROTOR_NEW_MM);
  return visitsFrom(chance, visits, { first, intervalDays, kmPerDay, mmPer1000Km, padMm, rotorMm });
}

/**
 * Visits of a vehicle that comes every eighth day, 1000 km after the last time: 200 visits wear out four sets of pads.
 */
export function frequentVisits(visits: number, today: string): VisitBody[] {
  const intervalDays = 8;
  return visitsFrom(streams(SEED, 1)[0]!, visits, {
    first: toDay(today) - intervalDays * (visits - 1),
    intervalDays,
    kmPerDay: 125,
    mmPer1000Km: 0.14,
    padMm: PAD_NEW_MM,
    rotorMm: ROTOR_NEW_MM,
  });
}

/** When a vehicle starts, how it is driven, how it wears, and how thick its first parts are. */
interface Driven {
  first: number;
  intervalDays: number;
  kmPerDay: number;
  mmPer1000Km: number;
  padMm: number;
  rotorMm: number;
}

function visitsFrom(
  chance: Chance,
  visits: number,
  { first, intervalDays, kmPerDay, mmPer1000Km, ...thick }: Driven,
): VisitBody[] {
  let { padMm, rotorMm } = thick;
  return Array.from({ length: visits }, (_, number) => {
    const body = visitBody(number, padMm, rotorMm, {
      date: toFullDate(first + intervalDays * number),
      km: 8000 + intervalDays * kmPerDay * number,
    });
    if (padMm <= REPLACED_MM) padMm = PAD_NEW_MM;
    const wornMm = (mmPer1000Km * intervalDays * kmPerDay) / 1000;
    padMm = Math.max(2.5, padMm - wornMm * chance.logNormal(1, 0.05));
    rotorMm = Math.max(ROTOR_WORN_MM, rotorMm - ROTOR_SHARE * wornMm);
    return VisitBody.parse(body);
  });
}

/** Four pads to half a millimetre, four points of the rotors to a hundredth, and new pads when they are worn. */
function visitBody(
  number: number,
  padMm: number,
  rotorMm: number,
  { date, km }: { date: string; km: number },
) {
  const places = SIDES.flatMap((side) => [0, 1].map((second) => ({ axle: 'front' as const, side, second })));
  const replaced = { kind: 'pads-replaced', axle: 'front', new: { value: PAD_NEW_MM, unit: 'mm' } };
  return {
    date,
    odometer: { value: Math.round(km), unit: 'km' },
    workOrder: `WO-${number}`,
    readings: [
      ...places.map(({ second, ...place }) => ({
        kind: 'pad-thickness',
        ...place,
        pad: second ? 'outer' : 'inner',
        value: Math.round((padMm + 0.4 * second) * 2) / 2,
        unit: 'mm',
        gauge: 'pad-gauge',
      })),
      ...places.map(({ second, ...place }) => ({
        kind: 'rotor-thickness',
        ...place,
        point: second + 1,
        value: Number((rotorMm - 0.01 * second).toFixed(2)),
        unit: 'mm',
        gauge: 'micrometer',
      })),
    ],
    ...(padMm <= REPLACED_MM ? { work: [replaced] } : {}),
  };
}

/** A possible next visit on a day, 1500 km and half a millimetre after the latest. */
export function nextVisit(
  { odometer, readings, work }: VisitBody,
  date: string,
  workOrder: string,
): VisitBody {
  return VisitBody.parse({
    date,
    workOrder,
    odometer: { value: odometer!.value + 1500, unit: 'km' },
    readings: readings!.map((reading) => ({ ...reading, value: worn(reading, Boolean(work?.length)) })),
  });
}

function worn({ kind, value }: NonNullable<VisitBody['readings']>[number], replaced: boolean): number {
  if (kind !== 'pad-thickness') return Number((value - 0.02).toFixed(2));
  return replaced ? PAD_NEW_MM - 0.5 : Math.max(2.5, value - 0.5);
}
