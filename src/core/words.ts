import { toDay, toFullDate } from './calendar.js';
import { itemAt } from './items.js';
import { inWords } from './rounding.js';
import type { Axle, LimitSource, LiningPosition, Side, WorkKind } from './vocabulary/terms.js';

/**
 * Words for dates, chances, lengths, parts, places, work and vehicles. All answers, pages, charts and calendars use
 * them, so that each thing has one name.
 */

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

/** @param date or a month as YYYY-MM, which has no day */
const partsOf = (date: string) => {
  const month = itemAt(MONTHS, Number(date.slice(5, 7)) - 1);
  return { year: Number(date.slice(0, 4)), month, day: Number(date.slice(8, 10)) };
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

const ISO_DATE = /\b\d{4}-\d{2}-\d{2}\b/g;

/** A text with its ISO dates in words, to show an answer's text on a page. */
export const withDatesInWords = (text: string, say: (date: string) => string = dateInWords): string =>
  text.replace(ISO_DATE, (date) => say(date));

/** `16 Dec 2026`, `Dec 2026` or `2026`, for charts, tables and lists. */
export function shortDate(date: string | number, precision: Precision = 'day'): string {
  const { year, month } = partsOf(fullDate(date));
  if (precision === 'year') return String(year);
  return precision === 'month' ? `${month.slice(0, 3)} ${year}` : `${dayAndMonth(date)} ${year}`;
}

/** `16 Dec`. */
export function dayAndMonth(date: string | number): string {
  const { month, day } = partsOf(fullDate(date));
  return `${day} ${month.slice(0, 3)}`;
}

/** `Dec`. */
export const monthOnly = (date: string | number): string => partsOf(fullDate(date)).month.slice(0, 3);

/** Accepts a date or its day number. */
const fullDate = (date: string | number): string => (typeof date === 'string' ? date : toFullDate(date));

/** A date within this many days needs no year. */
const NEAR_DAYS = 180;

/** `16 December` if the year is obvious, otherwise with the year. */
export function nearDateInWords(date: string, today: string): string {
  const { month, day } = partsOf(date);
  return Math.abs(toDay(date) - toDay(today)) <= NEAR_DAYS ? `${day} ${month}` : dateInWords(date);
}

/** Early and late date of a forecast; null means beyond thirty years. */
export interface Between {
  early: string | null;
  late: string | null;
}

export type Precision = 'day' | 'month' | 'year';

const DAYS_FOR_MONTH = 400;
const DAYS_FOR_YEAR = 5 * 365.25;

/** The precision of a date, from how far apart the early and late dates are. */
export function precisionOf({ early, late }: Record<'early' | 'late', string | number | null>): Precision {
  if (early === null || late === null) return 'year';
  const days = toDay(fullDate(late)) - toDay(fullDate(early));
  if (days > DAYS_FOR_YEAR) return 'year';
  return days > DAYS_FOR_MONTH ? 'month' : 'day';
}

/** A forecast date, no more precise than its interval: `1 August 2026`, `August 2026`, `2026`. */
export function forecastInWords(date: string, between: Between): string {
  return atPrecision(date, precisionOf(between));
}

function atPrecision(date: string, precision: Precision): string {
  if (precision === 'day') return dateInWords(date);
  return precision === 'month' ? monthInWords(date) : date.slice(0, 4);
}

/**
 * The date to act before, no more precise than its interval. Names a month or year only if it has not begun yet, since
 * otherwise it would be too late to act before it.
 */
export function beforeInWords(date: string, between: Between, today: string): string {
  const precision = precisionOf(between);
  if (precision === 'year' && `${date.slice(0, 4)}-01-01` > today) return atPrecision(date, 'year');
  if (precision !== 'day' && `${date.slice(0, 7)}-01` > today) return atPrecision(date, 'month');
  return dateInWords(date);
}

/** `1 day`, `20 months`: how long ago or ahead. */
export function spanInWords(days: number): string {
  if (days < 60) return countInWords(days, 'day');
  const months = Math.round(days / 30.4375);
  return months < 24 ? countInWords(months, 'month') : countInWords(Math.round(days / 365.25), 'year');
}

export const countInWords = (count: number, one: string, many = `${one}s`): string =>
  `${inWords(count)} ${count === 1 ? one : many}`;

/** Whole percent; `under 1 %` and `over 99 %` at the ends. */
export function chanceInWords(chance: number): string {
  if (chance > 0.99) return 'over 99 %';
  if (chance > 0 && chance < 0.01) return 'under 1 %';
  return `${Math.round(100 * chance)} %`;
}

/** `31 %`. */
export const percentInWords = (share: number): string => `${inWords(100 * share, 0)} %`;

/** `3.7 mm`. */
export const mmInWords = (mm: number, decimals = 3): string => `${inWords(mm, decimals)} mm`;

/** A reading next to its limit: to a tenth, or finer if a tenth would not distinguish it from the limit. */
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

/** The source of a limit, in full and in short. */
const SOURCES: Record<LimitSource, { full: string; short: string }> = {
  maker: { full: 'maker’s limit', short: 'maker' },
  law: { full: 'by law', short: 'law' },
  shop: { full: 'shop’s minimum', short: 'shop' },
  'wear-indicator': { full: 'wear indicator', short: 'indicator' },
};

/** `wear indicator`, or in short `indicator`. */
export const sourceInWords = (source: LimitSource, size: 'full' | 'short' = 'full'): string =>
  SOURCES[source][size];

/** `3 mm (wear indicator)`; does not name the source if it is the maker. */
export const limitInWords = (limitMm: number, source: LimitSource | null): string =>
  `${mmInWords(limitMm, 2)}${source && source !== 'maker' ? ` (${sourceInWords(source)})` : ''}`;

/** `left inner`; of a rotor or drum `left`; of the thinnest lining of the axle `thinnest`. */
export const positionInWords = ({ side, pad }: { side: Side | null; pad: LiningPosition | null }): string =>
  [side, pad].filter((part) => part !== null).join(' ');

const WORK: Record<WorkKind, string> = {
  'pads-replaced': 'new pads',
  'shoes-replaced': 'new shoes',
  'rotor-replaced': 'new rotors',
  'drum-replaced': 'new drums',
  'rotor-machined': 'rotors machined',
  'drum-machined': 'drums machined',
  'slides-serviced': 'slides serviced',
  'caliper-replaced': 'new caliper',
  'hose-replaced': 'new hose',
  'fluid-changed': 'new fluid',
};

/** `new pads`, `rotors machined`. */
export const workInWords = (kind: WorkKind): string => WORK[kind];

/** A term of the API without hyphens: `caliper bracket bolt`, `heat spotted`, `battery electric`. */
export const termInWords = (term: string): string => term.replaceAll('-', ' ');

/** The registration and the shop’s number; without both, the VIN. */
export const vehicleName = ({ registration, externalId, vin }: Named): string =>
  [registration, externalId].filter((name) => name != null).join(', ') || (vin ?? 'vehicle');

/** The same in two parts: the main name, and the number that follows it. */
export function vehicleNames({ registration, externalId, vin }: Named): {
  first: string;
  second: string | null;
} {
  const first = registration ?? externalId ?? vin ?? 'Vehicle';
  return { first, second: registration == null ? null : (externalId ?? null) };
}

type Named = Partial<Record<'registration' | 'externalId' | 'vin', string | null>>;

export const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** Adds a capital and, if missing, a full stop. */
export const sentence = (text: string): string => (/[.?!]$/.test(text) ? capital(text) : `${capital(text)}.`);

/** `a`, `a and b`, `a, b and c`. */
export const listInWords = (items: readonly string[]): string =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;

/** The first sentence of a text, with its full stop. */
export const firstSentence = (text: string): string => /^.*?[.?!](?=\s|$)/s.exec(text)?.[0] ?? text;
