import type { Gauges } from './gauges.js';
import { withConversions } from './units.js';
import type { VehicleBody } from './vocabulary/vehicle.js';
import type { EntryBody, Reading, Visit, VisitBody, WorkItem } from './vocabulary/visit.js';

/** A visit as the core sees it; `arrival` is the order in which the service was told. */
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

/** Everything known of one vehicle. `visits` is in the order in which they took place. */
export interface History {
  vehicle: VehicleBody;
  visits: HistoryVisit[];
  /** The shop's gauges; the standard ones where they are missing. */
  gauges?: Gauges;
}

type Ordered = Pick<HistoryVisit, 'date' | 'time' | 'odometer' | 'odometerReplaced' | 'arrival'>;

/** Where a visit stands among a day's that no time orders: on the old odometer, then unread, then on a new one. */
function rank({ odometer, odometerReplaced }: Ordered): number {
  if (odometerReplaced) return 2;
  return odometer ? 0 : 1;
}

function byOdometerThenArrival(a: Ordered, b: Ordered): number {
  const ranked = rank(a) - rank(b);
  if (ranked !== 0) return ranked;
  const difference = rank(a) === 0 ? a.odometer!.km - b.odometer!.km : 0;
  return difference || a.arrival - b.arrival;
}

/**
 * Visits in the order in which they took place: by date; one day's by time, then odometer, then arrival. Where one
 * of a day's visits has no time the day's times cannot order them, and the odometer does.
 */
export function inOrder<T extends Ordered>(visits: readonly T[]): T[] {
  const untimedDates = new Set(visits.filter((visit) => !visit.time).map((visit) => visit.date));
  return [...visits].sort((a, b) => {
    if (a.date !== b.date) return a.date < b.date ? -1 : 1;
    if (!untimedDates.has(a.date) && a.time !== b.time) return a.time! < b.time! ? -1 : 1;
    return byOdometerThenArrival(a, b);
  });
}

const withIds = <Item>(list: readonly object[] | null | undefined): Item[] =>
  withConversions((list ?? []).map((item) => ({ id: '', ...item }))) as Item[];

/**
 * A visit that is not stored yet, as the core sees it.
 *
 * @param arrival where several are to come, their order; one that is missing arrives after all others
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

/** A visit with what an entry adds to it, before that is stored. */
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
