import { itemAt } from '../items.js';
import type { RowError } from '../vocabulary/import.js';
import { identifyingText, normalText } from '../vocabulary/quantities.js';
import {
  ENTRIES,
  kindOf,
  NEEDED_COLUMNS,
  spellings,
  TERMS,
  toColumn,
  type Column,
  type Entry,
} from './columns.js';
import { dateReader, toTime, type DateForm } from './dates.js';
import { withoutGuard } from './guard.js';

/** A quantity in a cell; if it has no unit, the row's applies. */
export interface CellQuantity {
  value: number;
  unit?: string;
}

export type Cell = string | number | boolean | CellQuantity;

/** A valid row; `entry` is null on a row that only describes its visit. */
export interface SheetRow {
  line: number;
  entry: Entry | null;
  cells: { vehicle: string; date: string } & Partial<Record<Column, Cell>>;
}

/** The code of a heading that is not the name of a column; the error's column is the heading. */
export const UNKNOWN_COLUMN = 'unknown-column';

/** Reads the columns of a file, by position, and the errors of its header row. Ignores empty trailing cells. */
export function readHeader(names: readonly string[]): { columns: Column[]; errors: RowError[] } {
  const errors: RowError[] = [];
  const refuse = (column: string, code: string, detail: string) =>
    errors.push({ line: 1, column, detail, code });
  let width = names.length;
  while (width > 1 && itemAt(names, width - 1).trim() === '') width--;
  const columns = names.slice(0, width).map((name) => toColumn(name) ?? (name.trim() as Column));
  columns.forEach((name, index) => {
    if (toColumn(name) === undefined) {
      const shown = name.slice(0, 100);
      const detail = shown === '' ? 'this heading is empty' : `“${shown}” is not the name of a column`;
      refuse(shown, UNKNOWN_COLUMN, `${detail}; docs/imports.md lists the names`);
    } else if (columns.indexOf(name) < index) {
      refuse(name, 'column-twice', `the heading ${name} appears twice; remove one`);
    }
  });
  for (const name of NEEDED_COLUMNS) {
    if (!columns.includes(name)) refuse(name, 'missing-column', `the column ${name} is missing; add it`);
  }
  return { columns, errors };
}

const NUMBER = /^(\d+)(?:([.,])(\d+))?(?:[eE][+-]?\d+)?$/;
const QUANTITY = /^([\d.,\s]+(?:[eE][+-]?\d+)?)\s*([a-zA-Z][a-zA-Z/0-9-]*)?$/;
/** Thousands separated by a space, a no-break space or a thin space, as in `61 240`. */
const GROUPED = /^\d{1,3}(?:[ \u00a0\u2009\u202f]\d{3})+(?=$|[.,])/;
const withoutGroups = (text: string): string =>
  text.trim().replace(GROUPED, (digits) => digits.replace(/\D/g, ''));
const TRUE = /^(true|yes)$/i;
const FALSE = /^(false|no)$/i;

/**
 * Reads the rows of one file. Remembers the file's decimal mark and rejects numbers with the other one, which could be
 * off by a factor of 1000.
 *
 * @param separator the file's cell separator
 * @param dates the file's date format
 */
export function rowReader(columns: readonly Column[], separator: string, dates: DateForm) {
  const toDate = dateReader(dates);
  let mark: string | null = null;
  const kinds = columns.map(kindOf);

  /** @throws CellFault */
  function toNumber(text: string, column: Column): number {
    const digits = withoutGroups(text);
    const match = NUMBER.exec(digits);
    if (!match)
      throw new CellFault('not-a-number', `“${shorten(text)}” is not a number; write one such as 6.5`);
    const [, whole, used, decimals] = match;
    if (used === undefined) return Number(digits);
    if (mark !== null && used !== mark) {
      const detail = `“${shorten(text)}” has “${used}” before its decimals, but rows above have “${mark}”; use one of them in the whole file`;
      throw new CellFault('mixed-decimal-marks', detail);
    }
    const grouped = /^[1-9]\d{0,2}$/.test(whole!) && decimals!.length === 3;
    if (grouped && (isOdometer(column) || (used === ',' && separator === ','))) {
      const detail = `“${text}” is ambiguous: “${used}” could separate thousands or decimals; write the number without it`;
      throw new CellFault('ambiguous-number', detail);
    }
    mark = used;
    return Number(digits.replace(',', '.'));
  }

  function toQuantity(text: string, column: Column): CellQuantity {
    const match = QUANTITY.exec(text);
    if (!match) {
      const detail = `“${shorten(text)}” is not a number with a unit; write one such as 11 mm`;
      throw new CellFault('not-a-number', detail);
    }
    const value = toNumber(itemAt(match, 1).trim(), column);
    return match[2] === undefined
      ? { value }
      : { value, unit: UNITS.get(match[2].toLowerCase()) ?? match[2] };
  }

  function toCell(text: string, position: number): Cell {
    const column = itemAt(columns, position);
    switch (kinds[position]) {
      case 'free':
        return normalText(withoutGuard(text));
      case 'name':
        return identifyingText(withoutGuard(text));
      case 'number':
        return toNumber(text.trim(), column);
      case 'quantity':
        return toQuantity(text.trim(), column);
      case 'truth':
        if (TRUE.test(text.trim())) return true;
        if (FALSE.test(text.trim())) return false;
        throw new CellFault('not-true-or-false', `“${shorten(text)}” is not valid here; write true or false`);
      case 'date':
        return valueOrThrow(toDate(text.trim()), 'not-a-date');
      case 'time':
        return toTime(text.trim());
      default:
        return TERMS[column]?.get(text.trim().toLowerCase()) ?? text.trim();
    }
  }

  function toEntry(text: string): Entry {
    const entry = ENTRY_SPELLINGS.get(text.toLowerCase());
    if (entry !== undefined) return entry as Entry;
    const detail = `“${shorten(text)}” is not an entry; write one of ${ENTRIES.join(', ')}`;
    throw new CellFault('unknown-entry', detail);
  }

  /** A row, or its errors; null if all its cells are empty. */
  return (line: number, texts: readonly string[]): SheetRow | RowError[] | null => {
    if (texts.every((text) => text.trim() === '')) return null;
    const isLonger = texts.slice(columns.length).some((text) => text.trim() !== '');
    if (isLonger || texts.length < columns.length) {
      const detail = `this row has ${texts.length} cells but the heading row has ${columns.length}; put quotes around a cell that contains the separator`;
      return [{ line, column: null, detail, code: 'cell-count' }];
    }
    const cells: Partial<Record<Column, Cell>> = {};
    const errors: RowError[] = [];
    let entry: Entry | null = null;
    for (let position = 0; position < columns.length; position++) {
      const text = itemAt(texts, position);
      if (text.trim() === '') continue;
      const column = itemAt(columns, position);
      try {
        if (column === 'entry') entry = toEntry(text.trim());
        else cells[column] = toCell(text, position);
      } catch (fault) {
        if (!(fault instanceof CellFault)) throw fault;
        errors.push({ line, column, detail: fault.message, code: fault.code });
      }
    }
    for (const column of ['vehicle', 'date'] as const) {
      if (cells[column] === undefined && !errors.some((error) => error.column === column)) {
        errors.push({ line, column, detail: `every row needs a ${column}`, code: 'missing' });
      }
    }
    return errors.length > 0 ? errors : { line, entry, cells: cells as SheetRow['cells'] };
  };
}

export type RowReader = ReturnType<typeof rowReader>;

const ENTRY_SPELLINGS = spellings(ENTRIES);
const UNITS = TERMS.unit!;

/** @throws CellFault if the cell is invalid; its message says what is expected */
function valueOrThrow(read: { value: string } | { detail: string }, code: string): string {
  if ('detail' in read) throw new CellFault(code, read.detail);
  return read.value;
}

class CellFault extends Error {
  constructor(
    readonly code: string,
    detail: string,
  ) {
    super(detail);
  }
}

const isOdometer = (column: Column): boolean => column.startsWith('odometer');
const shorten = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text);
