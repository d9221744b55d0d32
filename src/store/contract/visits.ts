import type { Outlook } from '../../core/assessment/outlookShape.js';
import type { OpenPoints } from '../../core/vocabulary/openPoints.js';
import type { EntryBody, Visit, VisitBody } from '../../core/vocabulary/visit.js';
import type { Caller } from './caller.js';
import type { Expected } from './expected.js';
import type { Keep } from './idempotency.js';
import type { Page, Paged } from './paging.js';

/** A visit and the resulting outlook, from one transaction. */
export interface RecordedVisit {
  visit: Visit;
  outlook: Outlook;
  /** False if nothing was added: the work order and content were already known, or a visit was corrected. */
  isNew: boolean;
}

export interface VisitStore {
  record(
    caller: Caller,
    vehicleId: string,
    body: VisitBody,
    keep: Keep<RecordedVisit> | null,
  ): Promise<RecordedVisit>;
  add(
    caller: Caller,
    visitId: string,
    entry: EntryBody,
    keep: Keep<RecordedVisit> | null,
  ): Promise<RecordedVisit>;
  get(caller: Caller, id: string): Promise<Visit>;
  /** Latest first; voided ones only on request. */
  list(
    caller: Caller,
    vehicleId: string,
    filter: { includeVoided: boolean },
    page: Page,
  ): Promise<Paged<Visit>>;
}

/** Corrects visits; earlier versions stay in the history. */
export interface CorrectionStore {
  /** @param change builds the new body from the current one, or throws if the result is not a visit */
  correct(
    caller: Caller,
    visitId: string,
    expected: Expected,
    correction: { reason: string; change: (body: VisitBody) => VisitBody },
    keep: Keep<RecordedVisit> | null,
  ): Promise<RecordedVisit>;
  /** Excludes a visit from all computations, or includes it again. */
  setVoided(
    caller: Caller,
    visitId: string,
    expected: Expected,
    correction: { reason: string; void: boolean },
    keep: Keep<RecordedVisit> | null,
  ): Promise<RecordedVisit>;
}

export interface OpenPointStore {
  /** The open points of a visit, from the time when it was the vehicle's latest. */
  ofVisit(caller: Caller, visitId: string): Promise<OpenPoints>;
}
