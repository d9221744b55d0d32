import { toDay } from './calendar.js';
import { inWords } from './rounding.js';
import type { Axle, LimitSource } from './vocabulary/terms.js';

/** How dates, chances, lengths and places are said, so that every answer, page and calendar says them alike. */

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

const partsOf = (date: string) => {
  const [year, month, day] = date.split('-').map(Number);
  return { year: year!, month: MONTHS[month! - 1]!, day: day! };
};

/** `16 December 2026`. */
export function dateInWords(date: string): string {
  const { year, month, day } = partsOf(date);
  return `${day} ${month} ${year}`;
}

/** `December 2026`, of a date or a month. */
export function monthInWords(date: string): string {
  const { year, month } = partsOf(date);
  return `${month} ${year}`;
}

/** A date this near needs no year. */
const NEAR_DAYS = 180;

/** `16 December` where the year goes without saying, else with it. */
export function nearDateInWords(date: string, today: string): string {
  const { month, day } = partsOf(date);
  return Math.abs(toDay(date) - toDay(today)) <= NEAR_DAYS ? `${day} ${month}` : dateInWords(date);
}

/** Early and late date of a forecast; null is beyond thirty years. */
export interface Between {
  early: string | null;
  late: string | null;
}

export type Precision = 'day' | 'month' | 'year';

const DAYS_FOR_MONTH = 400;
const DAYS_FOR_YEAR = 5 * 365.25;

/** How precisely a date can be told from how far early and late date lie apart. */
export function precisionOf({ early, late }: Between): Precision {
  if (early === null || late === null) return 'year';
  const days = toDay(late) - toDay(early);
  if (days > DAYS_FOR_YEAR) return 'year';
  return days > DAYS_FOR_MONTH ? 'month' : 'day';
}

/** A date of a forecast, no more precise than its interval: `1 August 2026`, `August 2026`, `2026`. */
export function forecastInWords(date: string, between: Between): string {
  return atPrecision(date, precisionOf(between));
}

function atPrecision(date: string, precision: Precision): string {
  if (precision === 'day') return dateInWords(date);
  return precision === 'month' ? monthInWords(date) : date.slice(0, 4);
}

/**
 * The date to act before, no more precise than its interval. A month or a year is said only while it has not begun:
 * nothing can be done before it otherwise.
 */
export function beforeInWords(date: string, between: Between, today: string): string {
  const precision = precisionOf(between);
  if (precision === 'year' && `${date.slice(0, 4)}-01-01` > today) return atPrecision(date, 'year');
  if (precision !== 'day' && `${date.slice(0, 7)}-01` > today) return atPrecision(date, 'month');
  return dateInWords(date);
}

/** `1 day`, `20 months`: how long ago or ahead, as people say it. */
export function spanInWords(days: number): string {
  if (days < 60) return countInWords(days, 'day');
  const months = Math.round(days / 30.4375);
  return months < 24 ? countInWords(months, 'month') : countInWords(Math.round(days / 365.25), 'year');
}

export const countInWords = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** Whole percent; what rounds to none or all says so. */
export function chanceInWords(chance: number): string {
  if (chance > 0.99) return 'over 99 %';
  if (chance > 0 && chance < 0.01) return 'under 1 %';
  return `${Math.round(100 * chance)} %`;
}

/** `31 %`. */
export const percentInWords = (share: number): string => `${inWords(100 * share, 0)} %`;

/** `3.7 mm`. */
export const mmInWords = (mm: number, decimals = 3): string => `${inWords(mm, decimals)} mm`;

/** A reading as it is said beside its limit: to a tenth, and finer where a tenth could not tell it from the limit. */
export function readingInWords(mm: number, limitMm: number | null = null): string {
  const isClose = limitMm !== null && Math.abs(mm - limitMm) < 0.1 && mm !== limitMm;
  return isClose ? mmInWords(mm, 2) : `${mm.toFixed(1)} mm`;
}

/** `front axle`, `axle 3`. */
export const axleInWords = (axle: Axle): string =>
  axle === 'front' || axle === 'rear' ? `${axle} axle` : axle.replace('-', ' ');

/** `front pads`, `pads on axle 3`. */
export const onAxle = (parts: string, axle: Axle): string =>
  axle === 'front' || axle === 'rear' ? `${axle} ${parts}` : `${parts} on ${axleInWords(axle)}`;

/** Where a limit comes from, in brackets after its figure; the maker’s needs no word. */
const SOURCES: Record<LimitSource, string> = {
  maker: '',
  law: ' (by law)',
  shop: ' (shop’s minimum)',
  'wear-indicator': ' (wear indicator)',
};

/** `3 mm (wear indicator)`. */
export const limitInWords = (limitMm: number, source: LimitSource | null): string =>
  `${mmInWords(limitMm, 2)}${source ? SOURCES[source] : ''}`;

export const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** `a`, `a and b`, `a, b and c`. */
export const listInWords = (items: readonly string[]): string =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;

/** The first sentence of a text, with its full stop. */
export const firstSentence = (text: string): string => /^.*?[.?!](?=\s|$)/s.exec(text)?.[0] ?? text;
