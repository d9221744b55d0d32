import { group } from 'd3-array';
import type { z } from 'zod';
import { entryOf, itemAt } from '../items.js';
import type { Issue } from '../refusal.js';
import { schemaIssues } from '../vocabulary/issues.js';
import { VISIT_PARTS, type VisitPart } from '../vocabulary/terms.js';
import type { EntryBody } from '../vocabulary/visit.js';
import { type Visit } from '../vocabulary/visit.js';
import type { Cell, SheetRow } from './cells.js';
import { partOf, VISIT_COLUMNS, type Column, type VisitColumn } from './columns.js';
import { columnOfField, columnOfItem, entryColumnsOf, itemFrom } from './rows.js';

/** Groups spreadsheet rows into visits and reports their errors by line and column. */

/** A stored visit, complete. */
export type KnownVisit = Visit & { arrival: number };

/** The rows of one visit, and its own members with the line of their first occurrence. */
export interface SheetVisit {
  date: string;
  workOrder: string | null;
  number: number | null;
  rows: SheetRow[];
  fields: Partial<Record<VisitColumn, { cell: Cell; line: number }>>;
}

export interface RowItem {
  item: object;
  row: SheetRow;
}

/** Records an error of a row. */
export type Refuse = (line: number, column: string | null, code: string, detail: string) => void;

type Keyed = { date: string; workOrder?: string | null };

/** The line of a visit's first row. */
export const firstLine = ({ rows }: SheetVisit): number => itemAt(rows, 0).line;

export const keyOf = ({ date, workOrder }: Keyed): string => `${date}|${workOrder ?? ''}`;

/**
 * Groups rows into visits, in the order of their first rows. Sorts visits of the same day and work order by their
 * numbers, so that they arrive in that order.
 */
export function gather(rows: readonly SheetRow[], refuse: Refuse): SheetVisit[] {
  const sheets = new Map<string, SheetVisit>();
  for (const row of rows) {
    const { date } = row.cells;
    const workOrder = (row.cells.workOrder ?? null) as string | null;
    const number = (row.cells.visit ?? null) as number | null;
    const key = `${keyOf({ date, workOrder })}|${number ?? ''}`;
    const sheet = sheets.get(key) ?? { date, workOrder, number, rows: [], fields: {} };
    sheets.set(key, sheet);
    if (row.entry === null && entryColumnsOf(row).length > 0) {
      refuse(
        row.line,
        'entry',
        'missing',
        `this cell must not be empty, because ${entryColumnsOf(row)[0]} is filled in`,
      );
      continue;
    }
    sheet.rows.push(row);
    collectVisitFields(sheet, row, refuse);
  }
  const inFileOrder = [...sheets.values()].filter(({ rows: own }) => own.length > 0);
  const inTurn = new Map(
    [...group(inFileOrder, keyOf)].map(([key, ofKey]) => [
      key,
      [...ofKey].sort((a, b) => (a.number ?? 1) - (b.number ?? 1)),
    ]),
  );
  return inFileOrder.map((sheet) => entryOf(inTurn, keyOf(sheet)).shift()!);
}

/** Collects the members of the visit itself, and refuses rows that differ in them. */
function collectVisitFields(sheet: SheetVisit, { line, cells }: SheetRow, refuse: Refuse): void {
  for (const column of VISIT_COLUMNS) {
    const cell = cells[column];
    if (cell === undefined) continue;
    const before = sheet.fields[column];
    if (!before) sheet.fields[column] = { cell, line };
    else if (before.cell !== cell && canonicalText(before.cell) !== canonicalText(cell)) {
      refuse(line, column, 'conflict', `line ${before.line} has a different ${column} for the same visit`);
    }
  }
}

export const cellsOf = ({ fields }: SheetVisit): Partial<Record<Column, Cell>> =>
  Object.fromEntries(Object.entries(fields).map(([column, { cell }]) => [column, cell]));

/** A valid body, with the row of each of its items. */
export interface Parsed<Body> {
  body: Body;
  rows: Record<VisitPart, SheetRow[]>;
}

export function parse<Body extends EntryBody>(
  sheet: SheetVisit,
  schema: z.ZodType<Body>,
  fields: object,
  refuse: Refuse,
): Parsed<Body> | null {
  const rows: Record<VisitPart, SheetRow[]> = {
    readings: [],
    notMeasured: [],
    conditions: [],
    work: [],
    torques: [],
  };
  for (const row of sheet.rows) if (row.entry !== null) rows[partOf(row.entry)].push(row);
  const items = VISIT_PARTS.filter((part) => rows[part].length > 0).map((part) => [
    part,
    rows[part].map(itemFrom),
  ]);
  const result = schema.safeParse({ ...fields, ...Object.fromEntries(items) });
  if (result.success) return { body: result.data, rows };
  const rowItems = Object.fromEntries(
    VISIT_PARTS.map((part) => [part, rows[part].map((row) => ({ item: {}, row }))]),
  ) as Record<VisitPart, RowItem[]>;
  report(sheet, rowItems, schemaIssues(result.error.issues) as Issue[], refuse);
  return null;
}

/** Reports each issue with its line and column. */
export function report(
  sheet: SheetVisit,
  rowItems: Record<VisitPart, RowItem[]>,
  issues: readonly Issue[],
  refuse: Refuse,
): void {
  for (const { path, detail } of issues) {
    const [member, index, ...inner] = path;
    const part = VISIT_PARTS.find((name) => name === member);
    if (!part) {
      const column = path.length > 0 ? columnOfField(path) : null;
      const line = sheet.fields[column as VisitColumn]?.line ?? firstLine(sheet);
      refuse(line, column, 'invalid', detail);
    } else if (typeof index !== 'number') {
      refuse(firstLine(sheet), 'entry', 'invalid', `${part} of this visit: ${detail}`);
    } else {
      const { row } = itemAt(rowItems[part], index);
      const column = columnOfItem(row, inner);
      const misplaced = detail === 'unknown field' ? `does not belong to an entry ${row.entry}` : detail;
      refuse(row.line, column, 'invalid', misplaced);
    }
  }
}

/** Names a new visit in an error by its line, since the caller does not know its id. */
export function withLines(lineOfNew: ReadonlyMap<string, number>) {
  return (issue: Issue): Issue => {
    const [id, line] = [...lineOfNew].find(([visitId]) => issue.detail.includes(visitId)) ?? [];
    return id === undefined ? issue : { ...issue, detail: issue.detail.replace(id, `of line ${line}`) };
  };
}

/** Members that the service adds in its answers. */
const ADDED = new Set(['id', 'mm', 'km', 'Nm']);

/** A canonical text for comparison: a missing member equals a null one. */
export function canonicalText(value: unknown): string {
  return JSON.stringify(value, (_name, member: unknown) => {
    if (typeof member !== 'object' || member === null || Array.isArray(member)) return member ?? undefined;
    const members = Object.entries(member).filter(([name, inner]) => inner != null && !ADDED.has(name));
    return Object.fromEntries(members.sort(([a], [b]) => (a < b ? -1 : 1)));
  });
}
