import { streams, type Chance } from '../seed/random.js';
import { toFullDate } from '../src/core/calendar.js';
import { gaugeFor } from '../src/core/gauges.js';
import type { History, HistoryVisit } from '../src/core/history.js';
import { PADS, SIDES, type Pad, type Side } from '../src/core/vocabulary/terms.js';
import type { VehicleBody } from '../src/core/vocabulary/vehicle.js';
import type { Bar } from './bars.js';

/**
 * Invented fleets whose truth is known, to score forecasts against. Every figure is a choice made for the bench, in a
 * range that the trade would call ordinary; none is measured. Distances are in 1000 km, lengths in mm.
 */
export interface World {
  name: string;
  words: string;
  regenerative: boolean;
  /** Base rate of the axle's pads, mm per 1000 km: median over the vehicles and standard deviation of its log. */
  rate: number;
  rateSpread: number;
  /** Standard deviation of one pad's rate about its axle's, as a share. */
  partSpread: number;
  innerOuter: number;
  /** Chance that one of the axle's pads wears fast, and how many times as fast (standard deviation 0.2). */
  fastAxles: number;
  fastFactor: number;
  /** Standard deviation of the wear over 1000 km about its mean. */
  wander: number;
  /** Chance that the rate changes once in the life of the pads, and the standard deviation of the log of the factor. */
  changes: number;
  changeSize: number;
  /** km a day: median over the vehicles and standard deviation of its log. */
  pace: number;
  paceSpread: number;
  /** Standard deviation of one day's distance, as a multiple of the mean. */
  dayToDay: number;
  /** Amplitude of the yearly season, as a share of the mean. */
  season: number;
  /** Correlation of the logs of rate and daily distance, over the vehicles. */
  correlation: number;
  startSd: number;
  placement: number;
  gauge: string;
  /** Chance that a pad's reading is a gross misreading, from zero to a little over a new pad. */
  misreadings: number;
  /** Chance that a pad is not measured at a visit. */
  missing: number;
  /** The bar for forecasts with experience from 30 vehicles or more. */
  bar?: Bar;
}

const ORDINARY: World = {
  name: 'coarse',
  words: 'ordinary spread, 0.5 mm gauge',
  regenerative: false,
  rate: 0.12,
  rateSpread: 0.4,
  partSpread: 0.12,
  innerOuter: 1.06,
  fastAxles: 0.04,
  fastFactor: 1.5,
  wander: 0.03,
  changes: 0,
  changeSize: 0,
  pace: 45,
  paceSpread: 0.5,
  dayToDay: 1.3,
  season: 0.1,
  correlation: 0,
  startSd: 0.15,
  placement: 0.2,
  gauge: 'pad-gauge',
  misreadings: 0,
  missing: 0.15,
  bar: { covers: [77, 87], againstTwoPoint: 0.69, againstLine: 0.88 },
};

export const WORLDS: readonly World[] = [
  ORDINARY,
  {
    ...ORDINARY,
    name: 'fine',
    words: 'ordinary spread, 0.1 mm gauge',
    gauge: 'depth-gauge',
    bar: { covers: [77, 87], againstTwoPoint: 0.71, againstLine: 0.94 },
  },
  {
    ...ORDINARY,
    name: 'fast-pad',
    words: 'a fifth of axles with a fast pad, seasonal use',
    fastAxles: 0.2,
    fastFactor: 1.6,
    season: 0.3,
    bar: { covers: [76, 86], againstTwoPoint: 0.69, againstLine: 0.93 },
  },
  {
    ...ORDINARY,
    name: 'wide',
    words: 'wide spread of rates and use',
    rateSpread: 0.65,
    paceSpread: 0.75,
    partSpread: 0.16,
    bar: { covers: [76, 87], againstTwoPoint: 0.68, againstLine: 0.86 },
  },
  {
    ...ORDINARY,
    name: 'correlated',
    words: 'wear and use correlated',
    correlation: -0.6,
    bar: { covers: [77, 87], againstTwoPoint: 0.74, againstLine: 0.92 },
  },
  {
    ...ORDINARY,
    name: 'regenerative',
    words: 'regenerative, slow wear',
    regenerative: true,
    rate: 0.045,
    rateSpread: 0.5,
    wander: 0.02,
    bar: { covers: [76, 87], againstTwoPoint: 0.63, againstLine: 0.82 },
  },
  {
    ...ORDINARY,
    name: 'changing',
    words: 'half of the vehicles change rate in mid-life',
    changes: 0.5,
    changeSize: 0.5,
    bar: { covers: [72, 84], againstTwoPoint: 0.8, againstLine: 0.91 },
  },
  {
    ...ORDINARY,
    name: 'misread',
    words: '2 % gross misreadings, 0.5 mm gauge',
    misreadings: 0.02,
    bar: undefined,
  },
];

export const NEW_MM = 11;
export const LIMIT_MM = 3;
/** A gross misreading is at most this, mm. */
const MISREAD_TO_MM = 12;
/** All vehicles of a world are of one model. */
export const MODEL = 'simulated';
const RHYTHM_DAYS = [120, 240] as const;
const RHYTHM_JITTER = 0.15;
/** Pads that last longer are removed: forecasts of them cannot be checked. */
const LONGEST_LIFE_DAYS = 40 * 365;
/** 2010-01-01. */
const FIRST_DAY = 14_610;

/** The truth about an axle on the day of a visit. */
export interface Truth {
  /** Days from the visit until the first pad reaches its limit, and the distance driven in them, 1000 km. */
  daysLeft: number;
  distanceLeft: number;
  /** The pads' thickness, mm, and their rate at that time, mm per 1000 km. */
  mm: number[];
  rates: number[];
}

/** A vehicle whose pads ran until the first of them reached its limit. */
export interface SimulatedVehicle {
  /** With every visit before that day. */
  history: History;
  /** The visit at which the worn pads are found, so that every forecast has a next reading. */
  found: HistoryVisit | null;
  /** One for each visit. */
  truths: Truth[];
  /** Mean km a day. */
  pace: number;
}

const POSITIONS: readonly { side: Side; pad: Pad }[] = SIDES.flatMap((side) =>
  PADS.map((pad) => ({ side, pad })),
);

/** The same seed gives the same vehicles; worlds that differ only in their gauge share the truth as well. */
export function simulate(world: World, vehicles: number, seed: number): SimulatedVehicle[] {
  // Two streams a vehicle, so that its life does not depend on how it is measured.
  const chances = streams(seed, 2 * vehicles);
  return Array.from({ length: vehicles }, (_, index) => {
    const life = live(chances[2 * index]!, world);
    return measure(chances[2 * index + 1]!, world, index, life);
  });
}

/** What is fixed for a vehicle on the day its pads are fitted. */
interface Nature {
  pace: number;
  phase: number;
  factors: number[];
  baseRate: number;
  change: { atMm: number; factor: number } | null;
}

function drawNature(chance: Chance, world: World): Nature {
  const common = chance.normal(0, 1);
  const own = chance.normal(0, 1);
  const { correlation } = world;
  const pace = world.pace * Math.exp(world.paceSpread * common);
  const together = correlation * common + Math.sqrt(1 - correlation * correlation) * own;
  const isFast = chance.happens(world.fastAxles);
  const fastPad = chance.whole(0, POSITIONS.length - 1);
  const factors = POSITIONS.map(({ pad }, index) => {
    const mean = isFast && index === fastPad ? world.fastFactor : 1;
    const sd = mean === 1 ? world.partSpread : 0.2;
    const innerOuter = Math.sqrt(pad === 'inner' ? world.innerOuter : 1 / world.innerOuter);
    return innerOuter * Math.max(0.3, chance.normal(mean, sd));
  });
  const changes = chance.happens(world.changes);
  const atMm = LIMIT_MM + (NEW_MM - LIMIT_MM) * chance.between(0.25, 0.75);
  const factor = chance.logNormal(1, world.changeSize);
  return {
    pace,
    phase: chance.between(0, 2 * Math.PI),
    factors,
    baseRate: world.rate * Math.exp(world.rateSpread * together),
    change: changes ? { atMm, factor } : null,
  };
}

/** A visit in the vehicle's life, before anything is measured. */
interface Stop {
  day: number;
  distance: number;
  mm: number[];
  rates: number[];
}

interface Life {
  pace: number;
  stops: Stop[];
  /** When the first pad reached its limit. */
  end: { day: number; distance: number };
  /** The first visit after that. */
  found: Stop | null;
}

/** Drives a vehicle from the fitting of its pads until the visit at which one of them is found at its limit. */
function live(chance: Chance, world: World): Life {
  const nature = drawNature(chance, world);
  const mm = POSITIONS.map(() => chance.normal(NEW_MM, world.startSd));
  let rates = nature.factors.map((factor) => factor * nature.baseRate);
  const rhythm = chance.between(...RHYTHM_DAYS);
  const gap = () => Math.round(chance.logNormal(rhythm, RHYTHM_JITTER));
  const stops: Stop[] = [];
  let nextVisit = gap();
  let distance = 0;
  let changed = nature.change === null;
  let end: Life['end'] | null = null;
  for (let day = 1; day <= LONGEST_LIFE_DAYS; day++) {
    const driven = drive(chance, world, nature, day);
    distance += driven;
    for (let pad = 0; pad < mm.length; pad++) mm[pad]! -= wear(chance, rates[pad]!, world.wander, driven);
    const thinnest = Math.min(...mm);
    if (thinnest <= LIMIT_MM) end ??= { day, distance };
    if (!changed && thinnest <= nature.change!.atMm) {
      changed = true;
      rates = rates.map((rate) => rate * nature.change!.factor);
    }
    if (day === nextVisit) {
      const stop = { day, distance, mm: mm.slice(), rates };
      if (end) return { pace: nature.pace, stops, end, found: stop };
      stops.push(stop);
      nextVisit += gap();
    }
  }
  return { pace: nature.pace, stops: [], end: { day: LONGEST_LIFE_DAYS, distance }, found: null };
}

/** One day's distance: never negative, of the right mean and scatter. */
function drive(chance: Chance, { dayToDay, season }: World, { pace, phase }: Nature, day: number): number {
  const seasonal = 1 + season * Math.sin(phase + (2 * Math.PI * day) / 365.25);
  return (pace / 1000) * seasonal * spreadAboutOne(chance, dayToDay);
}

/** Wear over a distance: never negative, of mean rate · distance and variance wander² · distance. */
function wear(chance: Chance, rate: number, wander: number, distance: number): number {
  if (wander === 0) return rate * distance;
  return rate * distance * spreadAboutOne(chance, wander / (rate * Math.sqrt(distance)));
}

/** A log-normal of mean one and a given standard deviation. */
function spreadAboutOne(chance: Chance, sd: number): number {
  const sdOfLog = Math.sqrt(Math.log1p(sd * sd));
  return chance.logNormal(Math.exp(-0.5 * sdOfLog * sdOfLog), sdOfLog);
}

function measure(chance: Chance, world: World, index: number, life: Life): SimulatedVehicle {
  const { stops, end, found, pace } = life;
  const firstDay = FIRST_DAY + chance.whole(0, 364);
  const startKm = chance.whole(5, 40);
  const visit = ({ day, distance, mm }: Stop, position: number): HistoryVisit => ({
    id: `${index}-${position}`,
    date: toFullDate(firstDay + day),
    odometer: kilometres(startKm + Math.floor(distance * 1000)),
    readings: mm.flatMap((true_, pad) => readPad(chance, world, true_, pad)),
    conditions: [],
    work: [],
    notMeasured: [],
    torques: [],
    arrival: position,
  });
  const visits = stops.map(visit);
  const truths = stops.map(({ day, distance, mm, rates }): Truth => ({
    daysLeft: end.day - day,
    distanceLeft: end.distance - distance,
    mm,
    rates,
  }));
  return {
    history: { vehicle: describe(world, index, firstDay, startKm), visits },
    found: found && visit(found, stops.length),
    truths,
    pace,
  };
}

function describe(world: World, index: number, firstDay: number, startKm: number): VehicleBody {
  return {
    externalId: `${world.name}-${index}`,
    model: MODEL,
    powertrain: world.regenerative ? 'battery-electric' : 'combustion',
    brakeSystem: { regenerative: world.regenerative },
    inService: { date: toFullDate(firstDay), odometer: { value: startKm, unit: 'km' } },
    axles: {
      front: {
        brake: 'disc',
        steered: true,
        pad: {
          new: { value: NEW_MM, unit: 'mm' },
          limit: { value: 2, unit: 'mm' },
          wearIndicator: { value: LIMIT_MM, unit: 'mm' },
        },
      },
    },
  };
}

const kilometres = (km: number) => ({ value: km, unit: 'km' as const, km });

/** Draws the same number of random values whatever they are, so that worlds stay comparable. */
function readPad(chance: Chance, world: World, trueMm: number, pad: number): HistoryVisit['readings'] {
  const misread = chance.happens(world.misreadings);
  const missed = chance.happens(world.missing);
  const anywhere = chance.between(0, MISREAD_TO_MM);
  const near = Math.max(0, chance.normal(trueMm, world.placement));
  if (missed) return [];
  const step = gaugeFor(world.gauge, 'pad-thickness').resolutionMm;
  const value = Number((Math.round((misread ? anywhere : near) / step) * step).toFixed(2));
  return [
    {
      ...POSITIONS[pad]!,
      id: `${pad}`,
      kind: 'pad-thickness',
      axle: 'front',
      at: 'thinnest',
      taken: 'as-found',
      repeat: 1,
      gauge: world.gauge,
      value,
      unit: 'mm',
      mm: value,
    },
  ];
}

/** The bar for forecasts in a world, by the number of vehicles a shop learned from; null if there is none. */
export function barOf({ bar }: World, vehicles: number): Bar | null {
  if (!bar) return null;
  if (vehicles === 0) return { covers: [68, 93] };
  if (vehicles > FEW) return bar;
  return {
    covers: [74, 92],
    againstTwoPoint: bar.againstTwoPoint! + FEW_ALLOWANCE,
    againstLine: bar.againstLine! + FEW_ALLOWANCE,
  };
}

/** A few histories cannot rule out rare events: up to this many vehicles, ratios may be this much worse. */
const FEW = 10;
const FEW_ALLOWANCE = 0.04;
