import type { Gauges } from './gauges.js';
import { entryOf } from './items.js';
import { withConversions } from './units.js';
import type { VehicleBody } from './vocabulary/vehicle.js';
import type { EntryBody, Reading, Visit, VisitBody, WorkItem } from './vocabulary/visit.js';

/** The part of a visit that the core uses; `arrival` is the order in which the service received it. */
export type HistoryVisit = Pick<
  Visit,
  | 'id'
  | 'date'
  | 'time'
  | 'odometer'
  | 'odometerReplaced'
  | 'readings'
  | 'conditions'
  | 'work'
  | 'roadTest'
  | 'notMeasured'
  | 'torques'
> & { arrival: number };

/** All records of one vehicle. `visits` is in chronological order. */
export interface History {
  vehicle: VehicleBody;
  visits: HistoryVisit[];
  /** The shop's gauges; the standard ones if missing. */
  gauges?: Gauges;
}

/** Two visits closer together than this count as one job. */
export const ONE_JOB_DAYS = 7;

/** Parts of both sides fitted within this many days count as one set (common practice, no source). */
export const ONE_SET_DAYS = 30;

type Ordered = Pick<HistoryVisit, 'date' | 'time' | 'odometer' | 'odometerReplaced' | 'arrival'>;

/** Order of a day's visits without times: on the old odometer, then unread, then on a new one. */
function rank({ odometer, odometerReplaced }: Ordered): number {
  if (odometerReplaced) return 2;
  return odometer ? 0 : 1;
}

function byOdometerThenArrival(a: Ordered, b: Ordered): number {
  const ranked = rank(a) - rank(b);
  if (ranked !== 0) return ranked;
  const difference = rank(a) === 0 && a.odometer && b.odometer ? a.odometer.km - b.odometer.km : 0;
  return difference || a.arrival - b.arrival;
}

function byTimeThenOdometer(a: Ordered, b: Ordered): number {
  if (a.time && b.time && a.time !== b.time) return a.time < b.time ? -1 : 1;
  return byOdometerThenArrival(a, b);
}

/** Whether the odometers, or a replacement, show that `a` came after `b`; equal or missing readings do not. */
function isFartherThan(a: Ordered, b: Ordered): boolean {
  if (rank(a) === 1 || rank(b) === 1) return false;
  if (rank(a) === 0 && rank(b) === 0 && a.odometer && b.odometer) return a.odometer.km > b.odometer.km;
  return rank(a) > rank(b);
}

/** Inserts a visit without a time among the day's others: within the range that its odometer allows, by arrival. */
function insert<T extends Ordered>(day: T[], visit: T): void {
  const earliest = day.findLastIndex((other) => isFartherThan(visit, other)) + 1;
  const farther = day.findIndex((other, index) => index >= earliest && isFartherThan(other, visit));
  const latest = farther < 0 ? day.length : farther;
  const arrivedLater = day.findIndex((other, index) => index >= earliest && other.arrival > visit.arrival);
  day.splice(arrivedLater < 0 ? latest : Math.min(latest, arrivedLater), 0, visit);
}

function inOrderWithinDay<T extends Ordered>(visits: readonly T[]): T[] {
  const timed = visits.filter(({ time }) => time).sort(byTimeThenOdometer);
  const untimed = visits.filter(({ time }) => !time).sort(byOdometerThenArrival);
  if (timed.length === 0) return untimed;
  for (const visit of untimed) insert(timed, visit);
  return timed;
}

/**
 * Sorts visits chronologically: by date, and within a day by time, then odometer, then arrival. A visit without a time
 * goes between the timed ones where its odometer puts it, or else where it arrived.
 */
export function inOrder<T extends Ordered>(visits: readonly T[]): T[] {
  const days = new Map<string, T[]>();
  for (const visit of visits) {
    const day = days.get(visit.date);
    if (day) day.push(visit);
    else days.set(visit.date, [visit]);
  }
  return [...days.keys()].sort().flatMap((date) => {
    const day = entryOf(days, date);
    return day.length > 1 ? inOrderWithinDay(day) : day;
  });
}

const withIds = <Item>(list: readonly object[] | null | undefined): Item[] =>
  withConversions((list ?? []).map((item) => ({ id: '', ...item }))) as Item[];

/**
 * Converts a visit that is not stored yet.
 *
 * @param arrival the order among several new visits; if missing, after all others
 */
export function asHistoryVisit(
  id: string,
  body: VisitBody,
  arrival: number = Number.MAX_SAFE_INTEGER,
): HistoryVisit {
  const { date, time, odometer, odometerReplaced, roadTest } = body;
  return {
    id,
    arrival,
    date,
    time: time ?? null,
    odometer: withConversions(odometer ?? null) as HistoryVisit['odometer'],
    odometerReplaced: withConversions(odometerReplaced ?? null) as HistoryVisit['odometerReplaced'],
    readings: withIds<Reading>(body.readings),
    work: withIds<WorkItem>(body.work),
    torques: withIds<HistoryVisit['torques'][number]>(body.torques),
    conditions: body.conditions ?? [],
    notMeasured: body.notMeasured ?? [],
    roadTest: roadTest ?? null,
  };
}

/** Adds an entry that is not stored yet to a visit. */
export function withEntry(visit: HistoryVisit, entry: EntryBody): HistoryVisit {
  return {
    ...visit,
    readings: [...visit.readings, ...withIds<Reading>(entry.readings)],
    work: [...visit.work, ...withIds<WorkItem>(entry.work)],
    torques: [...visit.torques, ...withIds<HistoryVisit['torques'][number]>(entry.torques)],
    conditions: [...visit.conditions, ...(entry.conditions ?? [])],
    notMeasured: [...visit.notMeasured, ...(entry.notMeasured ?? [])],
    roadTest: entry.roadTest ?? visit.roadTest,
  };
}
