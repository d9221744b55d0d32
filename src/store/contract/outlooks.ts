import type { Outlook } from '../../core/assessment/outlookShape.js';
import type { Question } from '../../core/assessment/wearAnswer.js';
import type { History } from '../../core/history.js';
import type { PlanQuestion } from '../../core/planning/replacementPlan.js';
import type { ReplacementPlan } from '../../core/vocabulary/planning.js';
import type { Caller } from './caller.js';

export interface OutlookStore {
  /** The stored outlook, computed when the vehicle's history last changed. */
  get(caller: Caller, vehicleId: string): Promise<Outlook>;
  /** The wear answer from that outlook on one day, as JSON in UTF-8 ready to be sent. */
  wear(caller: Caller, vehicleId: string, question: Question): Promise<Buffer>;
  /** The outlook recomputed from the visits up to a date. */
  asOf(caller: Caller, vehicleId: string, date: string): Promise<Outlook>;
  /** The outlook and its history, from one transaction; as of a date, or current. */
  withHistory(
    caller: Caller,
    vehicleId: string,
    asOf: string | null,
  ): Promise<{ history: History; outlook: Outlook }>;
  /**
   * Recomputes every outlook that is stale because the experience, the settings or the program changed, in batches that
   * hold the write lock briefly; resolves when none is left. Only one run is active at a time.
   */
  refresh(): Promise<void>;
}

export interface PlanningStore {
  /** Plans at which of the coming visits to fit new linings, from the vehicle's whole history. */
  replacement(caller: Caller, vehicleId: string, question: PlanQuestion): Promise<ReplacementPlan>;
}
