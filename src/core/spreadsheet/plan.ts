import type { z } from 'zod';
import { asHistoryVisit, inOrder, withEntry, type HistoryVisit } from '../history.js';
import type { Gauges } from '../gauges.js';
import { Refusal, type Issue } from '../refusal.js';
import { schemaIssues } from '../vocabulary/issues.js';
import type { VehicleBody } from '../vocabulary/vehicle.js';
import { EntryBody, VisitBody, type ReadingBody, type Visit } from '../vocabulary/visit.js';
import { checkOthersInHistory, checkPlaceInHistory, contentIssues, placeOf } from '../visitRules.js';
import type { RowError } from '../vocabulary/import.js';
import type { Cell, SheetRow } from './cells.js';
import { VISIT_PARTS, type VisitPart } from '../vocabulary/terms.js';
import { partOf, VISIT_COLUMNS, type Column, type VisitColumn } from './columns.js';
import {
  columnOfField,
  columnOfItem,
  entryColumnsOf,
  FIELD_COLUMNS,
  fieldsFrom,
  itemFrom,
  VISIT_FIELDS,
} from './rows.js';

/** A visit that is stored, whole. */
export type KnownVisit = Visit & { arrival: number };

/** What a file adds to one vehicle. Visits are in the order in which they are to arrive. */
export interface VehiclePlan {
  visits: { id: string; body: VisitBody }[];
  entries: { visitId: string; entry: EntryBody }[];
  rowsAdded: number;
  rowsSkipped: number;
}

/** The rows of one visit, and what they say of it with the line that said so first. */
interface SheetVisit {
  date: string;
  workOrder: string | null;
  number: number | null;
  rows: SheetRow[];
  said: Partial<Record<VisitColumn, { cell: Cell; line: number }>>;
}

/** A visit that is to be, with the rows behind it; `arrival` is its order among those of the file. */
interface NewVisit {
  id: string;
  body: VisitBody;
  arrival: number;
  sheet: SheetVisit;
  kept: Record<VisitPart, Settled[]>;
}

interface Settled {
  item: object;
  row: SheetRow;
}

/**
 * Holds the rows of one vehicle against what is known of it: known ones are passed over, new ones make visits or add
 * to them, and whatever `POST` of the same would refuse is an error of its row.
 *
 * @param known the vehicle's visits in the order in which they took place
 * @param gauges those that readings may name
 * @param latestDate today's date where it is latest on earth
 */
export function planVehicle(
  vehicle: VehicleBody,
  known: readonly KnownVisit[],
  rows: readonly SheetRow[],
  { gauges, latestDate, newId }: { gauges: Gauges; latestDate: string; newId: () => string },
): { plan: VehiclePlan; errors: RowError[] } {
  const errors: RowError[] = [];
  const plan: VehiclePlan = { visits: [], entries: [], rowsAdded: 0, rowsSkipped: 0 };
  const refuse = (line: number, column: string | null, code: string, detail: string): void => {
    errors.push({ line, column, detail, code });
  };
  const sheets = gather(rows, refuse);
  const knownOf = groupBy(
    [...known].sort((a, b) => a.arrival - b.arrival),
    keyOf,
  );
  const sheetsOf = groupBy(sheets, keyOf);
  const workOrders = new Map(
    known.flatMap((visit): [string, string][] =>
      visit.workOrder == null ? [] : [[workOrderKey(visit), `visit ${visit.id} of ${visit.date}`]],
    ),
  );
  const lineOfNew = new Map<string, number>();
  let history: HistoryVisit[] = [...known];

  /** The stored visit that rows belong to, null where they make a new one, undefined where they are refused. */
  function belongsTo(sheet: SheetVisit): KnownVisit | null | undefined {
    const peers = knownOf.get(keyOf(sheet)) ?? [];
    const others = sheetsOf.get(keyOf(sheet))!;
    const { line } = sheet.rows[0]!;
    if (sheet.number === null && (peers.length > 1 || others.length > 1)) {
      const detail = 'several visits have this vehicle, date and work order: number them in this column';
      refuse(line, 'visit', 'ambiguous-visit', detail);
      return undefined;
    }
    const number = sheet.number ?? 1;
    const peer = peers[number - 1];
    if (peer) return peer;
    const rank = others.filter((other) => (other.number ?? 1) > peers.length).indexOf(sheet);
    if (number === peers.length + rank + 1) return null;
    refuse(line, 'visit', 'visit-number', 'visits of one vehicle, date and work order are counted from 1 on');
    return undefined;
  }

  /** A new visit, as far as it can be told without its place among the others. */
  function begin(sheet: SheetVisit, index: number): NewVisit | null {
    const { date, workOrder } = sheet;
    const parsed = parse(sheet, VisitBody, { date, workOrder, ...fieldsFrom(cellsOf(sheet)) }, refuse);
    if (!parsed) return null;
    const kept = settle(parsed, null, refuse);
    const body: VisitBody = { ...parsed.body, ...itemsOf(kept) };
    const { line } = sheet.rows[0]!;
    if (body.workOrder != null) {
      const taken = workOrders.get(workOrderKey(body));
      if (taken !== undefined) {
        const detail = `work order ${body.workOrder} is recorded already, as ${taken}`;
        refuse(line, 'workOrder', 'work-order-known', detail);
        return null;
      }
      workOrders.set(workOrderKey(body), `line ${line} of ${date}`);
    }
    return { id: newId(), body, arrival: Number.MAX_SAFE_INTEGER - sheets.length + index, sheet, kept };
  }

  /** Takes a new visit into the history; what stands against that is returned, and it stays out. */
  function takeIn({ id, body, arrival, sheet }: NewVisit): readonly Issue[] {
    // Its place hangs on nothing else.
    const { date, time, odometer, odometerReplaced } = body;
    const placed = asHistoryVisit(id, { date, time, odometer, odometerReplaced }, arrival);
    const after = inOrder([...history, placed]);
    try {
      checkPlaceInHistory(
        { vehicle, visits: after },
        id,
        latestDate,
        contentIssues(vehicle, body, [], gauges),
      );
      // A visit without a time may put the others of its day into another order.
      if (history.some((other) => other.date === date))
        checkOthersInHistory({ vehicle, visits: history }, { vehicle, visits: after });
    } catch (refusal) {
      if (!(refusal instanceof Refusal)) throw refusal;
      return refusal.issues;
    }
    history = after;
    lineOfNew.set(id, sheet.rows[0]!.line);
    return [];
  }

  /**
   * Takes all that fit into the history known before. One that does not may fit once others are there: corrections,
   * too, can leave an odometer that only a visit recorded later explains.
   *
   * @returns those that do not fit, with what stands against each
   */
  function takeInAll(fresh: readonly NewVisit[]): Map<NewVisit, readonly Issue[]> {
    history = [...known];
    lineOfNew.clear();
    const waiting = new Map<NewVisit, readonly Issue[]>(fresh.map((visit) => [visit, []]));
    for (let before = 0; before !== waiting.size;) {
      before = waiting.size;
      for (const visit of [...waiting.keys()]) {
        const issues = takeIn(visit);
        if (issues.length > 0) waiting.set(visit, issues);
        else waiting.delete(visit);
      }
    }
    return waiting;
  }

  /**
   * Takes visits in by date, as a shop records them: an odometer that is doubted is known for it once later ones are
   * read. Where that leaves any out they are tried in the order of the file, which in an export is that of their
   * arrival: what could be recorded in that order can be imported again.
   */
  function create(fresh: readonly NewVisit[]): void {
    const byDate = [...fresh].sort((a, b) =>
      a.body.date < b.body.date ? -1 : Number(a.body.date > b.body.date),
    );
    const isWhole = [byDate, fresh].some((order) => takeInAll(order).size === 0);
    const waiting = isWhole ? new Map<NewVisit, readonly Issue[]>() : takeInAll(byDate);
    for (const visit of fresh) {
      const { id, body, sheet, kept } = visit;
      const issues = waiting.get(visit);
      if (issues) {
        report(sheet, kept, issues.map(naming(lineOfNew)), refuse);
        continue;
      }
      plan.visits.push({ id, body });
      const added = countOf(kept);
      const bare = sheet.rows.filter(({ entry }) => entry === null).length;
      plan.rowsAdded += added + bare;
      plan.rowsSkipped += sheet.rows.length - added - bare;
    }
  }

  function extend(sheet: SheetVisit, visit: KnownVisit): void {
    const fields = fieldsFrom(cellsOf(sheet));
    const newRoadTest = visit.roadTest == null ? fields.roadTest : undefined;
    for (const field of VISIT_FIELDS) {
      if (fields[field] === undefined || (field === 'roadTest' && newRoadTest !== undefined)) continue;
      if (essence(fields[field]) === essence(visit[field])) continue;
      const column = (FIELD_COLUMNS[field] ?? [field as VisitColumn]).find((name) => sheet.said[name])!;
      const detail = `visit ${visit.id} has another ${field}`;
      refuse(sheet.said[column]!.line, column, 'conflict', detail);
    }
    if (newRoadTest === undefined && sheet.rows.every(({ entry }) => entry === null)) {
      plan.rowsSkipped += sheet.rows.length;
      return;
    }
    const parsed = parse(sheet, EntryBody, { roadTest: newRoadTest }, refuse);
    if (!parsed) return;
    const kept = settle(parsed, visit, refuse);
    const added = countOf(kept);
    plan.rowsAdded += added;
    plan.rowsSkipped += sheet.rows.length - added;
    if (added === 0 && newRoadTest === undefined) return;
    const entry: EntryBody = { ...parsed.body, ...itemsOf(kept) };
    const issues = contentIssues(vehicle, entry, visit.readings, gauges);
    report(sheet, kept, issues, refuse);
    if (issues.length > 0) return;
    plan.entries.push({ visitId: visit.id, entry });
  }

  const fresh = sheets.flatMap((sheet, index): NewVisit[] => {
    const visit = belongsTo(sheet);
    if (visit) extend(sheet, visit);
    const begun = visit === null ? begin(sheet, index) : null;
    return begun ? [begun] : [];
  });
  create(fresh);
  return { plan, errors };
}

/** A vehicle's history as it will be once a plan is carried out. */
export function historyAfter(
  known: readonly HistoryVisit[],
  { visits, entries }: VehiclePlan,
): HistoryVisit[] {
  const entryOf = new Map(entries.map(({ visitId, entry }) => [visitId, entry]));
  const extended = known.map((visit) => {
    const entry = entryOf.get(visit.id);
    return entry ? withEntry(visit, entry) : visit;
  });
  const added = visits.map(({ id, body }, index) =>
    asHistoryVisit(id, body, Number.MAX_SAFE_INTEGER - visits.length + index),
  );
  return inOrder([...extended, ...added]);
}

type Refuse = (line: number, column: string | null, code: string, detail: string) => void;
type Keyed = { date: string; workOrder?: string | null };

const keyOf = ({ date, workOrder }: Keyed): string => `${date}|${workOrder ?? ''}`;
const workOrderKey = ({ shop, workOrder }: { shop?: string | null; workOrder?: string | null }): string =>
  JSON.stringify([shop ?? '', workOrder]);

function groupBy<Item>(items: readonly Item[], key: (item: Item) => string): Map<string, Item[]> {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const group = groups.get(key(item));
    if (group) group.push(item);
    else groups.set(key(item), [item]);
  }
  return groups;
}

/**
 * The visits that the rows make, in the order of their first rows; those of one day and work order take turns in the
 * order of their numbers, so that they arrive as they are counted.
 */
function gather(rows: readonly SheetRow[], refuse: Refuse): SheetVisit[] {
  const sheets = new Map<string, SheetVisit>();
  for (const row of rows) {
    const { date } = row.cells;
    const workOrder = (row.cells.workOrder ?? null) as string | null;
    const number = (row.cells.visit ?? null) as number | null;
    const key = `${keyOf({ date, workOrder })}|${number ?? ''}`;
    const sheet = sheets.get(key) ?? { date, workOrder, number, rows: [], said: {} };
    sheets.set(key, sheet);
    if (row.entry === null && entryColumnsOf(row).length > 0) {
      refuse(
        row.line,
        'entry',
        'missing',
        `this cell must not be empty where ${entryColumnsOf(row)[0]} is not`,
      );
      continue;
    }
    sheet.rows.push(row);
    hear(sheet, row, refuse);
  }
  const inFileOrder = [...sheets.values()].filter(({ rows: own }) => own.length > 0);
  const inTurn = new Map(
    [...groupBy(inFileOrder, keyOf)].map(([key, group]) => [
      key,
      [...group].sort((a, b) => (a.number ?? 1) - (b.number ?? 1)),
    ]),
  );
  return inFileOrder.map((sheet) => inTurn.get(keyOf(sheet))!.shift()!);
}

function hear(sheet: SheetVisit, { line, cells }: SheetRow, refuse: Refuse): void {
  for (const column of VISIT_COLUMNS) {
    const cell = cells[column];
    if (cell === undefined) continue;
    const before = sheet.said[column];
    if (!before) sheet.said[column] = { cell, line };
    else if (before.cell !== cell && essence(before.cell) !== essence(cell)) {
      refuse(line, column, 'conflict', `line ${before.line} has another ${column} for the same visit`);
    }
  }
}

const cellsOf = ({ said }: SheetVisit): Partial<Record<Column, Cell>> =>
  Object.fromEntries(Object.entries(said).map(([column, { cell }]) => [column, cell]));

/** A body that its schema has taken, with the row behind each of its items. */
interface Parsed<Body> {
  body: Body;
  rows: Record<VisitPart, SheetRow[]>;
}

function parse<Body extends EntryBody>(
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
  const kept = Object.fromEntries(
    VISIT_PARTS.map((part) => [part, rows[part].map((row) => ({ item: {}, row }))]),
  ) as Record<VisitPart, Settled[]>;
  report(sheet, kept, schemaIssues(result.error.issues) as Issue[], refuse);
  return null;
}

/** Tells each issue with the line and column that it is about. */
function report(
  sheet: SheetVisit,
  kept: Record<VisitPart, Settled[]>,
  issues: readonly Issue[],
  refuse: Refuse,
): void {
  for (const { path, detail } of issues) {
    const [member, index, ...inner] = path;
    const part = VISIT_PARTS.find((name) => name === member);
    if (!part) {
      const column = path.length > 0 ? columnOfField(path) : null;
      const line = sheet.said[column as VisitColumn]?.line ?? sheet.rows[0]!.line;
      refuse(line, column, 'invalid', detail);
    } else if (typeof index !== 'number') {
      refuse(sheet.rows[0]!.line, 'entry', 'invalid', `${part} of this visit: ${detail}`);
    } else {
      const { row } = kept[part][index]!;
      const column = columnOfItem(row, inner);
      const misplaced = detail === 'unknown field' ? `does not belong to an entry ${row.entry}` : detail;
      refuse(row.line, column, 'invalid', misplaced);
    }
  }
}

/** A visit that is not stored has no id that anybody knows: name its line. */
function naming(lineOfNew: ReadonlyMap<string, number>) {
  return (issue: Issue): Issue => {
    const [id, line] = [...lineOfNew].find(([visitId]) => issue.detail.includes(visitId)) ?? [];
    return id === undefined ? issue : { ...issue, detail: issue.detail.replace(id, `of line ${line}`) };
  };
}

/**
 * Keeps the items that are new. A reading's place may stand once in a visit; of anything else a visit may hold
 * several alike, so the file's are matched one by one with those that are known.
 *
 * @param visit the visit the items belong to; null where it is new
 */
function settle(
  { body, rows }: Parsed<EntryBody>,
  visit: KnownVisit | null,
  refuse: Refuse,
): Record<VisitPart, Settled[]> {
  const settled = VISIT_PARTS.map((part): [VisitPart, Settled[]] => {
    const items = (body[part] ?? []).map((item, index) => ({ item, row: rows[part][index]! }));
    const isReading = part === 'readings';
    return [
      part,
      isReading ? settleReadings(items, visit, refuse) : settleOthers(part, items, visit, refuse),
    ];
  });
  return Object.fromEntries(settled) as Record<VisitPart, Settled[]>;
}

function settleReadings(items: readonly Settled[], visit: KnownVisit | null, refuse: Refuse): Settled[] {
  const seen = new Map<string, { reading: ReadingBody; where: string }>();
  for (const reading of visit?.readings ?? []) {
    seen.set(placeOf(reading), { reading, where: `visit ${visit!.id}` });
  }
  return items.filter(({ item, row }) => {
    const reading = item as ReadingBody;
    const place = placeOf(reading);
    const before = seen.get(place);
    if (!before) {
      seen.set(place, { reading, where: `line ${row.line}` });
      return true;
    }
    if (!sameAtPlace(before.reading, reading)) {
      refuse(row.line, 'value', 'conflict', `${before.where} has another reading of this place`);
    }
    return false;
  });
}

/** Whether two readings of one place say the same: all that a place does not say. */
const sameAtPlace = (a: ReadingBody, b: ReadingBody): boolean =>
  a.value === b.value && a.unit === b.unit && (a.gauge ?? null) === (b.gauge ?? null);

/** Where an item other than a reading belongs: two of one place are said of the same thing. */
const PLACE_MEMBERS: Record<Exclude<VisitPart, 'readings'>, readonly string[]> = {
  notMeasured: ['axle', 'side', 'part', 'pad'],
  conditions: ['part', 'axle', 'side', 'pad', 'state'],
  work: ['kind', 'axle', 'side'],
  torques: ['fastener', 'axle', 'side', 'position'],
};
/** What a conflict of such items is shown to be about. */
const TELLING_COLUMNS: Record<Exclude<VisitPart, 'readings'>, Column> = {
  notMeasured: 'why',
  conditions: 'state',
  work: 'entry',
  torques: 'value',
};

function settleOthers(
  part: Exclude<VisitPart, 'readings'>,
  items: readonly Settled[],
  visit: KnownVisit | null,
  refuse: Refuse,
): Settled[] {
  if (!visit || visit[part].length === 0) return [...items];
  const unmatched = groupBy<object>(visit[part], essence);
  const fresh = items.filter(({ item }) => unmatched.get(essence(item))?.pop() === undefined);
  const placeOfItem = (item: object): string =>
    JSON.stringify(PLACE_MEMBERS[part].map((member) => (item as Record<string, unknown>)[member] ?? null));
  const taken = new Set([...unmatched.values()].flat().map(placeOfItem));
  return fresh.filter(({ item, row }) => {
    if (!taken.has(placeOfItem(item))) return true;
    refuse(row.line, TELLING_COLUMNS[part], 'conflict', `visit ${visit.id} has another entry of this place`);
    return false;
  });
}

const itemsOf = (kept: Record<VisitPart, Settled[]>): Partial<Record<VisitPart, never>> =>
  Object.fromEntries(
    VISIT_PARTS.filter((part) => kept[part].length > 0).map((part) => [
      part,
      kept[part].map(({ item }) => item),
    ]),
  );
const countOf = (kept: Record<VisitPart, Settled[]>): number =>
  VISIT_PARTS.reduce((count, part) => count + kept[part].length, 0);

/** What the service itself adds to an item when it answers. */
const ADDED = new Set(['id', 'mm', 'km', 'Nm']);

/** A text that two values share when they say the same: a missing member says what a null one does. */
function essence(value: unknown): string {
  return JSON.stringify(value, (_name, member: unknown) => {
    if (typeof member !== 'object' || member === null || Array.isArray(member)) return member ?? undefined;
    const members = Object.entries(member).filter(([name, inner]) => inner != null && !ADDED.has(name));
    return Object.fromEntries(members.sort(([a], [b]) => (a < b ? -1 : 1)));
  });
}
