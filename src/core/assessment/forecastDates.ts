import { toDay, toFullDate } from '../calendar.js';
import { chanceWithin, daysAt, type Crossing, type KeptProbability } from '../forecast/crossing.js';
import { roundChance } from '../rounding.js';
import type { DateInterval } from '../vocabulary/wear.js';
import type { Outlook } from './outlookShape.js';

/** What the calendar makes of a forecast: dates, chances by a date, and when an axle is overdue. */

/** The dates of a crossing: the first day on which the chance is at least that of each point; null beyond 30 years. */
export function dateInterval(crossing: Crossing, asAtDate: string): DateInterval {
  const at = (probability: KeptProbability): string | null => {
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

/** Before any date that is given. */
export const ALWAYS = '0000-01-01';

/** From when on an axle is overdue: always where a reading fails its limit, else from when it is more likely than not. */
export const overdueFrom = (failing: boolean, medianDate: string | null): string | null =>
  failing ? ALWAYS : medianDate;

/** Overdue: a reading fails its limit, or more likely than not the limit has been reached by today. */
export function isOverdue(failing: boolean, medianDate: string | null, today: string): boolean {
  const from = overdueFrom(failing, medianDate);
  return from !== null && from <= today;
}

/** Chance that an axle's limit has been reached by a date. */
export function chanceBy(crossing: Crossing, asAtDate: string, date: string): number {
  return roundChance(chanceWithin(crossing, toDay(date) - toDay(asAtDate)));
}

/** When a vehicle that was here on a date is next here: by its rhythm, else by the shop's interval. */
export function expectedVisit(
  from: string,
  { rhythmDays, policy }: Pick<Outlook, 'rhythmDays' | 'policy'>,
): string {
  return toFullDate(toDay(from) + (rhythmDays ?? policy.visitIntervalDays));
}
