import type { Outlook } from '../../core/assessment/outlookShape.js';
import type { OpenPoints } from '../../core/vocabulary/openPoints.js';
import type { EntryBody, Visit, VisitBody } from '../../core/vocabulary/visit.js';
import type { Caller } from './caller.js';
import type { Expected } from './expected.js';
import type { Keep } from './idempotency.js';
import type { Page, Paged } from './paging.js';

/** A visit with the outlook that follows from it, both from one transaction. */
export interface RecordedVisit {
  visit: Visit;
  outlook: Outlook;
  /** False when nothing was added: the work order and content were known, or a visit was corrected. */
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
  /** Latest first; voided ones only where they are asked for. */
  list(
    caller: Caller,
    vehicleId: string,
    filter: { includeVoided: boolean },
    page: Page,
  ): Promise<Paged<Visit>>;
}

/** Puts right what a visit says. What stood before stays in its history. */
export interface CorrectionStore {
  /** @param change makes the new body of the standing one, or throws where that is not a visit */
  correct(
    caller: Caller,
    visitId: string,
    expected: Expected,
    correction: { reason: string; change: (body: VisitBody) => VisitBody },
    keep: Keep<RecordedVisit> | null,
  ): Promise<RecordedVisit>;
  /** Takes a visit out of all that is worked out, or back in. */
  setVoided(
    caller: Caller,
    visitId: string,
    expected: Expected,
    correction: { reason: string; void: boolean },
    keep: Keep<RecordedVisit> | null,
  ): Promise<RecordedVisit>;
}

export interface OpenPointStore {
  /** What a visit lacks, as things stood when it was the latest. */
  ofVisit(caller: Caller, visitId: string): Promise<OpenPoints>;
}
