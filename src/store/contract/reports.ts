import type { LiningAt } from '../../core/assessment/linings.js';
import type { Demand } from '../../core/planning/demand.js';
import type { Reason } from '../../core/vocabulary/quantities.js';
import type { Axle, DuePart, GroupBy, LiningNames } from '../../core/vocabulary/terms.js';
import type { DecisionReason, StopFinding } from '../../core/vocabulary/wear.js';
import type { Caller } from './caller.js';
import type { Page, Paged } from './paging.js';

export interface DueSoonQuery {
  today: string;
  horizon: string;
  chance: number;
  fleet: string | null;
  axle: Axle | null;
  /** Groups the list by this first; undefined for no grouping. */
  groupBy?: GroupBy;
}

interface ReportedAxle {
  vehicleId: string;
  externalId: string | null;
  registration: string | null;
  fleet: string | null;
  model: string | null;
  axle: Axle;
}

interface ForecastAxle extends ReportedAxle {
  chance: number;
  earlyDate: string | null;
  medianDate: string | null;
  lateDate: string | null;
  governingPad: LiningAt | null;
  linings: LiningNames;
  limitMm: number | null;
  limitSource: string | null;
  lastReadingDate: string | null;
}

export interface DueAxle extends ForecastAxle {
  /** The part due first; the dates, the limit and the reading are those of this part. */
  part: DuePart;
  overdue: boolean;
  /** When this axle's outlook last changed, as an instant in UTC. */
  changedAt: string;
}

/** The number of due axles. */
export interface DueCount {
  total: number;
  overdueCount: number;
}

export interface DueTotals extends DueCount {
  /** Axles without due vehicles are omitted. */
  byAxle: (DueCount & { axle: Axle })[];
}

/** An axle that is not due and should be measured before planning. */
export interface MeasureFirstAxle extends ForecastAxle {
  reasons: DecisionReason[];
}

/** An axle with a stop finding that is not due by any date. */
export interface StoppedAxle extends ReportedAxle {
  earlyDate: string | null;
  lastReadingDate: string | null;
  stops: StopFinding[];
}

export interface UnassessedAxle extends ReportedAxle {
  lastReadingDate: string | null;
  reason: Reason;
}

export interface PartsDemandQuery {
  today: string;
  /** Calendar months, starting with the current one. */
  months: number;
  fleet: string | null;
}

/** How many of a part the axles of one kind will need in a month. */
export interface PartsDemandItem extends Demand {
  fleet: string | null;
  model: string | null;
  axle: Axle;
}

export interface PartsDemand {
  /** By month, fleet, model and axle. */
  items: PartsDemandItem[];
  totals: Demand[];
  /** Axles that may need a part within these months. */
  axles: number;
  /** Those of them whose need for rotors or drums is unknown. */
  rotorsUnknownCount: number;
  unassessedCount: number;
}

export interface ReportStore {
  /** Soonest early date first, within each group if grouped. A null page returns all items. */
  dueSoon(
    caller: Caller,
    query: DueSoonQuery,
    page: Page | null,
  ): Promise<
    Paged<DueAxle> &
      DueTotals & {
        /** In the order of the items, those without a group last; empty without grouping. */
        groups: (DueTotals & { group: string | null })[];
        unassessedCount: number;
        measureFirstCount: number;
        /** Axles with a stop finding that are not due by the query. */
        stopCount: number;
      }
  >;
  /**
   * Axles with a forecast that are not due by the query, and were last measured longer ago than the policy allows or
   * have dates too far apart to plan by. Soonest early date first.
   */
  measureFirst(
    caller: Caller,
    query: Omit<DueSoonQuery, 'groupBy'>,
    page: Page | null,
  ): Promise<Paged<MeasureFirstAxle> & { total: number }>;
  /** Axles with a stop finding that are not due by the query. Soonest early date first. */
  stopped(
    caller: Caller,
    query: Omit<DueSoonQuery, 'groupBy'>,
    page: Page | null,
  ): Promise<Paged<StoppedAxle> & { total: number }>;
  unassessed(
    caller: Caller,
    query: { today: string; fleet: string | null },
    page: Page | null,
  ): Promise<Paged<UnassessedAxle> & { total: number }>;
  partsDemand(caller: Caller, query: PartsDemandQuery): Promise<PartsDemand>;
}
