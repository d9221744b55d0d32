import type { Demand } from '../../core/planning/demand.js';
import type { Reason } from '../../core/vocabulary/quantities.js';
import type { Axle, DuePart, GroupBy, LiningPosition, Side } from '../../core/vocabulary/terms.js';
import type { DecisionReason, StopFinding } from '../../core/vocabulary/wear.js';
import type { Caller } from './caller.js';
import type { Page, Paged } from './paging.js';

export interface DueSoonQuery {
  today: string;
  horizon: string;
  chance: number;
  fleet: string | null;
  axle: Axle | null;
  /** What the list is ordered and counted by first; missing where by nothing. */
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
  governingPad: { side: Side; pad: LiningPosition } | null;
  limitMm: number | null;
  limitSource: string | null;
  lastReadingDate: string | null;
}

export interface DueAxle extends ForecastAxle {
  /** What is due first: the dates, the limit and the reading are of it. */
  part: DuePart;
  overdue: boolean;
  /** When this axle's outlook last changed, as an instant in UTC. */
  changedAt: string;
}

/** How many axles are due. */
export interface DueCount {
  total: number;
  overdueCount: number;
}

export interface DueTotals extends DueCount {
  /** Axles with none are left out. */
  byAxle: (DueCount & { axle: Axle })[];
}

/** An axle that is not due, and is better measured than planned for. */
export interface MeasureFirstAxle extends ForecastAxle {
  reasons: DecisionReason[];
}

/** An axle with a finding that says stop and that no date makes due. */
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
  /** Calendar months from the one that today lies in. */
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
  /** Axles that may need something within the months. */
  axles: number;
  /** Those of them whose rotors or drums nobody can tell. */
  rotorsUnknownCount: number;
  unassessedCount: number;
}

export interface ReportStore {
  /** Soonest early date first, within its group where a grouping is asked for. A null page asks for all. */
  dueSoon(
    caller: Caller,
    query: DueSoonQuery,
    page: Page | null,
  ): Promise<
    Paged<DueAxle> &
      DueTotals & {
        /** In the order of the items, what has no such name last; none where no grouping is asked for. */
        groups: (DueTotals & { group: string | null })[];
        unassessedCount: number;
        measureFirstCount: number;
        /** Axles with a finding that says stop and that are not due by the query. */
        stopCount: number;
      }
  >;
  /**
   * Axles that have a projection, are not due by the query, and were not measured for longer than the policy allows or
   * have dates too far apart to plan by. Soonest early date first.
   */
  measureFirst(
    caller: Caller,
    query: Omit<DueSoonQuery, 'groupBy'>,
    page: Page | null,
  ): Promise<Paged<MeasureFirstAxle> & { total: number }>;
  /** Axles with a finding that says stop and that are not due by the query. Soonest early date first. */
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
