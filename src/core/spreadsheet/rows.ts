import type { Visit, VisitBody } from '../vocabulary/visit.js';
import type { Cell, CellQuantity, SheetRow } from './cells.js';
import { withGuard } from './guard.js';
import {
  COLUMNS,
  kindOf,
  partOf,
  KEY_COLUMNS,
  SPEC_COLUMNS,
  VISIT_COLUMNS,
  type CellKind,
  type Column,
  type EntryColumn,
  type VisitColumn,
} from './columns.js';

/** Converts between spreadsheet rows and visit bodies, without loss in either direction. */

type Cells = Partial<Record<Column, Cell>>;
type Quantity = { value: number; unit: string };

/** A visit's own members whose columns have other names, or which have several columns. */
export const FIELD_COLUMNS: Record<string, readonly VisitColumn[]> = {
  odometer: ['odometer', 'odometerUnit'],
  odometerReplaced: ['odometerReplaced', 'odometerOldFinal', 'odometerNewStart'],
  roadTest: ['roadTest', 'pulls', 'pulsation', 'noise', 'roadTestNotes'],
};
export const VISIT_FIELDS = [
  'time',
  'odometer',
  'odometerReplaced',
  'shop',
  'technician',
  'complaint',
  'notes',
  'roadTest',
] as const satisfies readonly (keyof VisitBody)[];

const VISIT_COLUMN_NAMES: ReadonlySet<string> = new Set(VISIT_COLUMNS);
const SPEC_COLUMN_NAMES: ReadonlySet<string> = new Set(SPEC_COLUMNS);
const KEY_COLUMN_NAMES: ReadonlySet<string> = new Set(KEY_COLUMNS);
const GUARDED_KINDS: ReadonlySet<CellKind> = new Set(['free', 'name']);

const withUnit = (cell: Cell | undefined, unit: Cell | undefined) => {
  if (cell === undefined) return undefined;
  const quantity = cell as CellQuantity;
  return { value: quantity.value, unit: quantity.unit ?? unit };
};

/** A visit's own members from its rows, not yet validated. */
export function fieldsFrom(cells: Cells): Partial<Record<(typeof VISIT_FIELDS)[number], unknown>> {
  const { time, odometer, odometerUnit, shop, technician, complaint, notes } = cells;
  const fields: ReturnType<typeof fieldsFrom> = { time, shop, technician, complaint, notes };
  if (odometer !== undefined) fields.odometer = { value: odometer, unit: odometerUnit };
  const oldFinal = withUnit(cells.odometerOldFinal, odometerUnit);
  const newStart = withUnit(cells.odometerNewStart, odometerUnit);
  if (cells.odometerReplaced === true || oldFinal || newStart)
    fields.odometerReplaced = { oldFinal, newStart };
  const { pulls, pulsation, noise, roadTestNotes } = cells;
  const tested = [pulls, pulsation, noise, roadTestNotes].some((cell) => cell !== undefined);
  if (cells.roadTest === true || tested) fields.roadTest = { pulls, pulsation, noise, notes: roadTestNotes };
  return fields;
}

/** The non-empty columns of the row's own entry. */
export function entryColumnsOf({ cells }: SheetRow): EntryColumn[] {
  return (Object.keys(cells) as Column[]).filter(
    (column): column is EntryColumn => !VISIT_COLUMN_NAMES.has(column) && !KEY_COLUMN_NAMES.has(column),
  );
}

/** The reading, work item, torque, condition or unmeasured place of a row, not yet validated. */
export function itemFrom(row: SheetRow): Record<string, unknown> {
  const { entry, cells } = row;
  const part = partOf(entry!);
  const item: Record<string, unknown> = part === 'readings' || part === 'work' ? { kind: entry } : {};
  for (const column of entryColumnsOf(row)) {
    if (column === 'entryNotes') item.notes = cells.entryNotes;
    // Pads and shoes share one column.
    else if (column === 'pad' && entry === 'shoe-thickness') item.shoe = cells.pad;
    else if (SPEC_COLUMN_NAMES.has(column)) item[column] = withUnit(cells[column], cells.unit);
    // A work item's unit belongs to its specifications.
    else if (column !== 'unit' || part !== 'work') item[column] = cells[column];
  }
  if (cells.wearIndicator !== undefined && cells.wearIndicatorType !== undefined) {
    item.wearIndicator = { ...(item.wearIndicator as object), type: cells.wearIndicatorType };
    delete item.wearIndicatorType;
  }
  return item;
}

/** The column of a member of a row's entry. */
export function columnOfItem({ cells }: SheetRow, [member, inner]: readonly PropertyKey[]): Column {
  if (member === undefined || member === 'kind') return 'entry';
  if (member === 'notes') return 'entryNotes';
  if (member === 'shoe') return 'pad';
  if (inner === 'type') return 'wearIndicatorType';
  const own = (cells[member as Column] as CellQuantity | undefined)?.unit !== undefined;
  return inner === 'unit' && !own ? 'unit' : (member as Column);
}

/** The column of a visit's own member. */
export function columnOfField([member, inner, innermost]: readonly PropertyKey[]): Column {
  if (member === 'odometer') return inner === 'unit' ? 'odometerUnit' : 'odometer';
  if (member === 'odometerReplaced') {
    if (inner === undefined) return 'odometerReplaced';
    if (innermost === 'unit') return 'odometerUnit';
    return inner === 'oldFinal' ? 'odometerOldFinal' : 'odometerNewStart';
  }
  if (member === 'roadTest') {
    return inner === undefined ? 'roadTest' : inner === 'notes' ? 'roadTestNotes' : (inner as Column);
  }
  return member as Column;
}

/** How the rows name a vehicle; `number` distinguishes it from others with the same name, null if there are none. */
export interface SheetName {
  vehicle: string;
  number: number | null;
}

/**
 * The cells of a visit's rows, in the order of {@link COLUMNS}; `number` distinguishes it from others of its day and
 * work order.
 */
export function rowsOf(visit: Visit, name: SheetName, number: number | null): string[][] {
  const everyRow: Cells = {
    vehicle: name.vehicle,
    ...given({ vehicleNumber: name.number, visit: number }),
    date: visit.date,
    ...given({ time: visit.time, workOrder: visit.workOrder }),
    ...given({ odometer: visit.odometer?.value, odometerUnit: visit.odometer?.unit }),
  };
  const items = itemRows(visit);
  const rows = items.length > 0 ? items : [{}];
  return rows.map((cells, index) =>
    toTexts({ ...everyRow, ...(index === 0 ? firstRowOf(visit) : {}), ...cells }),
  );
}

/** Cells that only the first row of a visit has. */
function firstRowOf(visit: Visit): Cells {
  const { shop, technician, complaint, notes, odometerReplaced, roadTest } = visit;
  return {
    ...given({ shop, technician, complaint, notes }),
    ...(odometerReplaced
      ? {
          odometerReplaced: true,
          ...given({
            odometerOldFinal: odometerReplaced.oldFinal,
            odometerNewStart: odometerReplaced.newStart,
          }),
        }
      : {}),
    ...(roadTest
      ? {
          roadTest: true,
          ...given({
            pulls: roadTest.pulls,
            pulsation: roadTest.pulsation,
            noise: roadTest.noise,
            roadTestNotes: roadTest.notes,
          }),
        }
      : {}),
  };
}

function itemRows(visit: Visit): Cells[] {
  const { readings, notMeasured, conditions, work, torques } = visit;
  return [
    ...readings.map(readingCells),
    ...notMeasured.map((item) => ({ entry: 'not-measured', ...given(item) })),
    ...conditions.map(({ notes, ...item }) => ({
      entry: 'condition',
      ...given({ ...item, entryNotes: notes }),
    })),
    ...work.map(workCells),
    ...torques.map(({ id: _id, Nm: _Nm, ...torque }) => ({ entry: 'torque', ...given(torque) })),
  ];
}

function readingCells({ id: _id, mm: _mm, kind, ...reading }: Visit['readings'][number]): Cells {
  const lining = 'shoe' in reading ? { pad: reading.shoe } : {};
  return { entry: kind, ...given({ ...reading, ...lining }) };
}

/** A specification in the row's unit is a bare number; one in another unit includes it. */
function workCells({ id: _id, kind, notes, ...item }: Visit['work'][number]): Cells {
  const specs = given(Object.fromEntries(SPEC_COLUMNS.map((column) => [column, item[column]])));
  const quantities = Object.entries(specs) as [Column, unknown][] as [Column, Quantity & { type?: string }][];
  const unit = quantities[0]?.[1].unit;
  const inUnit = quantities.map(([column, quantity]) => [
    column,
    quantity.unit === unit ? { value: quantity.value } : { value: quantity.value, unit: quantity.unit },
  ]);
  const { axle, side, part, wearIndicator } = item;
  return {
    entry: kind,
    ...given({ axle, side, part, entryNotes: notes, unit, wearIndicatorType: wearIndicator?.type }),
    ...(Object.fromEntries(inUnit) as Cells),
  };
}

function given(cells: Record<string, unknown>): Cells {
  return Object.fromEntries(Object.entries(cells).filter(([, cell]) => cell != null));
}

function toTexts(cells: Cells): string[] {
  return COLUMNS.map((column) => {
    const cell = cells[column];
    if (cell === undefined) return '';
    if (typeof cell === 'string') return GUARDED_KINDS.has(kindOf(column)) ? withGuard(cell) : cell;
    if (typeof cell === 'boolean') return String(cell);
    const { value, unit }: CellQuantity = typeof cell === 'number' ? { value: cell } : cell;
    const number = column.startsWith('odometer') ? unambiguous(value) : String(value);
    return unit === undefined ? number : `${number} ${unit}`;
  });
}

/** Adds a zero to an odometer with three decimals, which would look like one with a thousands separator. */
function unambiguous(value: number): string {
  const text = String(value);
  return /^[1-9]\d{0,2}\.\d{3}$/.test(text) ? `${text}0` : text;
}
