import type { Gauges } from './gauges.js';
import type { VehicleBody } from './vocabulary/vehicle.js';
import type { Visit } from './vocabulary/visit.js';

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
