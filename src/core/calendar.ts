/**
 * Calendar days as whole numbers since 1970-01-01, so that a difference is a number of days whatever the time zone.
 * A full-date is RFC 3339's `YYYY-MM-DD`.
 */

const MS_PER_DAY = 86_400_000;

/** Every month has these days. */
const IN_EVERY_MONTH = 28;
/** `Date.UTC` takes smaller numbers as years of the twentieth century. */
const FIRST_YEAR = 100;

/** @throws RangeError when the text is not a full-date */
export function toDay(fullDate: string): number {
  // Converts most dates without the parser, which takes several times as long; an outlook has some hundred.
  const year = 100 * twoDigits(fullDate, 0) + twoDigits(fullDate, 2);
  const month = twoDigits(fullDate, 5);
  const day = twoDigits(fullDate, 8);
  const isPlain = fullDate.length === 10 && fullDate[4] === '-' && fullDate[7] === '-';
  if (isPlain && year >= FIRST_YEAR && month >= 1 && month <= 12 && day >= 1 && day <= IN_EVERY_MONTH) {
    return Date.UTC(year, month - 1, day) / MS_PER_DAY;
  }
  const ms = Date.parse(`${fullDate}T00:00:00Z`);
  if (Number.isNaN(ms)) throw new RangeError(`not a full-date: ${fullDate}`);
  return ms / MS_PER_DAY;
}

const ZERO = '0'.charCodeAt(0);

/** NaN if there are no two digits. */
function twoDigits(text: string, at: number): number {
  const tens = text.charCodeAt(at) - ZERO;
  const ones = text.charCodeAt(at + 1) - ZERO;
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? 10 * tens + ones : NaN;
}

export function toFullDate(day: number): string {
  return new Date(day * MS_PER_DAY).toISOString().slice(0, 10);
}

/** Formats are cached, since creating one takes some fifty times as long as using it. */
const formats = new Map<string, Intl.DateTimeFormat>();

function formatIn(timeZone: string): Intl.DateTimeFormat {
  const options = { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' } as const;
  const format = formats.get(timeZone) ?? new Intl.DateTimeFormat('en-CA', options);
  formats.set(timeZone, format);
  return format;
}

/** The latest date computed in each time zone; valid within its minute, since time zones differ by whole minutes. */
const latestDates = new Map<string, { minute: number; date: string }>();

/** The calendar date of an instant in an IANA time zone. */
export function dateIn(instant: Date, timeZone: string): string {
  const minute = Math.floor(instant.getTime() / 60_000);
  const latest = latestDates.get(timeZone);
  if (latest?.minute === minute) return latest.date;
  const date = formatIn(timeZone).format(instant);
  latestDates.set(timeZone, { minute, date });
  return date;
}

/** The latest calendar date anywhere on earth at an instant: the date at UTC+14. */
export function latestDateAt(instant: Date): string {
  return new Date(instant.getTime() + 14 * 3_600_000).toISOString().slice(0, 10);
}
