import { toFullDate } from '../core/calendar.js';
import { precisionOf as precisionOfDates, type Precision } from '../core/words.js';

/** Dates where there is little room: on charts, in tables and in lists. */

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

const partsOf = (day: number) => {
  const [year, month, date] = toFullDate(day).split('-').map(Number);
  return { year: year!, month: MONTHS[month! - 1]!, date: date! };
};

/** `16 Dec 2026`, `Dec 2026` or `2026`. */
export function shortDate(day: number, precision: Precision = 'day'): string {
  const { year, month, date } = partsOf(day);
  if (precision === 'year') return String(year);
  return precision === 'month' ? `${month} ${year}` : `${date} ${month} ${year}`;
}

/** `16 Dec`. */
export function dayAndMonth(day: number): string {
  const { month, date } = partsOf(day);
  return `${date} ${month}`;
}

/** `Dec`. */
export const monthOnly = (day: number): string => partsOf(day).month;

/** How precisely the dates of an interval can be told; null is beyond 30 years. */
export const precisionOf = (early: number | null, late: number | null): Precision =>
  precisionOfDates({
    early: early === null ? null : toFullDate(early),
    late: late === null ? null : toFullDate(late),
  });
