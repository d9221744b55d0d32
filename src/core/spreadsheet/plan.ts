import { ascending, group, sum } from 'd3-array';
import type { Gauges } from '../gauges.js';
import { asHistoryVisit, inOrder, withEntry, type HistoryVisit } from '../history.js';
import { Refusal, type Issue } from '../refusal.js';
import { checkOthersInHistory, checkPlaceInHistory, contentIssues } from '../visitRules.js';
import type { RowError } from '../vocabulary/import.js';
import type { VisitPart } from '../vocabulary/terms.js';
import type { VehicleBody } from '../vocabulary/vehicle.js';
import { EntryBody, VisitBody } from '../vocabulary/visit.js';
import type { SheetRow } from './cells.js';
import { FIELD_COLUMNS, fieldsFrom, VISIT_FIELDS } from './rows.js';
import { selectNew, itemsOf, countOf } from './settling.js';
import {
  firstLine,
  keyOf,
  gather,
  cellsOf,
  parse,
  report,
  withLines,
  canonicalText,
  type KnownVisit,
  type SheetVisit,
  type RowItem,
  type Refuse,
} from './sheetVisits.js';

/** What a file adds to one vehicle. Visits are in order of arrival. */
export interface VehiclePlan {
  visits: { id: string; body: VisitBody }[];
  entries: { visitId: string; entry: EntryBody }[];
  rowsAdded: number;
  rowsSkipped: number;
}

/** A new visit, with its rows; `arrival` is its order among those of the file. */
interface NewVisit {
  id: string;
  body: VisitBody;
  arrival: number;
  sheet: SheetVisit;
  rowItems: Record<VisitPart, RowItem[]>;
}

/** The vehicle and settings that a planned visit is checked against. */
interface Rules {
  vehicle: VehicleBody;
  /** The gauges that readings may name. */
  gauges: Gauges;
  /** Today's date at UTC+14, the latest on earth. */
  latestDate: string;
}

/**
 * Compares the rows of one vehicle with its records. Skips known rows, turns new ones into visits or additions, and
 * reports whatever a `POST` of the same content would refuse as an error of its row.
 *
 * @param known the vehicle's visits in chronological order
 */
export function planVehicle(
  vehicle: VehicleBody,
  known: readonly KnownVisit[],
  rows: readonly SheetRow[],
  { gauges, latestDate, newId }: Omit<Rules, 'vehicle'> & { newId: () => string },
): { plan: VehiclePlan; errors: RowError[] } {
  const errors: RowError[] = [];
  const refuse: Refuse = (line, column, code, detail) => {
    errors.push({ line, column, detail, code });
  };
  const rules = { vehicle, gauges, latestDate };
  const sheets = gather(rows, refuse);
  const belongsTo = matcher(sheets, known, refuse);
  const workOrders = workOrdersOf(known);
  const additions: Addition[] = [];
  const fresh: NewVisit[] = [];
  sheets.forEach((sheet, index) => {
    const visit = belongsTo(sheet);
    if (visit) additions.push(extend(sheet, visit, rules, refuse));
    const begun = visit === null ? buildVisit(sheet, workOrders, refuse) : null;
    const arrival = Number.MAX_SAFE_INTEGER - sheets.length + index;
    if (begun) fresh.push({ ...begun, id: newId(), arrival });
  });
  const refused = findRefused(fresh, known, rules);
  const made = fresh.filter((visit) => !refused.has(visit));
  const nameLines = withLines(new Map(made.map(({ id, sheet }) => [id, firstLine(sheet)])));
  for (const [{ sheet, rowItems }, issues] of refused) report(sheet, rowItems, issues.map(nameLines), refuse);
  const taken = [...made.map(rowsTaken), ...additions];
  const plan = {
    visits: made.map(({ id, body }) => ({ id, body })),
    entries: additions.flatMap(({ entry }) => (entry ? [entry] : [])),
    rowsAdded: sum(taken, ({ rowsAdded }) => rowsAdded),
    rowsSkipped: sum(taken, ({ rowsSkipped }) => rowsSkipped),
  };
  return { plan, errors };
}

/**
 * Finds the stored visit that rows belong to: null if they are a new visit, undefined if they are refused because they
 * could belong to several visits or the numbers are not consecutive.
 */
function matcher(
  sheets: readonly SheetVisit[],
  known: readonly KnownVisit[],
  refuse: Refuse,
): (sheet: SheetVisit) => KnownVisit | null | undefined {
  const knownOf = group(
    [...known].sort((a, b) => a.arrival - b.arrival),
    keyOf,
  );
  const sheetsOf = group(sheets, keyOf);
  return (sheet) => {
    const peers = knownOf.get(keyOf(sheet)) ?? [];
    const others = sheetsOf.get(keyOf(sheet)) ?? [];
    const line = firstLine(sheet);
    if (sheet.number === null && (peers.length > 1 || others.length > 1)) {
      const detail =
        'several visits have this vehicle, date and work order; number them 1, 2, 3 … in this column';
      refuse(line, 'visit', 'ambiguous-visit', detail);
      return undefined;
    }
    const number = sheet.number ?? 1;
    const peer = peers[number - 1];
    if (peer) return peer;
    const rank = others.filter((other) => (other.number ?? 1) > peers.length).indexOf(sheet);
    if (number === peers.length + rank + 1) return null;
    refuse(
      line,
      'visit',
      'visit-number',
      'the visits of one vehicle, date and work order must be numbered 1, 2, 3 …',
    );
    return undefined;
  };
}

/** Work orders already used, and by which visit. */
const workOrdersOf = (known: readonly KnownVisit[]): Map<string, string> =>
  new Map(
    known.flatMap((visit): [string, string][] =>
      visit.workOrder == null ? [] : [[workOrderKey(visit), `visit ${visit.id} of ${visit.date}`]],
    ),
  );

/** Builds a new visit, without the checks that depend on other visits; null if it is refused. */
function buildVisit(
  sheet: SheetVisit,
  workOrders: Map<string, string>,
  refuse: Refuse,
): Pick<NewVisit, 'body' | 'sheet' | 'rowItems'> | null {
  const { date, workOrder } = sheet;
  const parsed = parse(sheet, VisitBody, { date, workOrder, ...fieldsFrom(cellsOf(sheet)) }, refuse);
  if (!parsed) return null;
  const rowItems = selectNew(parsed, null, refuse);
  const body: VisitBody = { ...parsed.body, ...itemsOf(rowItems) };
  const line = firstLine(sheet);
  if (body.workOrder != null) {
    const taken = workOrders.get(workOrderKey(body));
    if (taken !== undefined) {
      const detail = `work order ${body.workOrder} is already recorded, as ${taken}`;
      refuse(line, 'workOrder', 'work-order-known', detail);
      return null;
    }
    workOrders.set(workOrderKey(body), `line ${line} of ${date}`);
  }
  return { body, sheet, rowItems };
}

/**
 * Finds the new visits that do not fit into the history, with their errors, in the file's order. Adds visits by date,
 * as a shop records them, so that later readings reveal a doubtful odometer. If any do not fit, tries again in the
 * file's order, which in an export is the order of arrival, so that whatever was recorded in that order can be
 * imported again.
 */
function findRefused(
  fresh: readonly NewVisit[],
  known: readonly HistoryVisit[],
  rules: Rules,
): Map<NewVisit, readonly Issue[]> {
  const byDate = [...fresh].sort((a, b) => ascending(a.body.date, b.body.date));
  const refused = addAllThatFit(byDate, known, rules);
  if (refused.size === 0 || addAllThatFit(fresh, known, rules).size === 0) return new Map();
  return new Map(
    fresh.flatMap((visit): [NewVisit, readonly Issue[]][] => {
      const issues = refused.get(visit);
      return issues ? [[visit, issues]] : [];
    }),
  );
}

/**
 * Adds visits until no more fit, and returns those that are left. A visit that does not fit at first may fit later,
 * since a visit further down may be the one that explains its odometer.
 */
function addAllThatFit(
  visits: readonly NewVisit[],
  known: readonly HistoryVisit[],
  rules: Rules,
): Map<NewVisit, readonly Issue[]> {
  const waiting = new Map<NewVisit, readonly Issue[]>(visits.map((visit) => [visit, []]));
  let history = known;
  for (let before = 0; before !== waiting.size;) {
    before = waiting.size;
    for (const visit of [...waiting.keys()]) {
      const taken = addVisit(visit, history, rules);
      if ('issues' in taken) waiting.set(visit, taken.issues);
      else {
        history = taken.history;
        waiting.delete(visit);
      }
    }
  }
  return waiting;
}

/** The history with a new visit added, or the errors if it does not fit. */
function addVisit(
  { id, body, arrival }: NewVisit,
  history: readonly HistoryVisit[],
  { vehicle, gauges, latestDate }: Rules,
): { history: HistoryVisit[] } | { issues: readonly Issue[] } {
  // Nothing else affects its position.
  const { date, time, odometer, odometerReplaced } = body;
  const placed = asHistoryVisit(id, { date, time, odometer, odometerReplaced }, arrival);
  const after = inOrder([...history, placed]);
  try {
    checkPlaceInHistory({ vehicle, visits: after }, id, latestDate, contentIssues(vehicle, body, [], gauges));
    // A visit without a time may change the order of the day's other visits.
    if (history.some((other) => other.date === date))
      checkOthersInHistory({ vehicle, visits: [...history] }, { vehicle, visits: after });
  } catch (refusal) {
    if (!(refusal instanceof Refusal)) throw refusal;
    return { issues: refusal.issues };
  }
  return { history: after };
}

interface RowsTaken {
  rowsAdded: number;
  rowsSkipped: number;
}

function rowsTaken({ sheet, rowItems }: NewVisit): RowsTaken {
  const bare = sheet.rows.filter(({ entry }) => entry === null).length;
  const rowsAdded = countOf(rowItems) + bare;
  return { rowsAdded, rowsSkipped: sheet.rows.length - rowsAdded };
}

/** What rows add to a stored visit; null if they add nothing or are refused. */
interface Addition extends RowsTaken {
  entry: VehiclePlan['entries'][number] | null;
}

function extend(sheet: SheetVisit, visit: KnownVisit, { vehicle, gauges }: Rules, refuse: Refuse): Addition {
  const fields = fieldsFrom(cellsOf(sheet));
  const newRoadTest = visit.roadTest == null ? fields.roadTest : undefined;
  refuseOtherFields(
    sheet,
    visit,
    newRoadTest === undefined ? fields : { ...fields, roadTest: undefined },
    refuse,
  );
  if (newRoadTest === undefined && sheet.rows.every(({ entry }) => entry === null))
    return { entry: null, rowsAdded: 0, rowsSkipped: sheet.rows.length };
  const parsed = parse(sheet, EntryBody, { roadTest: newRoadTest }, refuse);
  if (!parsed) return { entry: null, rowsAdded: 0, rowsSkipped: 0 };
  const rowItems = selectNew(parsed, visit, refuse);
  const rowsAdded = countOf(rowItems);
  const rows = { rowsAdded, rowsSkipped: sheet.rows.length - rowsAdded };
  if (rowsAdded === 0 && newRoadTest === undefined) return { entry: null, ...rows };
  const entry: EntryBody = { ...parsed.body, ...itemsOf(rowItems) };
  const issues = contentIssues(vehicle, entry, visit.readings, gauges);
  report(sheet, rowItems, issues, refuse);
  return { entry: issues.length > 0 ? null : { visitId: visit.id, entry }, ...rows };
}

/** Refuses rows that contradict a stored visit's own members. */
function refuseOtherFields(
  sheet: SheetVisit,
  visit: KnownVisit,
  fields: ReturnType<typeof fieldsFrom>,
  refuse: Refuse,
): void {
  for (const field of VISIT_FIELDS) {
    if (fields[field] === undefined || canonicalText(fields[field]) === canonicalText(visit[field])) continue;
    const columns = FIELD_COLUMNS[field] ?? [field];
    const column = columns.find((name) => sheet.fields[name]) ?? null;
    const line = (column && sheet.fields[column]?.line) ?? firstLine(sheet);
    refuse(line, column, 'conflict', `visit ${visit.id} has a different ${field}`);
  }
}

/** A vehicle's history after a plan is carried out. */
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

const workOrderKey = ({ shop, workOrder }: { shop?: string | null; workOrder?: string | null }): string =>
  JSON.stringify([shop ?? '', workOrder]);
