import { toDay } from './calendar.js';
import type { History } from './history.js';
import { kmIfInMiles, KM_PER_MILE } from './odometerDoubt.js';
import { paceOf, type Stretch } from './stretches.js';

/**
 * Finds readings sent in kilometres that may be miles. As long as an odometer in miles shows more than the last reading
 * in kilometres, nothing contradicts it: the vehicle just seems to have been used little, and its brakes to wear
 * faster.
 */

/** Readings that may be miles: from one visit on, the vehicle's use is unchanged if the odometer shows miles. */
export interface PerhapsInMiles {
  /** The day of the last reading that is not in question. */
  fromDay: number;
  /** The first visit in question. */
  date: string;
  /** The latest reading: what was sent, and what it would be in kilometres. */
  latest: { miles: number; km: number };
}

/** Minimum length of a stretch, and of all stretches before it, as evidence of changed use, days. */
export const MIN_STRETCH_DAYS = 30;
export const MIN_DAYS_BEFORE = 90;
/** The pace has changed if it is this many times higher or lower. */
export const CHANGED_RATIO = 1.5;
/** A pace below this share of the usual one is nearer to it if it was in miles than if it was in kilometres. */
const NEARER_IN_MILES = 1 / Math.sqrt(KM_PER_MILE);

const daysOf = ({ fromDay, toDay: to }: Stretch): number => to - fromDay;

/** Null unless all readings since some visit fit better in miles, and the use would be as before. */
export function perhapsInMiles({ visits }: History, stretches: readonly Stretch[]): PerhapsInMiles | null {
  const read = visits.flatMap((visit) => {
    const { date, odometer, odometerReplaced } = visit;
    const km = kmIfInMiles(visit);
    return odometer || odometerReplaced
      ? [{ date, day: toDay(date), inMiles: km === null ? null : { miles: odometer!.value, km } }]
      : [];
  });
  for (const [index, first] of stretches.entries()) {
    const usual = paceOf(stretches.slice(0, index));
    const since = read.filter(({ day }) => day >= first.toDay);
    const meant = since.find(({ day }) => day === first.toDay)?.inMiles;
    const latest = since.at(-1)?.inMiles;
    if (!usual || usual.days < MIN_DAYS_BEFORE || !meant || !latest) continue;
    if (since.some(({ inMiles }) => inMiles === null)) continue;
    const days = daysOf(first);
    const slower = usual.kmPerDay / (first.km / days);
    const inMiles = (first.km + meant.km - meant.miles) / days / usual.kmPerDay;
    const after = stretches.slice(index + 1).filter((stretch) => daysOf(stretch) >= MIN_STRETCH_DAYS);
    const isFitting =
      days >= MIN_STRETCH_DAYS &&
      slower >= CHANGED_RATIO &&
      inMiles < CHANGED_RATIO &&
      inMiles > 1 / CHANGED_RATIO &&
      after.every((stretch) => stretch.km / daysOf(stretch) < NEARER_IN_MILES * usual.kmPerDay);
    if (isFitting) return { fromDay: first.fromDay, date: since[0]!.date, latest };
  }
  return null;
}
