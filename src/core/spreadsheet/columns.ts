import {
  AXLES,
  CONDITION_STATES,
  DISTANCE_UNITS,
  LENGTH_UNITS,
  LINING_POSITIONS,
  PLACES,
  PULLS,
  READING_KINDS,
  SIDES,
  TAKEN,
  TORQUE_UNITS,
  WEAR_INDICATOR_TYPES,
  WORK_KINDS,
  type VisitPart,
} from '../vocabulary/terms.js';

/**
 * The columns of a visit spreadsheet, in export order: one row per reading, work item, torque, condition or unmeasured
 * place. The first 21 are those of every shop's file; the rest make the export lossless.
 */
export const COLUMNS = [
  'vehicle',
  'date',
  'time',
  'odometer',
  'odometerUnit',
  'workOrder',
  'entry',
  'axle',
  'side',
  'pad',
  'at',
  'point',
  'repeat',
  'value',
  'unit',
  'taken',
  'gauge',
  'new',
  'part',
  'fastener',
  'position',
  'vehicleNumber',
  'visit',
  'shop',
  'technician',
  'complaint',
  'notes',
  'odometerReplaced',
  'odometerOldFinal',
  'odometerNewStart',
  'roadTest',
  'pulls',
  'pulsation',
  'noise',
  'roadTestNotes',
  'limit',
  'wearIndicator',
  'wearIndicatorType',
  'discard',
  'maximum',
  'machineTo',
  'runoutLimit',
  'variationLimit',
  'state',
  'why',
  'entryNotes',
] as const;
export type Column = (typeof COLUMNS)[number];

/** Terms by their lower-case form, so that a file may use any case. */
export const spellings = (terms: readonly string[]): ReadonlyMap<string, string> =>
  new Map(terms.map((term) => [term.toLowerCase(), term]));

const COLUMN_SPELLINGS = spellings(COLUMNS);
/** The column of a heading in any case; undefined if there is none. */
export const toColumn = (heading: string): Column | undefined =>
  COLUMN_SPELLINGS.get(heading.trim().toLowerCase()) as Column | undefined;

const UNIT_TERMS = spellings([...LENGTH_UNITS, ...DISTANCE_UNITS, ...TORQUE_UNITS]);
/** Allowed values of the columns that hold a term. */
export const TERMS: Partial<Record<Column, ReadonlyMap<string, string>>> = {
  odometerUnit: UNIT_TERMS,
  unit: UNIT_TERMS,
  axle: spellings(AXLES),
  side: spellings(SIDES),
  pad: spellings(LINING_POSITIONS),
  at: spellings(PLACES),
  taken: spellings(TAKEN),
  pulls: spellings(PULLS),
  wearIndicatorType: spellings(WEAR_INDICATOR_TYPES),
  state: spellings(CONDITION_STATES),
};

export const NEEDED_COLUMNS = ['vehicle', 'date', 'entry'] as const satisfies readonly Column[];

/** Kinds of row; a row without one only describes its visit. */
export const ENTRIES = [...READING_KINDS, ...WORK_KINDS, 'torque', 'condition', 'not-measured'] as const;
export type Entry = (typeof ENTRIES)[number];

/** The part of a visit that a row belongs to. */
export function partOf(entry: Entry): VisitPart {
  if (entry === 'torque') return 'torques';
  if (entry === 'condition') return 'conditions';
  if (entry === 'not-measured') return 'notMeasured';
  return (READING_KINDS as readonly string[]).includes(entry) ? 'readings' : 'work';
}

/**
 * How to read a cell. `free` text and a `name` lose their guard against formulas; a `term` has no guard and may be in
 * any case.
 */
export type CellKind = 'free' | 'name' | 'term' | 'number' | 'quantity' | 'truth' | 'date' | 'time';

const SPECIAL_KINDS: Partial<Record<Column, CellKind>> = {
  date: 'date',
  time: 'time',
  vehicle: 'name',
  workOrder: 'name',
  part: 'free',
  fastener: 'name',
  gauge: 'name',
  shop: 'name',
  technician: 'name',
  complaint: 'free',
  notes: 'free',
  roadTestNotes: 'free',
  why: 'free',
  entryNotes: 'free',
  odometer: 'number',
  point: 'number',
  repeat: 'number',
  value: 'number',
  position: 'number',
  vehicleNumber: 'number',
  visit: 'number',
  new: 'quantity',
  limit: 'quantity',
  wearIndicator: 'quantity',
  discard: 'quantity',
  maximum: 'quantity',
  machineTo: 'quantity',
  runoutLimit: 'quantity',
  variationLimit: 'quantity',
  odometerOldFinal: 'quantity',
  odometerNewStart: 'quantity',
  odometerReplaced: 'truth',
  roadTest: 'truth',
  pulsation: 'truth',
  noise: 'truth',
};

export const kindOf = (column: Column): CellKind => SPECIAL_KINDS[column] ?? 'term';

/** Columns that describe the visit, shared by all its rows. */
export const VISIT_COLUMNS = [
  'time',
  'odometer',
  'odometerUnit',
  'shop',
  'technician',
  'complaint',
  'notes',
  'odometerReplaced',
  'odometerOldFinal',
  'odometerNewStart',
  'roadTest',
  'pulls',
  'pulsation',
  'noise',
  'roadTestNotes',
] as const satisfies readonly Column[];
export type VisitColumn = (typeof VISIT_COLUMNS)[number];

/** Columns that identify a row's visit and vehicle. */
export const KEY_COLUMNS = [
  'vehicle',
  'vehicleNumber',
  'date',
  'workOrder',
  'visit',
] as const satisfies readonly Column[];

/** Columns that describe the row's own entry: all others. */
export type EntryColumn = Exclude<Column, VisitColumn | (typeof KEY_COLUMNS)[number] | 'entry'>;

/** Specifications of the parts fitted, in the row's unit or one given in the cell. */
export const SPEC_COLUMNS = [
  'new',
  'limit',
  'wearIndicator',
  'discard',
  'maximum',
  'machineTo',
  'runoutLimit',
  'variationLimit',
] as const satisfies readonly EntryColumn[];
