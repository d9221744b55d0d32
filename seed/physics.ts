import { toFullDate } from '../src/core/calendar.js';
import { toMm } from '../src/core/units.js';
import { PADS, SIDES, type Axle, type Pad, type Side } from '../src/core/vocabulary/terms.js';
import type { Chance } from './random.js';
import type { AxleInput, Model, Season } from './setting.js';

/**
 * The hidden truth behind the readings: how far each vehicle really drives and how its brakes really wear. The spreads
 * are typical of the trade; the service never sees any of this.
 */
const SPREAD = {
  /** Standard deviations of the log over the vehicles of a model. */
  usage: 0.25,
  padWear: 0.35,
  rotorWear: 0.2,
  /** Of the log of one day's distance, so that 30 days vary by a quarter or so. */
  day: 1.0,
  /** Pad to pad, relative. */
  pad: 0.13,
  /** Of a new pad's thickness, mm. */
  newPadMm: 0.12,
  /** Wander of a pad's thickness, mm per square root of 1000 km. */
  wanderMm: 0.03,
} as const;
/** Inner pads are next to the piston and wear a little faster; one on a sticking slide wears much faster. */
const INNER_RATIO = 1.05;
const STICKING_RATIO = 1.6;
/** Thickness variation a rotor gains, mm per 1000 km. */
const UNEVENNESS_GAIN = 0.0001;

export interface PadTruth {
  side: Side;
  pad: Pad;
  mm: number;
  /** Its rate relative to the axle's. */
  pace: number;
  sticking: boolean;
}

export interface RotorTruth {
  side: Side;
  /** At its thinnest point. */
  mm: number;
  /** Thickest point less thinnest, mm. */
  unevenMm: number;
  runoutMm: number;
}

/** The true state of a disc axle. It changes as the vehicle drives and is repaired. */
export interface AxleTruth {
  axle: Axle;
  spec: AxleInput;
  padWear: number;
  rotorWear: number;
  pads: PadTruth[];
  rotors: RotorTruth[];
}

/** [from, to) as MM-DD, and the share of the usual distance; 1 for the rest of the year. */
const SEASONS: Record<Season, readonly (readonly [string, string, number])[]> = {
  even: [['12-24', '12-27', 0.4]],
  parcels: [
    ['06-15', '08-15', 0.85],
    ['11-10', '12-24', 1.35],
  ],
  school: [
    ['01-01', '01-07', 0],
    ['04-01', '04-16', 0.05],
    ['07-10', '09-01', 0.03],
    ['10-20', '10-28', 0.05],
    ['12-20', '12-32', 0],
  ],
  summer: [
    ['01-01', '03-20', 0],
    ['06-15', '09-05', 2],
    ['10-25', '12-32', 0],
  ],
};

function seasonShare(season: Season, day: number): number {
  const monthDay = toFullDate(day).slice(5);
  return SEASONS[season].find(([from, to]) => monthDay >= from && monthDay < to)?.[2] ?? 1;
}

export interface Usage {
  kmPerDay: number;
  season: Season;
  /** Days during which the vehicle does not move, excluding the last. */
  parked: { from: number; to: number } | null;
}

export function drawUsage(chance: Chance, model: Model, parked: Usage['parked']): Usage {
  return { kmPerDay: chance.logNormal(model.kmPerDay, SPREAD.usage), season: model.season, parked };
}

/** Distance driven from `startDay` to each of `days` (rising), km. */
export function distances(chance: Chance, usage: Usage, startDay: number, days: readonly number[]): number[] {
  let km = 0;
  let day = startDay;
  return days.map((visitDay) => {
    for (; day < visitDay; day += 1) km += kmOn(chance, usage, day);
    return km;
  });
}

function kmOn(chance: Chance, { kmPerDay, season, parked }: Usage, day: number): number {
  const meanOne = chance.logNormal(Math.exp(-(SPREAD.day ** 2) / 2), SPREAD.day);
  const isParked = parked !== null && day >= parked.from && day < parked.to;
  return isParked ? 0 : kmPerDay * seasonShare(season, day) * meanOne;
}

const newPadMm = (spec: AxleInput): number => toMm(spec.pad!.new!);
const newRotorMm = (spec: AxleInput): number => toMm(spec.rotor!.new!);
export const limitMm = (spec: AxleInput): number => toMm(spec.pad!.limit!);
export const discardMm = (spec: AxleInput): number => toMm(spec.rotor!.discard!);

/** The disc axles of a vehicle with new parts, or with parts worn by an unknown distance. */
export function drawAxles(chance: Chance, model: Model, worn: boolean): AxleTruth[] {
  return (Object.entries(model.axles) as [Axle, AxleInput][])
    .filter(([, spec]) => spec.brake === 'disc')
    .map(([axle, spec]) => drawAxle(chance, model, axle, spec, worn));
}

function drawAxle(chance: Chance, model: Model, axle: Axle, spec: AxleInput, worn: boolean): AxleTruth {
  const truth: AxleTruth = {
    axle,
    spec,
    padWear: chance.logNormal(model.padWear[axle]!, SPREAD.padWear),
    rotorWear: chance.logNormal(model.rotorWear, SPREAD.rotorWear),
    pads: [],
    rotors: [],
  };
  fitRotors(chance, truth);
  fitPads(chance, truth, newPadMm(spec));
  if (worn) {
    const share = chance.between(0.2, 0.5);
    for (const pad of truth.pads) pad.mm -= share * pad.pace * (newPadMm(spec) - limitMm(spec));
    for (const rotor of truth.rotors) rotor.mm -= share * 0.5 * (newRotorMm(spec) - discardMm(spec));
  }
  return truth;
}

/** Fits a new set of pads; a slide that sticks still sticks. */
export function fitPads(chance: Chance, truth: AxleTruth, newMm: number): void {
  const sticking = truth.pads.find((pad) => pad.sticking);
  truth.pads = SIDES.flatMap((side) =>
    PADS.map((pad) => ({
      side,
      pad,
      mm: chance.normal(newMm, SPREAD.newPadMm),
      pace: (pad === 'inner' ? INNER_RATIO : 1) * Math.max(0.6, chance.normal(1, SPREAD.pad)),
      sticking: false,
    })),
  );
  if (sticking) stickSlide(truth, sticking.side);
}

/** The inner pad of one side no longer releases the rotor. */
export function stickSlide(truth: AxleTruth, side: Side): void {
  const stuck = truth.pads.find((pad) => pad.side === side && pad.pad === 'inner')!;
  const others = truth.pads.filter((pad) => pad !== stuck);
  stuck.pace = (STICKING_RATIO * others.reduce((sum, pad) => sum + pad.pace, 0)) / others.length;
  stuck.sticking = true;
}

export function fitRotors(chance: Chance, truth: AxleTruth): void {
  truth.rotors = SIDES.map((side) => ({
    side,
    mm: newRotorMm(truth.spec) + chance.between(-0.02, 0.02),
    unevenMm: chance.between(0.002, 0.008),
    runoutMm: chance.logNormal(0.45 * toMm(truth.spec.rotor!.runoutLimit!), 0.4),
  }));
}

/** Machined just enough to be even again. */
export function machineRotors(chance: Chance, truth: AxleTruth): void {
  for (const rotor of truth.rotors) {
    rotor.mm -= chance.between(0.2, 0.3);
    rotor.unevenMm = chance.between(0.001, 0.004);
    rotor.runoutMm = chance.between(0.01, 0.03);
  }
}

/** Wear never adds material: wander makes it faster or slower. */
export function wear(chance: Chance, truth: AxleTruth, km: number): void {
  const distance = km / 1000;
  for (const pad of truth.pads) {
    const wander = chance.normal(0, SPREAD.wanderMm * Math.sqrt(distance));
    pad.mm = Math.max(0.2, pad.mm - Math.max(0, truth.padWear * pad.pace * distance + wander));
  }
  for (const rotor of truth.rotors) {
    rotor.mm -= truth.rotorWear * distance;
    rotor.unevenMm += UNEVENNESS_GAIN * distance;
  }
}

/** Sets the axle's rate so that its thinnest pad is `endMm` after `km`, ignoring wander. */
export function paceToEndAt(truth: AxleTruth, endMm: number, km: number): void {
  truth.padWear = Math.min(...truth.pads.map((pad) => (pad.mm - endMm) / (pad.pace * (km / 1000))));
}

/** Thickness at `point` of `points` around the rotor: one thick and one thin place per turn. */
export function rotorAt(rotor: RotorTruth, point: number, points: number): number {
  return rotor.mm + (rotor.unevenMm / 2) * (1 + Math.cos((2 * Math.PI * point) / points));
}
