import { stringify } from 'csv-stringify/sync';
import type { PastForecast } from '../core/vocabulary/accuracy.js';
import { COLUMNS } from '../core/spreadsheet/columns.js';
import type { DueAxle, MeasureFirstAxle, PartsDemandItem, UnassessedAxle } from '../store/store.js';
import { padInWords } from './words.js';

/**
 * Reports as RFC 4180 CSV: a header row, CRLF, and no text that a spreadsheet would run as a formula (OWASP, "CSV
 * Injection"); numbers stay numbers. Without a byte order mark, which would become part of the first column's name for
 * most programs.
 */
function toCsv(columns: readonly string[], rows: readonly object[]): string {
  return stringify([...rows], {
    header: true,
    columns: [...columns],
    record_delimiter: 'windows',
    escape_formulas: true,
    // Rows end in CRLF, but a lone CR or LF in a cell would end one as well for many readers.
    quoted_match: /[\r\n]/,
    cast: {
      boolean: (value) => String(value),
      // The one beginning that the library leaves alone.
      string: (value) => (value.startsWith('\n') ? `'${value}` : value),
    },
  });
}

const IDENTITY = ['vehicleId', 'externalId', 'registration', 'fleet', 'model', 'axle'] as const;
const FORECAST = [
  'chance',
  'earlyDate',
  'medianDate',
  'lateDate',
  'governingPad',
  'limitMm',
  'limitSource',
  'lastReadingDate',
] as const;

export function dueSoonCsv(items: readonly DueAxle[]): string {
  const rows = items.map((item) => ({ ...item, governingPad: padInWords(item) }));
  return toCsv([...IDENTITY, 'overdue', ...FORECAST], rows);
}

export function measureFirstCsv(items: readonly MeasureFirstAxle[]): string {
  const rows = items.map(({ reasons, ...item }) => ({
    ...item,
    governingPad: padInWords(item),
    reasonCodes: reasons.map(({ code }) => code).join(' '),
    reasons: reasons.map(({ detail }) => detail).join(' '),
  }));
  return toCsv([...IDENTITY, ...FORECAST, 'reasonCodes', 'reasons'], rows);
}

export function unassessedCsv(items: readonly UnassessedAxle[]): string {
  const rows = items.map(({ reason, ...item }) => ({
    ...item,
    reasonCode: reason.code,
    reason: reason.detail,
  }));
  return toCsv([...IDENTITY, 'lastReadingDate', 'reasonCode', 'reason'], rows);
}

const FORECAST_ACCURACY = [
  ...IDENTITY,
  'forecastDate',
  'readings',
  'set',
  'experience',
  'earlyDate',
  'medianDate',
  'lateDate',
  'reachedDate',
  'howKnown',
  'errorDays',
  'errorKm',
  'inside80',
  'twoPointErrorDays',
  'lineErrorDays',
] as const;

export function forecastAccuracyCsv(items: readonly PastForecast[]): string {
  return toCsv(FORECAST_ACCURACY, items);
}

const PARTS_DEMAND = ['month', 'fleet', 'model', 'axle', 'item', 'expected', 'low', 'high'] as const;

export function partsDemandCsv(items: readonly PartsDemandItem[]): string {
  return toCsv(PARTS_DEMAND, items);
}

/** The spreadsheet of visits; its cells guard themselves against being run as formulas, and imports undo that. */
export const sheetHeader = (): string => sheetRows([[...COLUMNS]]);

export function sheetRows(rows: readonly string[][]): string {
  return stringify([...rows], { record_delimiter: 'windows', quoted_match: /[\r\n]/ });
}
