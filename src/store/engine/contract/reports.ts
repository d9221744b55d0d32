import type { Reason } from '../../../core/vocabulary/quantities.js';
import type { Axle, GroupBy } from '../../../core/vocabulary/terms.js';
import type { AxleOutlookRow } from './outlooks.js';

/** The chance of the early date: the default, and what the columns of dates are for. */
export const EARLY_CHANCE = 0.1;

/** Sorts after every date: axles with a chance but no early date within thirty years come last. */
export const NO_EARLY_DATE = '9999-12-31';

/** Which axles a report asks about: those of vehicles in service. */
export interface AxleFilter {
  /** Null for all vehicles, including those without a fleet. */
  fleets: readonly string[] | null;
  today: string;
  axle: Axle | null;
}

/** Which axles count as due. A limit found reached at a visit counts even if that visit's date is in the future. */
export interface DueQuestion extends AxleFilter {
  horizon: string;
  chance: number;
  /** The latest possible date of a visit that is already recorded. */
  latestVisit: string;
}

export interface GroupedDueQuestion extends DueQuestion {
  /** Orders the list by this first, those without it last; null for no grouping. */
  groupBy: GroupBy | null;
}

/** A list of axles that are not due but need attention for another reason. */
export interface NotDueQuestion extends DueQuestion {
  listing: 'toMeasure' | 'stopped';
  /** Readings before this date are too old to plan by. */
  oldestReading: string;
}

/** Part of a list in its order. */
export interface Slice {
  /** The place of the last row of the previous page; null from the beginning. */
  after: readonly (string | number)[] | null;
  /** Null for all rows. */
  limit: number | null;
}

/** An axle with a forecast, and its vehicle. */
export interface ForecastRow {
  seq: number;
  vehicleId: string;
  externalId: string | null;
  registration: string | null;
  model: string | null;
  outlook: Pick<
    AxleOutlookRow,
    | 'axle'
    | 'fleet'
    | 'asAtDate'
    | 'earlyDate'
    | 'overdueFrom'
    | 'failing'
    | 'crossing'
    | 'counterpart'
    | 'linings'
    | 'governingSide'
    | 'governingPad'
    | 'limitMm'
    | 'limitSource'
    | 'lastReadingDate'
    | 'measureDate'
    | 'expectedDate'
    | 'stops'
    | 'changedAt'
  >;
}

/** Number of due axles of one group and one name. */
export interface Tally {
  group: string | null;
  axle: Axle;
  total: number;
  overdueCount: number;
}

/** An axle without a forecast, and its vehicle. */
export interface UnassessedRow {
  seq: number;
  vehicleId: string;
  externalId: string | null;
  registration: string | null;
  fleet: string | null;
  model: string | null;
  axle: Axle;
  lastReadingDate: string | null;
  reason: Reason;
}

/** An axle that may need parts. */
export type PartsNeedRow = Pick<
  AxleOutlookRow,
  'axle' | 'fleet' | 'crossing' | 'asAtDate' | 'failing' | 'counterpart' | 'rotorChance' | 'rotorsNow'
> & { model: string | null; brake: 'disc' | 'drum' };

/**
 * The queries of the reports, which an engine answers from indexes. Lists are in order of early date, vehicle and axle.
 */
export interface ReportRows {
  /** If the early date decides, exactly the axles that are due. */
  dueByEarly(question: GroupedDueQuestion, slice: Slice): Promise<ForecastRow[]>;
  /** Counts of the same list, in the order of its groups. */
  countDueByEarly(question: GroupedDueQuestion): Promise<Tally[]>;
  /**
   * Axles that may be due, if a chance other than the early date's decides. The caller checks each of them.
   *
   * @param vehicleSeq of one vehicle; null for all
   */
  perhapsDue(question: GroupedDueQuestion, vehicleSeq: number | null): Promise<ForecastRow[]>;
  /** If the early date decides, exactly the axles of a listing that are not due. */
  notDueByEarly(question: NotDueQuestion, slice: Slice): Promise<ForecastRow[]>;
  countNotDueByEarly(question: NotDueQuestion): Promise<number>;
  /**
   * Axles of a listing, due or not, if a chance other than the early date's decides. The caller checks each of them.
   */
  listed(question: NotDueQuestion): Promise<ForecastRow[]>;
  /** In order of vehicle and axle. */
  unassessed(filter: AxleFilter, slice: Slice): Promise<UnassessedRow[]>;
  countUnassessed(filter: AxleFilter): Promise<number>;
  /** The number of the last vehicle with an outlook; 0 if there is none. */
  lastVehicleSeq(): Promise<number>;
  /** The axles of a range of vehicles that may need parts by a date. */
  mayNeedParts(filter: AxleFilter, by: string, from: number, to: number): Promise<PartsNeedRow[]>;
}
