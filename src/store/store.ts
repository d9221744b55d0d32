import type { Outlook, Policy } from '../core/assessment/outlook.js';
import type { FittedExperience } from '../core/forecast/fit.js';
import type { SheetRow } from '../core/spreadsheet/cells.js';
import type { SheetName } from '../core/spreadsheet/rows.js';
import type { Import, RowError } from '../core/vocabulary/import.js';
import type { Reason } from '../core/vocabulary/quantities.js';
import type { Axle, ImportKind, Pad, Role, Side } from '../core/vocabulary/terms.js';
import type { Vehicle, VehicleBody } from '../core/vocabulary/vehicle.js';
import type { EntryBody, Visit, VisitBody } from '../core/vocabulary/visit.js';

/**
 * The store offers whole operations and is asynchronous at its boundary, so that another database engine can stand
 * behind it. Every write is one transaction: the record, the outlooks that follow from it and the kept answer to an
 * Idempotency-Key; it is answered only once it is durable. What it will not do it throws as a
 * {@link import('../core/refusal.js').Refusal}.
 */
export interface Store {
  keys: KeyStore;
  vehicles: VehicleStore;
  visits: VisitStore;
  outlooks: OutlookStore;
  reports: ReportStore;
  experience: ExperienceStore;
  imports: ImportStore;
  exports: ExportStore;
  answers: AnswerStore;
  /** Resolves when the store can be read; rejects with the fault otherwise. */
  check(): Promise<void>;
  policy: Policy;
}

/** What a caller may see: everything (null), or the vehicles of some fleets. */
export interface Scope {
  fleets: readonly string[] | null;
}

export interface Key {
  name: string;
  role: Role;
  fleets: string[];
  createdAt: string;
  revokedAt: string | null;
}

export interface KeyStore {
  /** @param digest SHA-256 of the key, hex */
  find(digest: string): Promise<Key | null>;
  /** @throws Refusal when the name was ever used, or a fleet-manager has no fleet */
  create(key: { name: string; role: Role; fleets: string[]; digest: string }): Promise<void>;
  list(): Promise<Key[]>;
  /** @returns false when no unrevoked key has that name */
  revoke(name: string): Promise<boolean>;
}

/** A page of a list; `after` continues behind the last item of the one before. */
export interface Page {
  limit: number;
  after: readonly (string | number)[] | null;
}

export interface Paged<Item> {
  items: Item[];
  next: readonly (string | number)[] | null;
}

/** The versions a caller is ready to change; `*` is any. */
export type Expected = readonly number[] | '*';

export interface VehicleFilter {
  registration?: string;
  vin?: string;
  externalId?: string;
  fleet?: string;
  model?: string;
  includeOutOfService?: boolean;
}

export interface VehicleStore {
  create(body: VehicleBody, keep: Keep<Vehicle> | null): Promise<Vehicle>;
  get(scope: Scope, id: string): Promise<Vehicle>;
  list(scope: Scope, filter: VehicleFilter, page: Page): Promise<Paged<Vehicle>>;
  /** @param change makes the new body of the old, or throws a Refusal */
  change(
    scope: Scope,
    id: string,
    expected: Expected,
    change: (body: VehicleBody) => VehicleBody,
  ): Promise<Vehicle>;
}

/** A visit with the outlook that follows from it, both from one transaction. */
export interface RecordedVisit {
  visit: Visit;
  outlook: Outlook;
  /** False when a visit of the same work order and content was there already. */
  isNew: boolean;
}

export interface VisitStore {
  record(
    scope: Scope,
    vehicleId: string,
    body: VisitBody,
    keep: Keep<RecordedVisit> | null,
  ): Promise<RecordedVisit>;
  add(
    scope: Scope,
    visitId: string,
    entry: EntryBody,
    keep: Keep<RecordedVisit> | null,
  ): Promise<RecordedVisit>;
  get(scope: Scope, id: string): Promise<Visit>;
  /** Latest first. */
  list(scope: Scope, vehicleId: string, page: Page): Promise<Paged<Visit>>;
}

export interface OutlookStore {
  /** The stored outlook, worked out when the vehicle's history last changed. */
  get(scope: Scope, vehicleId: string): Promise<Outlook>;
  /** Worked out anew from the visits dated up to a date. */
  asOf(scope: Scope, vehicleId: string, date: string): Promise<Outlook>;
}

export interface DueSoonQuery {
  today: string;
  horizon: string;
  chance: number;
  fleet: string | null;
  axle: Axle | null;
}

export interface DueAxle {
  vehicleId: string;
  externalId: string | null;
  registration: string | null;
  fleet: string | null;
  model: string | null;
  axle: Axle;
  overdue: boolean;
  chance: number;
  earlyDate: string | null;
  medianDate: string | null;
  lateDate: string | null;
  governingPad: { side: Side; pad: Pad } | null;
  limitMm: number | null;
  limitSource: string | null;
  lastReadingDate: string | null;
}

export interface UnassessedAxle {
  vehicleId: string;
  externalId: string | null;
  registration: string | null;
  fleet: string | null;
  model: string | null;
  axle: Axle;
  lastReadingDate: string | null;
  reason: Reason;
}

export interface ReportStore {
  /** Soonest early date first. A null page asks for all. */
  dueSoon(
    scope: Scope,
    query: DueSoonQuery,
    page: Page | null,
  ): Promise<Paged<DueAxle> & { total: number; unassessedCount: number }>;
  unassessed(
    scope: Scope,
    query: { today: string; fleet: string | null },
    page: Page | null,
  ): Promise<Paged<UnassessedAxle> & { total: number }>;
}

/** Where the answer to one POST with an Idempotency-Key is kept. */
export interface AnswerSlot {
  keyName: string;
  method: string;
  path: string;
  idempotencyKey: string;
  fingerprint: string;
}

export interface KeptAnswer {
  status: number;
  headers: Record<string, string>;
  body: string;
}

/** Asks a write to keep its answer in its own transaction. */
export interface Keep<Result> {
  slot: AnswerSlot;
  answer: (result: Result) => KeptAnswer;
}

export interface ExperienceVersion {
  version: number;
  fitted: FittedExperience;
  createdAt: string;
}

export interface ExperienceStore {
  /** Fits the shop's experience anew and works out every outlook with it; resolves when all are written. */
  refit(): Promise<number>;
  /** Visits that the latest fit knew of, and those that arrived since. */
  newVisits(): Promise<{ known: number; since: number }>;
  /** The latest fits, newest first. */
  list(): Promise<ExperienceVersion[]>;
}

export interface AnswerStore {
  find(slot: Omit<AnswerSlot, 'fingerprint'>): Promise<(KeptAnswer & { fingerprint: string }) | null>;
  /** Keeps an answer that changed nothing; one that is there already stays. */
  keep(slot: AnswerSlot, answer: KeptAnswer): Promise<void>;
}

/** A piece of a file as it has been read; what could not be read of it are its errors. */
export interface FilePiece<Row> {
  rows: Row[];
  errors: RowError[];
  /** Rows that could not be read, of which there may be several errors. */
  unread: number;
}

export interface VehicleLine {
  line: number;
  body: VehicleBody;
}

/**
 * A file is taken whole or not at all: its rows wait in a database of their own until all have been checked and the
 * outlooks that follow are worked out, and are then written in one transaction.
 */
export interface ImportStore {
  /** Notes that a file is coming in. */
  begin(kind: ImportKind, file: { by: string; dryRun: boolean }): Promise<Import>;
  /** A file that never came in whole. */
  breakOff(id: string, detail: string): Promise<void>;
  /** Removes what `begin` noted. */
  forget(id: string): Promise<void>;
  /** @returns what became of it: done, refused, or failed where the store was being closed */
  visits(id: string, pieces: AsyncIterable<FilePiece<SheetRow>>, keep: Keep<Import> | null): Promise<Import>;
  vehicles(
    id: string,
    pieces: AsyncIterable<FilePiece<VehicleLine>>,
    keep: Keep<Import> | null,
  ): Promise<Import>;
  get(id: string): Promise<Import>;
  /** Latest first. */
  list(page: Page): Promise<Paged<Import>>;
  /** Marks those that an earlier process left unfinished as failed. */
  recover(): Promise<void>;
  /** Cuts those under way short; resolves when they have ended. */
  stop(): Promise<void>;
}

/** Everything in the order in which it was recorded, a page at a time. */
export interface ExportStore {
  vehicles(): AsyncIterable<VehicleBody[]>;
  /** Visits with the names that a spreadsheet tells them apart by. */
  visits(): AsyncIterable<{ visit: Visit; name: SheetName; number: number | null }[]>;
}
