import { toDay } from './calendar.js';
import type { History, HistoryVisit } from './history.js';
import {
  CLEAR_DOUBT,
  doubtedReadings,
  withoutDoubted,
  type DoubtedReading,
  type OdometerField,
} from './odometerDoubt.js';
import { inWords } from './rounding.js';
import { toKm } from './units.js';

/** Daily distance assumed for a vehicle with unknown use: the median of the starting values. */
export const TYPICAL_KM_PER_DAY = 40;
/** Relative standard deviation of a distance estimated from dates alone. */
const ESTIMATE_SHARE = 0.3;

/** A visit's position on the vehicle's road, counted on through odometer replacements. */
export interface Place {
  /** Distance since the vehicle's first known odometer reading, km. */
  km: number;
  /** Standard deviation of `km`; 0 if the odometer was read. */
  sdKm: number;
}

/** A stretch between two days on which the odometer was read. */
export interface Stretch {
  fromDay: number;
  toDay: number;
  km: number;
}

export interface Road {
  /** One per visit, in order. */
  places: Place[];
  inService: Place | null;
  stretches: Stretch[];
  /** Readings that are probably wrong; their visits are placed by date. */
  doubted: DoubtedReading[];
  /**
   * Whether positions are distances. If visits are on several days but the odometer was read on fewer than two of them,
   * positions are days, each counted as the typical distance.
   */
  isByDistance: boolean;
}

interface Mark {
  day: number;
  km: number | null;
  replaced: { oldFinalKm: number | null; newStartKm: number | null } | null;
}

/** A mark with an odometer reading. `hidden`: an unknown distance was driven since the previous one. */
interface Known {
  index: number;
  day: number;
  km: number;
  hidden: boolean;
}

function markOf(visit: Pick<HistoryVisit, 'date' | 'odometer' | 'odometerReplaced'>): Mark {
  const replaced = visit.odometerReplaced
    ? {
        oldFinalKm: visit.odometerReplaced.oldFinal?.km ?? null,
        newStartKm: visit.odometerReplaced.newStart?.km ?? null,
      }
    : null;
  return { day: toDay(visit.date), km: visit.odometer?.km ?? replaced?.newStartKm ?? null, replaced };
}

/**
 * Joins a history's odometer readings into one road. A visit without a believed reading is placed by its date: between
 * its neighbours, or beyond them at the vehicle's mean pace. So is the distance hidden by a replaced odometer whose
 * last reading is unknown.
 */
export function layRoad(history: History): Road {
  const doubted = doubtedReadings(history);
  const { vehicle, visits } = withoutDoubted(history, doubted);
  const { inService } = vehicle;
  const start: Mark[] = inService
    ? [
        {
          day: toDay(inService.date),
          km: inService.odometer ? toKm(inService.odometer) : null,
          replaced: null,
        },
      ]
    : [];
  const marks = [...start, ...visits.map(markOf)];
  const known = joinSegments(marks);
  const stretches = stretchesBetween(known);
  if (visits.length === 0 || !tellsDistance(marks, known, stretches))
    return roadByDays(marks, start.length, doubted);
  const pace = meanPace(stretches);
  const fixed = bridgeHidden(known, pace);
  const places = marks.map((mark, index) => fixed.get(index) ?? placeByDate(mark.day, known, fixed, pace));
  return {
    places: places.slice(start.length),
    inService: start.length > 0 ? places[0]! : null,
    stretches,
    doubted,
    isByDistance: true,
  };
}

/** Whether distances are known, or there is only one reading to place. */
function tellsDistance(
  marks: readonly Mark[],
  known: readonly Known[],
  stretches: readonly Stretch[],
): boolean {
  return stretches.length > 0 || (known.length > 0 && marks.every(({ day }) => day === known[0]!.day));
}

function roadByDays(marks: readonly Mark[], starts: number, doubted: DoubtedReading[]): Road {
  const places = marks.map(({ day }) => ({ km: TYPICAL_KM_PER_DAY * (day - marks[0]!.day), sdKm: 0 }));
  return {
    places: places.slice(starts),
    inService: starts > 0 ? places[0]! : null,
    stretches: [],
    doubted,
    isByDistance: false,
  };
}

function joinSegments(marks: readonly Mark[]): Known[] {
  const known: Known[] = [];
  let km = 0;
  let shown = null as number | null;
  let hidden = false;
  marks.forEach((mark, index) => {
    if (mark.replaced) {
      const { oldFinalKm, newStartKm } = mark.replaced;
      const joined = shown !== null && oldFinalKm !== null;
      if (joined) km += oldFinalKm - shown!;
      else if (known.length > 0) hidden = true;
      shown = newStartKm ?? mark.km;
      if (joined && mark.km === null) {
        known.push({ index, day: mark.day, km, hidden });
        hidden = false;
      }
    }
    if (mark.km === null) return;
    if (shown !== null) km += mark.km - shown;
    else if (known.length > 0) hidden = true;
    shown = mark.km;
    known.push({ index, day: mark.day, km, hidden });
    hidden = false;
  });
  return known;
}

/** Stretches from the last reading of one day to the last reading of the next; none across a hidden distance. */
function stretchesBetween(known: readonly Known[]): Stretch[] {
  const stretches: Stretch[] = [];
  let from: Known | null = null;
  known.forEach((mark, position) => {
    if (mark.hidden) from = null;
    const next = known[position + 1];
    if (next && next.day === mark.day && !next.hidden) return;
    if (from) stretches.push({ fromDay: from.day, toDay: mark.day, km: mark.km - from.km });
    from = mark;
  });
  return stretches.filter((stretch) => stretch.toDay > stretch.fromDay);
}

function meanPace(stretches: readonly Stretch[]): number {
  const days = stretches.reduce((sum, stretch) => sum + stretch.toDay - stretch.fromDay, 0);
  return days > 0 ? stretches.reduce((sum, stretch) => sum + stretch.km, 0) / days : TYPICAL_KM_PER_DAY;
}

function bridgeHidden(known: readonly Known[], pace: number): Map<number, Place> {
  const fixed = new Map<number, Place>();
  let bridged = 0;
  let variance = 0;
  known.forEach((mark, position) => {
    if (mark.hidden) {
      const distance = pace * (mark.day - known[position - 1]!.day);
      bridged += distance;
      variance += (ESTIMATE_SHARE * distance) ** 2;
    }
    fixed.set(mark.index, { km: mark.km + bridged, sdKm: Math.sqrt(variance) });
  });
  return fixed;
}

function placeByDate(day: number, known: readonly Known[], fixed: Map<number, Place>, pace: number): Place {
  const before = known.findLast((mark) => mark.day <= day);
  const after = known.find((mark) => mark.day >= day);
  const away = (mark: Known): Place => {
    const km = pace * (day - mark.day);
    const place = fixed.get(mark.index)!;
    return { km: place.km + km, sdKm: Math.hypot(place.sdKm, ESTIMATE_SHARE * km) };
  };
  if (!before) return away(after!);
  if (!after) return away(before);
  const from = fixed.get(before.index)!;
  const to = fixed.get(after.index)!;
  const share = after.day > before.day ? (day - before.day) / (after.day - before.day) : 0;
  const km = from.km + share * (to.km - from.km);
  return { km, sdKm: Math.hypot(from.sdKm, ESTIMATE_SHARE * Math.min(km - from.km, to.km - km)) };
}

/** What is wrong with a visit's odometer, and the visit it conflicts with. */
export interface OdometerConflict {
  field: OdometerField;
  detail: string;
  visitId: string | null;
}

/**
 * Within a segment (from one odometer replacement to the next) an odometer never runs backwards. A reading that is
 * clearly wrong does not count against the others, so that the next true reading is accepted.
 *
 * @param visits in chronological order
 * @param isRecorded whether the visit was already accepted: then it may itself be the wrong one
 * @returns the conflict caused by the visit with `visitId`, or null
 */
export function odometerConflict(
  history: History,
  visitId: string,
  isRecorded = false,
): OdometerConflict | null {
  return conflictWith(history, clearlyDoubted(history), visitId, isRecorded);
}

const clearlyDoubted = (history: History): DoubtedReading[] =>
  doubtedReadings(history).filter(({ margin }) => margin >= CLEAR_DOUBT);

function conflictWith(
  history: History,
  doubted: readonly DoubtedReading[],
  visitId: string,
  isRecorded: boolean,
): OdometerConflict | null {
  const { vehicle } = history;
  const position = history.visits.findIndex((visit) => visit.id === visitId);
  const visit = history.visits[position]!;
  const { visits } = withoutDoubted(
    history,
    doubted.filter((each) => each.visitId !== visitId),
  );
  const { odometer, odometerReplaced: replaced } = visit;
  const earlier = latestReadingBefore(visits, position);
  const sinceReplacement = replaced ? null : earlier;

  if (odometer && replaced?.newStart && odometer.km < replaced.newStart.km) {
    return {
      field: 'odometer',
      detail: 'the odometer reading is below that of the odometer’s start',
      visitId: null,
    };
  }
  if (replaced?.oldFinal && earlier && replaced.oldFinal.km < earlier.km) {
    return {
      field: 'odometerReplaced/oldFinal',
      detail: below(replaced.oldFinal.km, earlier),
      visitId: earlier.visitId,
    };
  }
  if (odometer && sinceReplacement && odometer.km < sinceReplacement.km) {
    return {
      field: 'odometer',
      detail: below(odometer.km, sinceReplacement),
      visitId: sinceReplacement.visitId,
    };
  }
  const startKm = vehicle.inService?.odometer ? toKm(vehicle.inService.odometer) : null;
  const firstSegment = !visits.slice(0, position).some((other) => other.odometerReplaced);
  if (replaced?.oldFinal && firstSegment && startKm !== null && replaced.oldFinal.km < startKm) {
    const detail = `${inWords(replaced.oldFinal.km, 1)} km is below the ${inWords(startKm, 1)} km at in-service`;
    return { field: 'odometerReplaced/oldFinal', detail, visitId: null };
  }
  if (odometer && !replaced && firstSegment && startKm !== null && odometer.km < startKm) {
    return {
      field: 'odometer',
      detail: `${inWords(odometer.km, 1)} km is below the ${inWords(startKm, 1)} km at in-service`,
      visitId: null,
    };
  }
  if (isRecorded && doubted.some((each) => each.visitId === visitId)) return null;
  const shown = odometer?.km ?? replaced?.newStart?.km ?? null;
  const later = earliestReadingAfter(visits, position);
  if (shown !== null && later && shown > later.km) {
    const detail = `${inWords(shown, 1)} km is above the ${inWords(later.km, 1)} km of the later visit ${later.visitId} on ${later.date}`;
    return { field: odometer ? 'odometer' : 'odometerReplaced/newStart', detail, visitId: later.visitId };
  }
  return null;
}

/**
 * The latest recorded visit whose odometer conflicts with the others; null if none does.
 *
 * @param before the history before a change: a change must not make doubtful what was believed
 */
export function conflictIn(
  history: History,
  before = history,
): { visit: HistoryVisit; conflict: OdometerConflict } | null {
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

const below = (km: number, earlier: Shown): string =>
  `${inWords(km, 1)} km is below the ${inWords(earlier.km, 1)} km of the earlier visit ${earlier.visitId} on ${earlier.date}; if that reading is the wrong one, correct that visit first`;

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
