import { itemAt, required } from '../items.js';
import { toDay } from '../calendar.js';
import { ownLimit } from '../assessment/limits.js';
import { liningsOf } from '../assessment/linings.js';
import type { History } from '../history.js';
import { padLives, replacesLinings, type Life } from '../lives.js';
import type { Road } from '../odometer.js';
import type { Axle, EndKnown } from '../vocabulary/terms.js';
import type { PadSpec } from '../vocabulary/vehicle.js';
import { leastSquaresRate, type Look } from './rivals.js';

export interface LimitReached {
  day: number;
  /** Position on the vehicle's road, km. */
  km: number;
  how: EndKnown;
}

/** The pads of one axle from one replacement of any of them to the next. */
export interface PadSet {
  /** Index of the first visit whose forecast is about these pads. */
  from: number;
  /** Index of the visit that replaced a pad of the set; null if all are still fitted. */
  to: number | null;
  /** When the first of them reached its governing limit; null if not observed. */
  reached: LimitReached | null;
  /** The last day a pad of the set was measured; null if never, or if the time of reaching the limit is unknown. */
  lastReadDay: number | null;
}

/** Minimum share of their life that pads replaced early must have used up for their end to be extrapolated. */
const MIN_SHARE_WORN = 0.7;

/** Every set of pads an axle has had, in order, with how each ended. */
export function padSets(history: History, road: Road, axle: Axle): PadSet[] {
  const changes = history.visits.flatMap(({ work }, index) =>
    work.some((item) => replacesLinings(item, axle)) ? [index] : [],
  );
  const lived = liningsOf(history, axle).map(({ side, pad }) => padLives(history, road, axle, side, pad));
  return [0, ...changes].flatMap((from, index): PadSet[] => {
    const to = changes[index] ?? null;
    // A set replaced at the very first visit had no forecast.
    if (to === 0) return [];
    const begunAt = index === 0 ? -1 : from;
    const pads = lived.map((lives) => ({
      life: required(
        lives.findLast((life) => life.begunAt <= begunAt),
        'life of a pad in a set',
      ),
      changed: lives.some((life) => life.begunAt === to),
    }));
    return [padSet(history, road, { from, to, pads })];
  });
}

interface SetOfLives {
  from: number;
  to: number | null;
  /** Each pad's life, and whether the visit that ended the set replaced it. */
  pads: { life: Life<PadSpec>; changed: boolean }[];
}

/** A pad's life within this set: its start, its readings and its governing limit. */
interface PadCourse {
  fitted: Look | null;
  looks: Look[];
  limitMm: number;
  changed: boolean;
}

function padSet(history: History, road: Road, { from, to, pads }: SetOfLives): PadSet {
  const last = to ?? history.visits.length - 1;
  const courses = pads.flatMap(({ life, changed }): PadCourse[] => {
    const limit = ownLimit(life.spec);
    if (!limit) return [];
    const looks = life.observations.flatMap(({ visit, day, place, mm }) =>
      place && history.visits.indexOf(visit) <= last ? [{ day, km: place.km, mm }] : [],
    );
    const { start, startMm } = life;
    const fitted =
      start?.place && startMm !== null ? { day: start.day, km: start.place.km, mm: startMm } : null;
    return [{ fitted, looks, limitMm: limit.limitMm, changed }];
  });
  const lastReadDay = Math.max(...courses.flatMap(({ looks }) => looks.map(({ day }) => day)));
  const ends = courses.map(interpolated);
  if (ends.includes('unknown') || lastReadDay === -Infinity)
    return { from, to, reached: null, lastReadDay: null };
  const seen = earliest(ends.filter((end) => end !== null && end !== 'unknown'));
  const reached = seen ?? (to === null ? null : extrapolatedEnd(history, road, to, courses));
  return { from, to, reached, lastReadDay };
}

function earliest(ends: readonly LimitReached[]): LimitReached | null {
  return ends.reduce<LimitReached | null>((first, end) => (first && first.km <= end.km ? first : end), null);
}

/**
 * Where a pad crossed its limit, interpolated between its last reading above it and the next one. A reading under the
 * limit that later ones contradict counts as a mistake. Unknown if no reading was above the limit.
 */
function interpolated({ fitted, looks, limitMm }: PadCourse): LimitReached | 'unknown' | null {
  const points = fitted ? [fitted, ...looks] : looks;
  const above = points.findLastIndex(({ mm }) => mm > limitMm);
  const [before, after] = [points[above], points[above + 1]];
  if (!after) return null;
  if (!before) return 'unknown';
  const share = (before.mm - limitMm) / (before.mm - after.mm);
  return {
    day: before.day + share * (after.day - before.day),
    km: before.km + share * (after.km - before.km),
    how: 'interpolated',
  };
}

/** Where the first of the pads replaced early would have crossed its limit, extrapolated along its own wear. */
function extrapolatedEnd(
  history: History,
  road: Road,
  to: number,
  courses: readonly PadCourse[],
): LimitReached | null {
  const ends = courses.flatMap((course) => {
    const { fitted, looks, limitMm, changed } = course;
    const latest = looks.at(-1);
    if (!changed || !fitted || !latest || latest.km <= fitted.km || fitted.mm <= limitMm) return [];
    const rate = leastSquaresRate({ fitted, looks });
    if (rate <= 0) return [];
    const km = Math.max(latest.km, fitted.km + (fitted.mm - limitMm) / rate);
    return [{ km, fitted, shareWorn: (fitted.mm - latest.mm) / (fitted.mm - limitMm) }];
  });
  const first = ends.sort((a, b) => a.km - b.km)[0];
  if (!first || first.shareWorn < MIN_SHARE_WORN) return null;
  const day = dayAt(history, road, to, first);
  return day === null ? null : { day, km: first.km, how: 'extrapolated' };
}

/**
 * The day on which the vehicle passed a position on its road; beyond the recorded road, extrapolated at the pace of
 * these pads' life.
 */
function dayAt(
  { visits }: History,
  road: Road,
  to: number,
  { km, fitted }: { km: number; fitted: Look },
): number | null {
  const marks = visits.flatMap(({ date }, index) => {
    const place = road.places[index];
    return place ? [{ day: toDay(date), km: place.km }] : [];
  });
  const next = marks.findIndex((mark) => mark.km >= km);
  const after = marks[next];
  if (after) {
    const before = marks[next - 1] ?? fitted;
    return after.km > before.km
      ? before.day + ((km - before.km) / (after.km - before.km)) * (after.day - before.day)
      : after.day;
  }
  const change = { day: toDay(itemAt(visits, to).date), km: itemAt(road.places, to).km };
  const pace = (change.km - fitted.km) / (change.day - fitted.day);
  const last = itemAt(marks, -1);
  return pace > 0 && Number.isFinite(pace) ? last.day + (km - last.km) / pace : null;
}
