import { pairs } from 'd3-array';
import { toDay } from './calendar.js';
import type { History, HistoryVisit } from './history.js';
import { itemAt, required } from './items.js';
import { toKm } from './units.js';

/**
 * Finds odometer readings that are probably wrong: with a digit too many, in miles instead of kilometres, or another
 * vehicle's. Dynamic programming finds the most likely chain of believed readings; a reading outside it is doubted. An
 * odometer never runs backwards, and a vehicle seldom drives several times as far a day as it used to.
 */

export type OdometerField = 'odometer' | 'odometerReplaced/oldFinal' | 'odometerReplaced/newStart';

export interface DoubtedReading {
  visitId: string;
  date: string;
  field: OdometerField;
  km: number;
  /** Log likelihood ratio of the readings without it to those with it, ignoring any slip that would explain it. */
  margin: number;
  /** What it would imply if it were right: the mean daily distance since the previous believed reading. */
  kmPerDay: number | null;
  since: { date: string; km: number } | null;
  /** Daily distance between believed readings; `null` if there are fewer than two. */
  usualKmPerDay: number | null;
  /** A likely slip that explains it, and the reading that was meant. */
  slip: { kind: Slip; km: number } | null;
  /** Whether a later reading of the same odometer is believed. */
  isSettled: boolean;
}

export type Slip = 'miles-for-km' | 'km-for-miles' | 'digit-too-many' | 'digit-missing';

/**
 * One reading of one odometer. `isFixed`: never doubted. `hasOddUnit`: most other readings of the vehicle have the
 * other unit.
 */
interface OdometerReading {
  day: number;
  date: string;
  km: number;
  visitId: string | null;
  field: OdometerField;
  unit: 'km' | 'mi';
  isFixed: boolean;
  hasOddUnit: boolean;
}

/** Minimum margin at which a later reading may contradict the doubted one: odds of 20 to 1. */
export const CLEAR_DOUBT = 3;

/** Minimum margin for doubt: odds of 2.7 to 1. */
const MIN_DOUBT = 1;

/* Weights of the readings. Common practice, no source. */
/** Median of daily distances of vehicles, km, and standard deviation of their logarithm. */
const TYPICAL_PACE = 40;
const PACE_SD = 0.9;
/** Standard deviation of the log pace of one vehicle from stretch to stretch, in ordinary and in changed use. */
const STRETCH_SD = 0.35;
const CHANGED_SD = 0.8;
const CHANGED_CHANCE = 0.03;
/** The same if the level comes from a single stretch, which may itself be the wrong one. */
const SINGLE_SD = 0.6;
/** Chance that a stretch is slower than usual by any factor, such as during a standstill. */
const SLOWER_CHANCE = 0.15;
/** Days added to every stretch, since a single day or trip is little evidence of the pace. */
const SLACK_DAYS = 7;
/** Chance that a reading is wrong, and the range it may then fall in, km. */
const WRONG_CHANCE = 0.005;
const WRONG_RANGE = 300_000;
/**
 * Chance of a digit too many or too few, and of the wrong unit; the latter is higher if most other readings have the
 * other unit.
 */
const DIGIT_CHANCE = 0.0003;
const UNIT_CHANCE = 0.003;
const ODD_UNIT_CHANCE = 0.1;
/** Chance that a reading in an odd unit is wrong, whatever was meant. */
const ODD_WRONG_CHANCE = 0.02;
/** Median of a first reading, km, and standard deviation of its logarithm. */
const FIRST_KM = 60_000;
const FIRST_SD = 1.3;
/** Maximum consecutive readings doubted. */
const MAX_SKIPPED = 4;
/** If the paces of all stretches are within this factor, the readings are not examined further. */
const ORDINARY_RATIO = 2.5;

export const KM_PER_MILE = toKm({ value: 1, unit: 'mi' });

/** What a reading entered in kilometres would be if the odometer shows miles, km; null for any other. */
export const kmIfInMiles = ({
  odometer,
  odometerReplaced,
}: Pick<HistoryVisit, 'odometer' | 'odometerReplaced'>): number | null =>
  odometer?.unit === 'km' && !odometerReplaced ? odometer.value * KM_PER_MILE : null;

/** Log likelihood of skipping a reading as wrong. */
const skipCost = ({ isFixed, hasOddUnit }: OdometerReading): number =>
  isFixed ? -Infinity : Math.log((hasOddUnit ? ODD_WRONG_CHANCE : WRONG_CHANCE) / WRONG_RANGE);

/** The odometer readings of a history that are probably wrong, by visit. */
export function doubtedReadings(history: History): DoubtedReading[] {
  return segmentsOf(history).flatMap((segment) => (isOrdinary(segment) ? [] : doubtedIn(segment)));
}

/** Whether no reading is below an earlier one of the same odometer; such readings cannot conflict, doubted or not. */
export const isRising = (history: History): boolean =>
  segmentsOf(history).every((readings) => pairs(readings).every(([from, to]) => to.km >= from.km));

/** The readings of each of the vehicle's odometers. */
function segmentsOf({ vehicle: { inService }, visits }: History): OdometerReading[][] {
  let segment: OdometerReading[] = [];
  const segments = [segment];
  if (inService?.odometer) {
    segment.push({
      day: toDay(inService.date),
      date: inService.date,
      km: toKm(inService.odometer),
      visitId: null,
      field: 'odometer',
      unit: inService.odometer.unit,
      isFixed: true,
      hasOddUnit: false,
    });
  }
  for (const visit of visits) {
    const { odometer, odometerReplaced: replaced } = visit;
    if (replaced) {
      if (replaced.oldFinal) segment.push(readingOf(visit, 'odometerReplaced/oldFinal', replaced.oldFinal));
      segment = [];
      segments.push(segment);
      if (replaced.newStart) segment.push(readingOf(visit, 'odometerReplaced/newStart', replaced.newStart));
    }
    if (odometer) segment.push(readingOf(visit, 'odometer', odometer));
  }
  const all = segments.flat();
  const inMiles = all.filter(({ unit }) => unit === 'mi').length;
  for (const reading of all) {
    const alike = reading.unit === 'mi' ? inMiles : all.length - inMiles;
    reading.hasOddUnit = 2 * alike < all.length;
  }
  return segments;
}

const readingOf = (
  { id, date }: HistoryVisit,
  field: OdometerField,
  { km, unit }: { km: number; unit: 'km' | 'mi' },
): OdometerReading => ({
  day: toDay(date),
  date,
  km,
  visitId: id,
  field,
  unit,
  isFixed: false,
  hasOddUnit: false,
});

/** Whether the paces are so similar and ordinary that no reading can be in doubt. */
function isOrdinary(readings: readonly OdometerReading[]): boolean {
  if (readings.length < 2) return true;
  let slowest = Infinity;
  let fastest = 0;
  for (const [from, to] of pairs(readings)) {
    if (to.km < from.km) return false;
    const pace = (to.km - from.km) / (to.day - from.day + SLACK_DAYS);
    slowest = Math.min(slowest, pace);
    fastest = Math.max(fastest, pace);
  }
  const isTypical = fastest < TYPICAL_PACE * ORDINARY_RATIO;
  return isTypical || (fastest < ORDINARY_RATIO * slowest && fastest < TYPICAL_PACE * Math.exp(2 * PACE_SD));
}

/** A possible intended value of a reading. */
interface Meant {
  km: number;
  cost: number;
  slip: Slip | null;
}

/** The reading as sent, and what may have been meant instead. */
function meantBy(
  { km, unit, isFixed, hasOddUnit }: OdometerReading,
  withSlips: boolean,
): [asRead: Meant, ...slips: Meant[]] {
  const asRead: Meant = { km, cost: 0, slip: null };
  if (isFixed || !withSlips) return [asRead];
  const unitCost = Math.log(hasOddUnit ? ODD_UNIT_CHANCE : UNIT_CHANCE);
  const unitSlip: Meant =
    unit === 'mi'
      ? { km: km / KM_PER_MILE, cost: unitCost, slip: 'km-for-miles' }
      : { km: km * KM_PER_MILE, cost: unitCost, slip: 'miles-for-km' };
  return [
    asRead,
    unitSlip,
    { km: km / 10, cost: Math.log(DIGIT_CHANCE), slip: 'digit-too-many' },
    { km: km * 10, cost: Math.log(DIGIT_CHANCE), slip: 'digit-missing' },
  ];
}

/** A vehicle's mean daily distance, km, and the standard deviation of its logarithm. */
interface Level {
  pace: number;
  logPace: number;
  sd: number;
}

/** Log density, per km, of a distance between two believed readings. */
function logDriven(km: number, days: number, { pace, logPace, sd }: Level): number {
  if (km < 0) return -Infinity;
  const slack = days + SLACK_DAYS;
  const distance = Math.max(1, km);
  const off = Math.log(distance / slack) - logPace;
  const usual = pace * slack;
  const normal = (width: number): number => Math.exp(-0.5 * (off / width) ** 2) / (width * distance * 2.5066);
  const slower = off < 0 ? SLOWER_CHANCE / usual : 0;
  const ordinary = (1 - SLOWER_CHANCE - CHANGED_CHANCE) * normal(sd);
  return Math.log(ordinary + CHANGED_CHANCE * normal(Math.max(sd, CHANGED_SD)) + slower);
}

function logFirst(km: number): number {
  const distance = Math.max(1, km);
  const off = Math.log(distance / FIRST_KM) / FIRST_SD;
  return -0.5 * off * off - Math.log(FIRST_SD * (distance + FIRST_KM / 10));
}

/** The most likely chain of believed readings. */
interface Chain {
  places: Place[];
  /** The value believed of each reading; null if the reading is skipped. */
  believed: (Meant | null)[];
  /** Log likelihood. */
  best: number;
}

/** A possible value of a reading, with the best chains that lead to it and on from it. */
interface Way extends Meant {
  index: number;
  forward: number;
  backward: number;
  before: Way | null;
}

interface Place {
  reading: OdometerReading;
  asRead: Way;
  ways: Way[];
}

function placeOf(reading: OdometerReading, index: number, withSlips: boolean): Place {
  const wayOf = (meant: Meant): Way => ({
    ...meant,
    index,
    forward: -Infinity,
    backward: -Infinity,
    before: null,
  });
  const [asRead, ...slips] = meantBy(reading, withSlips);
  const first = wayOf(asRead);
  return { reading, asRead: first, ways: [first, ...slips.map(wayOf)] };
}

function bestChain(readings: readonly OdometerReading[], level: Level, withSlips: boolean): Chain {
  const places = readings.map((reading, index) => placeOf(reading, index, withSlips));
  goForward(places, level);
  const { end, best } = endOf(places);
  const believed = places.map((): Meant | null => null);
  for (let at = end; at; at = at.before) believed[at.index] = at;
  return { places, believed, best };
}

/** Finds the best chain that leads to each value. */
function goForward(places: readonly Place[], level: Level): void {
  for (const [index, place] of places.entries()) {
    for (const way of place.ways) {
      const asFirst = place.reading.visitId === null ? 0 : logFirst(way.km);
      way.forward = index <= MAX_SKIPPED ? skips(places, 0, index) + asFirst : -Infinity;
    }
    let skipped = 0;
    for (let before = index - 1; before >= Math.max(0, index - 1 - MAX_SKIPPED); before--) {
      takeFrom(itemAt(places, before), place, skipped, level);
      skipped += skipCost(itemAt(places, before).reading);
    }
    for (const way of place.ways) way.forward += way.cost;
  }
}

/** Continues the best chains that lead to an earlier reading, where that is better. */
function takeFrom(from: Place, to: Place, skipped: number, level: Level): void {
  const days = to.reading.day - from.reading.day;
  for (const way of to.ways) {
    for (const other of from.ways) {
      const value = other.forward + skipped + logDriven(way.km - other.km, days, level);
      if (value > way.forward) {
        way.forward = value;
        way.before = other;
      }
    }
  }
}

/** Finds the best chain that leads on from each value. */
function goBackward(places: readonly Place[], level: Level): void {
  const last = places.length - 1;
  for (let index = last; index >= 0; index--) {
    const { reading, ways } = itemAt(places, index);
    for (const way of ways) {
      let best = last - index <= MAX_SKIPPED ? skips(places, index + 1, places.length) : -Infinity;
      let skipped = 0;
      for (const to of places.slice(index + 1, index + 2 + MAX_SKIPPED)) {
        const days = to.reading.day - reading.day;
        for (const other of to.ways) {
          const value = other.backward + other.cost + skipped + logDriven(other.km - way.km, days, level);
          if (value > best) best = value;
        }
        skipped += skipCost(to.reading);
      }
      way.backward = best;
    }
  }
}

/** Log likelihood of skipping the readings from one place until another. */
function skips(places: readonly Place[], from: number, to: number): number {
  let sum = 0;
  for (let index = from; index < to; index++) sum += skipCost(itemAt(places, index).reading);
  return sum;
}

/** The end of the best chain, which may skip the last few readings. */
function endOf(places: readonly Place[]): { end: Way | null; best: number } {
  let end = places[0]?.asRead ?? null;
  let best = -Infinity;
  for (const [index, { ways }] of places.entries()) {
    if (places.length - 1 - index > MAX_SKIPPED) continue;
    for (const way of ways) {
      const whole = way.forward + skips(places, index + 1, places.length);
      if (whole > best) {
        best = whole;
        end = way;
      }
    }
  }
  return { end, best };
}

/** The vehicle's own level, from the stretches between readings believed as sent. */
function levelOf({ places, believed }: Chain): Level | null {
  const asSent = places.filter((_, index) => believed[index]?.slip === null);
  const stretches = pairs(asSent, ({ reading: from }, { reading: to }) => ({
    days: to.day - from.day,
    km: to.km - from.km,
  }));
  const days = stretches.reduce((sum, stretch) => sum + stretch.days, 0);
  if (days < 2 * SLACK_DAYS) return null;
  const paces = stretches
    .map((stretch) => ({ days: stretch.days, pace: Math.max(1, stretch.km) / (stretch.days + SLACK_DAYS) }))
    .sort((a, b) => a.pace - b.pace);
  let left = days / 2;
  const middle = required(
    paces.find((each) => (left -= each.days) <= 0),
    'stretch half way through the days',
  );
  return levelAt(middle.pace, stretches.length > 1 ? STRETCH_SD : SINGLE_SD);
}

const levelAt = (pace: number, sd: number): Level => ({ pace, logPace: Math.log(pace), sd });

const CLASS_LEVEL = levelAt(TYPICAL_PACE, PACE_SD);

/** The best chain at the vehicle's own level, with that level's prior probability. */
function settledChain(readings: readonly OdometerReading[], withSlips: boolean): Chain {
  const level = levelOf(bestChain(readings, CLASS_LEVEL, false)) ?? CLASS_LEVEL;
  const chain = bestChain(readings, level, withSlips);
  const off = (level.logPace - CLASS_LEVEL.logPace) / PACE_SD;
  return { ...chain, best: chain.best - 0.5 * off * off };
}

/** Log likelihood ratio of the readings without one of them to those with it. */
function marginAgainst(readings: readonly OdometerReading[], index: number): number {
  const kept = readings.map((reading, other) => (other === index ? { ...reading, isFixed: true } : reading));
  return settledChain(readings, false).best - settledChain(kept, false).best;
}

function doubtedIn(readings: readonly OdometerReading[]): DoubtedReading[] {
  const level = levelOf(bestChain(readings, CLASS_LEVEL, false)) ?? CLASS_LEVEL;
  const chain = bestChain(readings, level, true);
  const { places, believed, best } = chain;
  if (believed.every((means) => means?.slip === null)) return [];
  goBackward(places, level);
  const usual = levelOf(chain);
  const isBelieved = places.map(
    ({ asRead }, index) =>
      believed[index]?.slip === null || best - (asRead.forward + asRead.backward) < MIN_DOUBT,
  );
  return readings.flatMap((reading, index): DoubtedReading[] => {
    const { visitId, date, field, km } = reading;
    const means = itemAt(believed, index);
    const before = readings.filter((_, other) => other < index && isBelieved[other]);
    if (isBelieved[index] || visitId === null || (!means && continuesPace(before, reading))) return [];
    const since = before.at(-1);
    const days = since ? reading.day - since.day : 0;
    return [
      {
        visitId,
        date,
        field,
        km,
        margin: marginAgainst(readings, index),
        kmPerDay: since && days > 0 ? (km - since.km) / days : null,
        since: since ? { date: since.date, km: since.km } : null,
        usualKmPerDay: usual?.pace ?? null,
        slip: means?.slip ? { kind: means.slip, km: means.km } : null,
        isSettled: readings.some((_, other) => other > index && isBelieved[other]),
      },
    ];
  });
}

/** Maximum log difference at which two paces count as the same; a changed pace that continues is not doubtful. */
const SAME_PACE = 0.5;

/** Whether a reading continues the pace of the last stretch before it. */
function continuesPace(before: readonly OdometerReading[], reading: OdometerReading): boolean {
  const [from, to] = before.slice(-2);
  if (!from || !to) return false;
  const paceOf = (start: OdometerReading, end: OdometerReading): number =>
    Math.max(1, end.km - start.km) / (end.day - start.day + SLACK_DAYS);
  return Math.abs(Math.log(paceOf(to, reading) / paceOf(from, to))) < SAME_PACE;
}

/** A history without the doubted odometer readings. */
export function withoutDoubted(history: History, doubted: readonly DoubtedReading[]): History {
  if (doubted.length === 0) return history;
  const isDoubted = (visitId: string, field: OdometerField): boolean =>
    doubted.some((each) => each.visitId === visitId && each.field === field);
  return {
    ...history,
    visits: history.visits.map((visit) => {
      const { id, odometer, odometerReplaced: replaced } = visit;
      return {
        ...visit,
        odometer: isDoubted(id, 'odometer') ? null : odometer,
        odometerReplaced: replaced && {
          oldFinal: isDoubted(id, 'odometerReplaced/oldFinal') ? null : replaced.oldFinal,
          newStart: replaced.newStart,
        },
      };
    }),
  };
}
