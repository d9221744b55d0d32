import { stringify } from 'csv-stringify/sync';
import type { PastForecast } from '../core/vocabulary/accuracy.js';
import { COLUMNS } from '../core/spreadsheet/columns.js';
import { withGuard } from '../core/spreadsheet/guard.js';
import type {
  DueAxle,
  MeasureFirstAxle,
  PartsDemandItem,
  StoppedAxle,
  UnassessedAxle,
} from '../store/contract/reports.js';
import { positionInWords } from '../core/words.js';

/**
 * Writes reports as RFC 4180 CSV: a header row, CRLF, and text guarded against being run as a formula; numbers stay
 * numbers. Without a byte order mark, which most programs would take as part of the first column's name.
 */
function toCsv(columns: readonly string[], rows: readonly object[]): string {
  return stringify([...rows], {
    header: true,
    columns: [...columns],
    record_delimiter: 'windows',
    // Rows end in CRLF, but many readers also end a row at a lone CR or LF in a cell.
    quoted_match: /[\r\n]/,
    cast: {
      boolean: (value) => String(value),
      string: withGuard,
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
  const rows = items.map((item) => ({
    ...item,
    governingPad: item.governingPad && positionInWords(item.governingPad),
  }));
  return toCsv([...IDENTITY, 'overdue', ...FORECAST, 'part'], rows);
}

export function measureFirstCsv(items: readonly MeasureFirstAxle[]): string {
  const rows = items.map(({ reasons, ...item }) => ({
    ...item,
    governingPad: item.governingPad && positionInWords(item.governingPad),
    reasonCodes: reasons.map(({ code }) => code).join(' '),
    reasons: reasons.map(({ detail }) => detail).join(' '),
  }));
  return toCsv([...IDENTITY, ...FORECAST, 'reasonCodes', 'reasons'], rows);
}

export function stopsCsv(items: readonly StoppedAxle[]): string {
  const rows = items.map(({ stops, ...item }) => ({
    ...item,
    stops: stops.map(({ code, side, pad }) => [code, side, pad].filter(Boolean).join(' ')).join('; '),
  }));
  return toCsv([...IDENTITY, 'earlyDate', 'lastReadingDate', 'stops'], rows);
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

/** The visit spreadsheet; its cells already carry a guard against formulas, which imports remove. */
export const sheetHeader = (): string => sheetRows([[...COLUMNS]]);

export function sheetRows(rows: readonly string[][]): string {
  return stringify([...rows], { record_delimiter: 'windows', quoted_match: /[\r\n]/ });
}
