import type { RowError } from '../vocabulary/import.js';
import { identifyingText, normalText } from '../vocabulary/quantities.js';
import { COLUMNS, ENTRIES, kindOf, NEEDED_COLUMNS, type Column, type Entry } from './columns.js';
import { withoutGuard } from './guard.js';

/** A quantity as a cell gives it; without a unit of its own it is in the row's. */
export interface CellQuantity {
  value: number;
  unit?: string;
}

export type Cell = string | number | boolean | CellQuantity;

/** A row that could be read; `entry` is null on a row that only says something of its visit. */
export interface SheetRow {
  line: number;
  entry: Entry | null;
  cells: { vehicle: string; date: string } & Partial<Record<Column, Cell>>;
}

/** The columns of a file by position, or what is wrong with its header row. */
export function readHeader(names: readonly string[]): { columns: Column[]; errors: RowError[] } {
  const errors: RowError[] = [];
  const refuse = (column: string, code: string, detail: string) =>
    errors.push({ line: 1, column, detail, code });
  const columns = names.map((name) => name.trim() as Column);
  columns.forEach((name, index) => {
    if (!(COLUMNS as readonly string[]).includes(name)) {
      const shown = name.slice(0, 100);
      refuse(shown, 'unknown-column', `there is no column “${shown}”; those known are ${COLUMNS.join(', ')}`);
    } else if (columns.indexOf(name) < index) {
      refuse(name, 'column-twice', `the column ${name} stands in the header twice`);
    }
  });
  for (const name of NEEDED_COLUMNS) {
    if (!columns.includes(name)) refuse(name, 'missing-column', `the column ${name} is needed`);
  }
  return { columns, errors };
}

const NUMBER = /^(\d+)(?:([.,])(\d+))?(?:[eE][+-]?\d+)?$/;
const QUANTITY = /^([\d.,]+(?:[eE][+-]?\d+)?)\s*([a-zA-Z][a-zA-Z/0-9-]*)?$/;
const ENTRY_NAMES: ReadonlySet<string> = new Set(ENTRIES);
const TRUE = /^(true|yes)$/i;
const FALSE = /^(false|no)$/i;

/**
 * Reads the rows of one file. It remembers the file's decimal mark: a number with the other one is refused rather
 * than taken a thousandfold.
 *
 * @param separator what separates the file's cells
 */
export function rowReader(columns: readonly Column[], separator: string) {
  let mark: string | null = null;
  const kinds = columns.map(kindOf);

  /** @throws CellFault */
  function toNumber(text: string, column: Column): number {
    const match = NUMBER.exec(text);
    if (!match) throw new CellFault('not-a-number', `“${shorten(text)}” is not a number`);
    const [, whole, used, decimals] = match;
    if (used === undefined) return Number(text);
    if (mark !== null && used !== mark) {
      const detail = `“${shorten(text)}” has a decimal “${used}” where the rows above have “${mark}”`;
      throw new CellFault('mixed-decimal-marks', detail);
    }
    const grouped = /^[1-9]\d{0,2}$/.test(whole!) && decimals!.length === 3;
    if (grouped && (isOdometer(column) || (used === ',' && separator === ','))) {
      const detail = `“${text}” may have a thousands separator; write it without one`;
      throw new CellFault('ambiguous-number', detail);
    }
    mark = used;
    return Number(text.replace(',', '.'));
  }

  function toQuantity(text: string, column: Column): CellQuantity {
    const match = QUANTITY.exec(text);
    if (!match) throw new CellFault('not-a-number', `“${shorten(text)}” is not a number with a unit`);
    const value = toNumber(match[1]!, column);
    return match[2] === undefined ? { value } : { value, unit: match[2] };
  }

  function toCell(text: string, position: number): Cell {
    const column = columns[position]!;
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
        throw new CellFault('not-true-or-false', `“${shorten(text)}” is neither true nor false`);
      default:
        return text.trim();
    }
  }

  function toEntry(text: string): Entry {
    if (ENTRY_NAMES.has(text)) return text as Entry;
    const detail = `unknown entry “${shorten(text)}”: one of ${ENTRIES.join(', ')}`;
    throw new CellFault('unknown-entry', detail);
  }

  /** A row, or what is wrong with it; null where all its cells are empty. */
  return (line: number, texts: readonly string[]): SheetRow | RowError[] | null => {
    if (texts.every((text) => text.trim() === '')) return null;
    if (texts.length !== columns.length) {
      const detail = `this row has ${texts.length} cells, the header ${columns.length}`;
      return [{ line, column: null, detail, code: 'cell-count' }];
    }
    const cells: Partial<Record<Column, Cell>> = {};
    const errors: RowError[] = [];
    let entry: Entry | null = null;
    for (let position = 0; position < texts.length; position++) {
      const text = texts[position]!;
      if (text.trim() === '') continue;
      const column = columns[position]!;
      try {
        if (column === 'entry') entry = toEntry(text.trim());
        else cells[column] = toCell(text, position);
      } catch (fault) {
        if (!(fault instanceof CellFault)) throw fault;
        errors.push({ line, column, detail: fault.message, code: fault.code });
      }
    }
    for (const column of ['vehicle', 'date'] as const) {
      if (cells[column] === undefined) {
        errors.push({ line, column, detail: 'this cell must not be empty', code: 'missing' });
      }
    }
    return errors.length > 0 ? errors : { line, entry, cells: cells as SheetRow['cells'] };
  };
}

export type RowReader = ReturnType<typeof rowReader>;

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
