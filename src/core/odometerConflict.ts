import type { History, HistoryVisit } from './history.js';
import { itemAt } from './items.js';
import {
  CLEAR_DOUBT,
  doubtedReadings,
  isRising,
  kmIfInMiles,
  withoutDoubted,
  type DoubtedReading,
  type OdometerField,
} from './odometerDoubt.js';
import { inWords } from './rounding.js';
import { toKm } from './units.js';
import type { VehicleBody } from './vocabulary/vehicle.js';

/** Odometer readings that contradict each other. */

/** What is wrong with a visit's odometer, and the visit it conflicts with. */
export interface OdometerConflict {
  field: OdometerField;
  detail: string;
  visitId: string | null;
}

/**
 * Checks that the odometer does not run backwards between two replacements. A reading that is clearly wrong does not
 * count against the others, so that the next true reading is accepted.
 *
 * @param visits in chronological order
 * @param isRecorded whether the visit was already accepted, so that it may itself be the wrong one
 * @returns the conflict caused by the visit with `visitId`, or null
 */
export function odometerConflict(
  history: History,
  visitId: string,
  isRecorded = false,
): OdometerConflict | null {
  if (isRising(history)) return null;
  return conflictWith(history, clearlyDoubted(history), visitId, isRecorded);
}

const clearlyDoubted = (history: History): DoubtedReading[] =>
  doubtedReadings(history).filter(({ margin }) => margin >= CLEAR_DOUBT);

/**
 * Checks a visit first against itself, then against earlier visits, then against later ones; the order matters. Skips
 * the later ones if the reading is recorded and doubted.
 */
function conflictWith(
  history: History,
  doubted: readonly DoubtedReading[],
  visitId: string,
  isRecorded: boolean,
): OdometerConflict | null {
  const position = history.visits.findIndex(({ id }) => id === visitId);
  const others = doubted.filter((each) => each.visitId !== visitId);
  const { visits } = withoutDoubted(history, others);
  const visit = itemAt(history.visits, position);
  const isDoubted = isRecorded && doubted.some((each) => each.visitId === visitId);
  return (
    belowOwnStart(visit) ??
    belowEarlier(visit, latestReadingBefore(visits, position)) ??
    belowInService(visit, visits.slice(0, position), history.vehicle) ??
    (isDoubted ? null : aboveLater(visit, earliestReadingAfter(visits, position)))
  );
}

function belowOwnStart({ odometer, odometerReplaced }: HistoryVisit): OdometerConflict | null {
  const start = odometerReplaced?.newStart;
  if (!odometer || !start || odometer.km >= start.km) return null;
  const detail = `${sayKm(odometer.km)} is below the ${sayKm(start.km)} at which the new odometer started`;
  return { field: 'odometer', detail, visitId: null };
}

/** The reading of the odometer that was fitted until the visit: its own, or the final one if it was replaced. */
function readingUntil({
  odometer,
  odometerReplaced,
}: HistoryVisit): { field: OdometerField; km: number } | null {
  if (!odometerReplaced) return odometer ? { field: 'odometer', km: odometer.km } : null;
  const { oldFinal } = odometerReplaced;
  return oldFinal ? { field: 'odometerReplaced/oldFinal', km: oldFinal.km } : null;
}

function belowEarlier(visit: HistoryVisit, earlier: Shown | null): OdometerConflict | null {
  const reading = readingUntil(visit);
  if (!reading || !earlier || reading.km >= earlier.km) return null;
  const below = `${sayKm(reading.km)} is below the ${sayKm(earlier.km)} of the earlier visit ${earlier.visitId} on ${earlier.date}`;
  const help =
    'if that reading is wrong, correct that visit first; if the odometer was replaced, record that with this visit';
  const detail = `${below}; ${help}${unlessInMiles(visit, earlier)}`;
  return { field: reading.field, detail, visitId: earlier.visitId };
}

/** Says what to do if the figure was read in miles, provided that this would resolve the conflict. */
function unlessInMiles(visit: HistoryVisit, earlier: Shown): string {
  const meantKm = kmIfInMiles(visit);
  return meantKm === null || meantKm < earlier.km
    ? ''
    : `; if it shows miles, send the unit mi (${sayKm(meantKm)})`;
}

/** Applies until the first replacement of the odometer. */
function belowInService(
  visit: HistoryVisit,
  before: readonly HistoryVisit[],
  { inService }: VehicleBody,
): OdometerConflict | null {
  const reading = readingUntil(visit);
  if (!reading || !inService?.odometer || before.some((other) => other.odometerReplaced)) return null;
  const startKm = toKm(inService.odometer);
  if (reading.km >= startKm) return null;
  const detail = `${sayKm(reading.km)} is below the ${sayKm(startKm)} at which the vehicle went into service`;
  return { field: reading.field, detail, visitId: null };
}

function aboveLater(
  { odometer, odometerReplaced }: HistoryVisit,
  later: Shown | null,
): OdometerConflict | null {
  const km = odometer?.km ?? odometerReplaced?.newStart?.km;
  if (km === undefined || !later || km <= later.km) return null;
  const detail = `${sayKm(km)} is above the ${sayKm(later.km)} of the later visit ${later.visitId} on ${later.date}`;
  return { field: odometer ? 'odometer' : 'odometerReplaced/newStart', detail, visitId: later.visitId };
}

const sayKm = (km: number): string => `${inWords(km, 1)} km`;

/**
 * The latest recorded visit whose odometer conflicts with the others; null if none does.
 *
 * @param before the history before a change, which must not turn a believed reading into a doubted one
 */
export function conflictIn(
  history: History,
  before = history,
): { visit: HistoryVisit; conflict: OdometerConflict } | null {
  if (isRising(history)) return null;
  const doubtedBefore = new Set(doubtedReadings(before).map(({ visitId }) => visitId));
  const isNew = (visitId: string): boolean => !before.visits.some(({ id }) => id === visitId);
  const doubted = clearlyDoubted(history).filter(
    ({ visitId }) => doubtedBefore.has(visitId) || isNew(visitId),
  );
  for (const visit of [...history.visits].reverse()) {
    const conflict = conflictWith(history, doubted, visit.id, true);
    if (conflict) return { visit, conflict };
  }
  return null;
}

interface Shown {
  km: number;
  visitId: string;
  date: string;
}

/** The last reading before a visit, on the odometer fitted until then. */
function latestReadingBefore(visits: readonly HistoryVisit[], position: number): Shown | null {
  for (const visit of visits.slice(0, position).reverse()) {
    const km = visit.odometer?.km ?? visit.odometerReplaced?.newStart?.km;
    if (km !== undefined) return { km, visitId: visit.id, date: visit.date };
    if (visit.odometerReplaced) return null;
  }
  return null;
}

/** The first reading after a visit, on the odometer fitted from then. */
function earliestReadingAfter(visits: readonly HistoryVisit[], position: number): Shown | null {
  for (const visit of visits.slice(position + 1)) {
    const { odometerReplaced: replaced } = visit;
    const km = replaced ? replaced.oldFinal?.km : visit.odometer?.km;
    if (km !== undefined) return { km, visitId: visit.id, date: visit.date };
    if (replaced) return null;
  }
  return null;
}
