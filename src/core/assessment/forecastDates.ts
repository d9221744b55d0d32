import { toDay, toFullDate } from '../calendar.js';
import { chanceWithin, daysAt, type Crossing, type StoredProbability } from '../forecast/crossing.js';
import { roundChance } from '../rounding.js';
import type { DateInterval } from '../vocabulary/wear.js';
import type { Outlook } from './outlookShape.js';

/** Turns a forecast into dates, chances by a date, and the date an axle becomes overdue. */

/** For each quantile, the first day on which the chance reaches it; null beyond 30 years. */
export function dateInterval(crossing: Crossing, asAtDate: string): DateInterval {
  const at = (probability: StoredProbability): string | null => {
    const days = daysAt(crossing, probability);
    return days === null ? null : toFullDate(toDay(asAtDate) + days);
  };
  return {
    early: at(0.1),
    lowerQuartile: at(0.25),
    median: at(0.5),
    upperQuartile: at(0.75),
    late: at(0.9),
  };
}

/** Earlier than any date in an answer. */
export const ALWAYS = '0000-01-01';

/** Date from which an axle is overdue: {@link ALWAYS} if a reading fails its limit, else the median date. */
export const overdueFrom = (failing: boolean, medianDate: string | null): string | null =>
  failing ? ALWAYS : medianDate;

/** Overdue: a reading fails its limit, or the limit has more likely than not been reached by today. */
export function isOverdue(failing: boolean, medianDate: string | null, today: string): boolean {
  const from = overdueFrom(failing, medianDate);
  return from !== null && from <= today;
}

/** Chance that an axle's limit has been reached by a date. */
export function chanceBy(crossing: Crossing, asAtDate: string, date: string): number {
  return roundChance(chanceWithin(crossing, toDay(date) - toDay(asAtDate)));
}

/**
 * Expected date of the visit after one on the given date: by the vehicle's own visit interval, else by the shop's.
 */
export function expectedVisit(
  from: string,
  { rhythmDays, policy }: Pick<Outlook, 'rhythmDays' | 'policy'>,
): string {
  return toFullDate(toDay(from) + (rhythmDays ?? policy.visitIntervalDays));
}
