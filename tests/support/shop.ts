import { streams, type Chance } from '../../seed/random.js';
import type { VehicleRecord } from '../../src/core/forecast/fit.js';
import type { PartTracks, Track } from '../../src/core/forecast/wear.js';
import type { Stretch } from '../../src/core/stretches.js';

/** A shop whose vehicles wear and are used exactly as the model says, with known parameters. */
export interface Shop {
  vehicles: number;
  models: readonly (string | null)[];
  /** Added to the log rate of a vehicle of a model. */
  modelShift: (model: string | null) => number;
  logRateMean: number;
  logRateSd: number;
  partSpread: number;
  innerOuter: number;
  wander: number;
  placementSd: number;
  logPaceMean: number;
  logPaceSd: number;
  dayToDay: number;
  /** Between the logs of rate and pace. */
  correlation: number;
  /** Standard deviation of a change of log rate that every vehicle makes halfway; 0 for none. */
  changeSd: number;
  visits: number;
}

export const SHOP: Shop = {
  vehicles: 60,
  models: ['van'],
  modelShift: () => 0,
  logRateMean: Math.log(0.1),
  logRateSd: 0.35,
  partSpread: 0.1,
  innerOuter: 1.1,
  wander: 0.03,
  placementSd: 0.15,
  logPaceMean: Math.log(60),
  logPaceSd: 0.4,
  dayToDay: 1.2,
  correlation: 0,
  changeSd: 0,
  visits: 5,
};

export const FRONT = { steeredOrFront: true, regenerative: false };
const NEW_MM = 12;
const DAYS_BETWEEN_VISITS = 150;
const GAUGE_VARIANCE = 0.1 ** 2 / 12;
const RATIO_SHARES = [0.5, -0.5, 0.5, -0.5];

export function shopOf(changes: Partial<Shop> = {}, seed = 1): VehicleRecord[] {
  const shop = { ...SHOP, ...changes };
  return streams(seed, shop.vehicles).map((chance, index) =>
    recordOf(chance, shop, shop.models[index % shop.models.length]!),
  );
}

function recordOf(chance: Chance, shop: Shop, model: string | null): VehicleRecord {
  const common = chance.normal(0, 1);
  const own = chance.normal(0, 1);
  const scoreOfPace = shop.correlation * common + Math.sqrt(1 - shop.correlation ** 2) * own;
  const logRate = shop.logRateMean + shop.modelShift(model) + shop.logRateSd * common;
  const pace = Math.exp(shop.logPaceMean + shop.logPaceSd * scoreOfPace);
  const stretches = Array.from({ length: shop.visits }, (_, visit): Stretch => {
    const fromDay = visit * DAYS_BETWEEN_VISITS;
    const scatter = pace * shop.dayToDay * Math.sqrt(DAYS_BETWEEN_VISITS);
    const km = Math.max(1, chance.normal(pace * DAYS_BETWEEN_VISITS, scatter));
    return { fromDay, toDay: fromDay + DAYS_BETWEEN_VISITS, km };
  });
  const changed = Math.exp(chance.normal(0, shop.changeSd));
  const pads = RATIO_SHARES.map((share) => padOf(chance, shop, Math.exp(logRate), changed, share, stretches));
  return { model, stretches, axles: [{ group: FRONT, pads, rotors: [] }] };
}

function padOf(
  chance: Chance,
  shop: Shop,
  axleRate: number,
  changed: number,
  ratioShare: number,
  stretches: readonly Stretch[],
): PartTracks {
  const rate = axleRate * shop.innerOuter ** ratioShare * chance.normal(1, shop.partSpread);
  let mm = chance.normal(NEW_MM, 0.15);
  let at = 0;
  const places: number[] = [];
  const read: number[] = [];
  stretches.forEach(({ km }, index) => {
    const present = index < stretches.length / 2 ? rate : rate * changed;
    mm -= chance.normal((present * km) / 1000, shop.wander * Math.sqrt(km / 1000));
    at += km / 1000;
    places.push(at);
    read.push(chance.normal(mm, Math.hypot(shop.placementSd, Math.sqrt(GAUGE_VARIANCE))));
  });
  const life: Track = {
    startAt: 0,
    startMm: NEW_MM,
    at: Float64Array.from(places),
    atSd: new Float64Array(places.length),
    mm: Float64Array.from(read),
    gaugeVariance: new Float64Array(places.length).fill(GAUGE_VARIANCE),
  };
  return { ratioShare, lives: [life] };
}

/** A shop whose vehicles repeat a few histories over and over. */
export function copiesOf(records: readonly VehicleRecord[], vehicles: number): VehicleRecord[] {
  return Array.from({ length: vehicles }, (_, index) => records[index % records.length]!);
}

/** The vehicle with other tracks for its pads. */
export function retold(record: VehicleRecord, change: (life: Track) => Track): VehicleRecord {
  const axles = record.axles.map((axle) => ({
    ...axle,
    pads: axle.pads.map((part) => ({ ...part, lives: part.lives.map(change) })),
  }));
  return { ...record, axles };
}
