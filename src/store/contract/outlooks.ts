import type { Outlook } from '../../core/assessment/outlookShape.js';
import type { Question } from '../../core/assessment/wearAnswer.js';
import type { History } from '../../core/history.js';
import type { PlanQuestion } from '../../core/planning/replacementPlan.js';
import type { ReplacementPlan } from '../../core/vocabulary/planning.js';
import type { Caller } from './caller.js';

export interface OutlookStore {
  /** The stored outlook, worked out when the vehicle's history last changed. */
  get(caller: Caller, vehicleId: string): Promise<Outlook>;
  /** The wear answer that follows from it on one day, as JSON in UTF-8 ready to be sent. */
  wear(caller: Caller, vehicleId: string, question: Question): Promise<Buffer>;
  /** Worked out anew from the visits dated up to a date. */
  asOf(caller: Caller, vehicleId: string, date: string): Promise<Outlook>;
  /** The outlook with the history that it follows from, both from one transaction; as of a date, or as it stands. */
  withHistory(
    caller: Caller,
    vehicleId: string,
    asOf: string | null,
  ): Promise<{ history: History; outlook: Outlook }>;
  /**
   * Works out every stored outlook anew that another experience or other settings stand behind, in batches that
   * hold the writer for a moment each; resolves when none is left. One run at a time, however often it is asked.
   */
  refresh(): Promise<void>;
}

export interface PlanningStore {
  /** At which of the coming visits to fit new linings, from everything known of a vehicle. */
  replacement(caller: Caller, vehicleId: string, question: PlanQuestion): Promise<ReplacementPlan>;
}
