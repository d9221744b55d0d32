import type {
  Axle,
  CONDITION_PARTS,
  CONDITION_STATES,
  DistanceUnit,
  LengthUnit,
  LiningPosition,
  Place,
  ReadingKind,
  Side,
  Taken,
  TorqueUnit,
  VisitEvent,
  WorkKind,
} from '../../../core/vocabulary/terms.js';
import type { VisitBody, Voided, WorkBody } from '../../../core/vocabulary/visit.js';
import type { VehicleRow } from './vehicles.js';

type ConditionPart = (typeof CONDITION_PARTS)[number];

/** The parts of a visit whose items have ids. */
export const NUMBERED_PARTS = ['readings', 'work', 'torques'] as const;
export type NumberedPart = (typeof NUMBERED_PARTS)[number];

export interface PartNumbers {
  /** In the order of the items. */
  numbers: number[];
  /** The highest number ever used in this part of the visit. */
  last: number;
}

/** The numbers in the ids of a visit's readings, work items and torques. */
export type ItemNumbers = Record<NumberedPart, PartNumbers>;

/** A visit without its items. */
export interface VisitRow {
  seq: number;
  id: string;
  vehicleSeq: number;
  version: number;
  date: string;
  time: string | null;
  odometerValue: number | null;
  odometerUnit: DistanceUnit | null;
  odometerReplaced: VisitBody['odometerReplaced'] | null;
  workOrder: string | null;
  shop: string | null;
  technician: string | null;
  complaint: string | null;
  notes: string | null;
  roadTest: VisitBody['roadTest'] | null;
  /** SHA-256 of the visit as first sent: distinguishes a repeated work order from a conflicting one. */
  contentDigest: string;
  /** Who voided it, when and why; a voided visit is ignored in all computations. */
  voided: Voided | null;
  /** Null while the numbers equal the items' positions. */
  itemNumbers: ItemNumbers | null;
  createdAt: string;
  updatedAt: string;
}

interface ItemRow {
  vehicleSeq: number;
  visitSeq: number;
  /** Position within the visit, in the order in which the items were sent. */
  number: number;
}

export interface ReadingRow extends ItemRow {
  kind: ReadingKind;
  axle: Axle;
  /** Null for the thinnest lining of the axle. */
  side: Side | null;
  /** The pad, or the shoe of a drum brake. */
  pad: LiningPosition | null;
  at: Place | null;
  point: number | null;
  repeat: number;
  value: number;
  unit: LengthUnit;
  taken: Taken;
  gauge: string | null;
}

export interface NotMeasuredRow extends ItemRow {
  axle: Axle;
  side: Side | null;
  part: ConditionPart | null;
  pad: LiningPosition | null;
  why: string;
}

export interface ConditionRow extends ItemRow {
  part: ConditionPart;
  axle: Axle;
  side: Side | null;
  pad: LiningPosition | null;
  state: (typeof CONDITION_STATES)[number];
  notes: string | null;
}

export interface WorkRow extends ItemRow {
  kind: WorkKind;
  axle: Axle | null;
  side: Side | null;
  /** The item as sent. */
  body: WorkBody;
}

export interface TorqueRow extends ItemRow {
  fastener: string;
  axle: Axle;
  side: Side | null;
  position: number | null;
  value: number;
  unit: TorqueUnit;
}

/** The items of one or more visits. */
export interface VisitItems {
  readings: ReadingRow[];
  notMeasured: NotMeasuredRow[];
  conditions: ConditionRow[];
  work: WorkRow[];
  torques: TorqueRow[];
}

/** Items to insert; a missing member is null. */
export type NewVisitItems = {
  [Part in keyof VisitItems]: (ItemRow & {
    [Column in keyof VisitItems[Part][number]]?: VisitItems[Part][number][Column] | null;
  })[];
};

/** Which of a vehicle's visits to list. */
export interface VisitSelection {
  vehicleSeq: number;
  includeVoided: boolean;
  /** Only visits from a date on; of that date, only those recorded since an instant. */
  since: { date: string; at: string } | null;
  /** The date, time and seq of the last visit of the previous page. */
  after: readonly (string | number)[] | null;
}

/** A visit, and the data of its vehicle that the rules need. */
export interface VisitOfVehicle {
  visit: VisitRow;
  vehicle: Pick<VehicleRow, 'seq' | 'id' | 'fleet' | 'body' | 'erasedAt'>;
}

export interface VisitRows {
  byId(id: string): Promise<VisitOfVehicle | null>;
  /** The visit of a work order, unless it is voided. */
  byWorkOrder(vehicleSeq: number, shop: string | null, workOrder: string): Promise<VisitRow | null>;
  /** A vehicle's visits that are not voided, by date and arrival, and the items of all its visits. */
  historyOf(vehicleSeq: number): Promise<{ visits: VisitRow[]; items: VisitItems }>;
  itemsOf(visits: readonly Pick<VisitRow, 'vehicleSeq' | 'seq'>[]): Promise<VisitItems>;
  /** All visits of a vehicle, also voided ones. */
  allOf(vehicleSeq: number): Promise<VisitRow[]>;
  /** Latest first. */
  list(selection: VisitSelection, limit: number): Promise<VisitRow[]>;
  /** A text that changes whenever one of a vehicle's visits does. */
  stateOf(vehicleSeq: number): Promise<string>;
  /** @returns the numbers of the rows, in the same order */
  insert(rows: readonly Omit<VisitRow, 'seq'>[]): Promise<number[]>;
  update(seq: number, changes: Partial<Omit<VisitRow, 'seq' | 'id'>>): Promise<void>;
  insertItems(items: NewVisitItems): Promise<void>;
  /** Removes all items of a visit. */
  removeItems(visit: Pick<VisitRow, 'vehicleSeq' | 'seq'>): Promise<void>;
  /** Moves the items of all visits of one vehicle to another. */
  moveItems(from: number, to: number): Promise<void>;
}

/** Every version of a visit; rows are only added. */
export interface VisitVersionRow {
  visitSeq: number;
  version: number;
  /** The vehicle that the visit belonged to. */
  vehicleSeq: number;
  kind: VisitEvent;
  at: string;
  /** The name of the API key; null if none was used, or before histories were kept. */
  keyName: string | null;
  reason: string | null;
  body: VisitBody;
}

export interface VisitVersionRows {
  insert(rows: readonly VisitVersionRow[]): Promise<void>;
  /** The body of a visit's latest version. */
  latestBody(visitSeq: number): Promise<VisitBody>;
  /** Earliest first. */
  page(visitSeq: number, after: number, limit: number): Promise<(VisitVersionRow & { vehicleId: string })[]>;
}
