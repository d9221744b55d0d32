import { toDay } from './calendar.js';
import type { History, HistoryVisit } from './history.js';
import { entryOf, itemAt } from './items.js';
import { doubtedReadings, withoutDoubted, type DoubtedReading } from './odometerDoubt.js';
import { perhapsInMiles, type PerhapsInMiles } from './odometerUnit.js';
import { paceOf, type Stretch } from './stretches.js';
import { toKm } from './units.js';

/** Daily distance assumed for a vehicle with unknown use: the median of the starting values. */
export const TYPICAL_KM_PER_DAY = 40;
/**
 * No distance is estimated at a greater pace, km a day: two drivers in turn cover hardly more (common practice, no
 * source). A greater one comes from a wrong odometer reading.
 */
const MAX_KM_PER_DAY = 1500;
/** Relative standard deviation of a distance estimated from dates alone. */
const ESTIMATE_SHARE = 0.3;

/** A visit's position on the vehicle's road, counted on through odometer replacements. */
export interface Place {
  /** Distance since the vehicle's first known odometer reading, km. */
  km: number;
  /** Standard deviation of `km`; 0 if the odometer was read. */
  sdKm: number;
}

export interface Road {
  /** One per visit, in order. */
  places: Place[];
  inService: Place | null;
  stretches: Stretch[];
  /** Readings that are probably wrong; their visits are placed by date. */
  doubted: DoubtedReading[];
  /** Readings that may be miles sent as kilometres; null if none may be. */
  perhapsInMiles: PerhapsInMiles | null;
  /**
   * Whether positions are distances. If there are visits on several days but fewer than two of them have an odometer
   * reading, positions are days, and each day counts as the typical distance.
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
 * Joins a history's odometer readings into one road. Places a visit without a believed reading by its date: between its
 * neighbours, or beyond them at the vehicle's mean pace. If an odometer was replaced and its last reading is unknown,
 * also estimates the hidden distance at that pace.
 */
export function layRoad(history: History): Road {
  const doubted = doubtedReadings(history);
  const believed = withoutDoubted(history, doubted);
  const { vehicle, visits } = believed;
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
  if (visits.length === 0 || !hasDistances(marks, known, stretches))
    return roadByDays(marks, start.length, doubted);
  const pace = Math.min(paceOf(stretches)?.kmPerDay ?? TYPICAL_KM_PER_DAY, MAX_KM_PER_DAY);
  const fixed = bridgeHidden(known, pace);
  const places = marks.map((mark, index) => fixed.get(index) ?? placeByDate(mark.day, known, fixed, pace));
  return {
    places: places.slice(start.length),
    inService: start.length > 0 ? itemAt(places, 0) : null,
    stretches,
    doubted,
    perhapsInMiles: perhapsInMiles(believed, stretches),
    isByDistance: true,
  };
}

/** Whether a distance is known, or all visits are on the day of a reading. */
function hasDistances(
  marks: readonly Mark[],
  known: readonly Known[],
  stretches: readonly Stretch[],
): boolean {
  return stretches.length > 0 || (known.length > 0 && marks.every(({ day }) => day === itemAt(known, 0).day));
}

function roadByDays(marks: readonly Mark[], starts: number, doubted: DoubtedReading[]): Road {
  const places = marks.map(({ day }) => ({ km: TYPICAL_KM_PER_DAY * (day - marks[0]!.day), sdKm: 0 }));
  return {
    places: places.slice(starts),
    inService: starts > 0 ? itemAt(places, 0) : null,
    stretches: [],
    doubted,
    perhapsInMiles: null,
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

function bridgeHidden(known: readonly Known[], pace: number): Map<number, Place> {
  const fixed = new Map<number, Place>();
  let bridged = 0;
  let variance = 0;
  known.forEach((mark, position) => {
    if (mark.hidden) {
      const distance = pace * (mark.day - itemAt(known, position - 1).day);
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
    const place = entryOf(fixed, mark.index);
    return { km: place.km + km, sdKm: Math.hypot(place.sdKm, ESTIMATE_SHARE * km) };
  };
  if (!before) return away(after!);
  if (!after) return away(before);
  const from = entryOf(fixed, before.index);
  const to = entryOf(fixed, after.index);
  const share = after.day > before.day ? (day - before.day) / (after.day - before.day) : 0;
  const km = from.km + share * (to.km - from.km);
  return { km, sdKm: Math.hypot(from.sdKm, ESTIMATE_SHARE * Math.min(km - from.km, to.km - km)) };
}
