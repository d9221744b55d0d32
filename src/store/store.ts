import type { Question } from '../core/assessment/wearAnswer.js';
import type { Outlook } from '../core/assessment/outlookShape.js';
import type { CarryOutFits, FittedExperience } from '../core/forecast/fit.js';
import type { Gauge } from '../core/gauges.js';
import type { History } from '../core/history.js';
import type { Accuracy, PastForecast } from '../core/vocabulary/accuracy.js';
import type { SheetRow } from '../core/spreadsheet/cells.js';
import type { SheetName } from '../core/spreadsheet/rows.js';
import type { Answer as WebhookAnswer } from '../core/events/retries.js';
import type {
  Attempt,
  Delivery,
  Endpoint,
  EndpointBody,
  EndpointWithSecret,
} from '../core/vocabulary/events.js';
import type { Demand } from '../core/planning/demand.js';
import type { PlanQuestion } from '../core/planning/replacementPlan.js';
import type { Import, RowError } from '../core/vocabulary/import.js';
import type { ReplacementPlan } from '../core/vocabulary/planning.js';
import type { Reason } from '../core/vocabulary/quantities.js';
import type { OpenPoints } from '../core/vocabulary/openPoints.js';
import type {
  Axle,
  DeliveryState,
  DuePart,
  EventType,
  GroupBy,
  ImportKind,
  LiningPosition,
  Role,
  Side,
} from '../core/vocabulary/terms.js';
import type {
  CalendarSubscription,
  CalendarSubscriptionBody,
} from '../core/vocabulary/calendarSubscription.js';
import type { GaugeBody, PolicyBody } from '../core/vocabulary/settings.js';
import type { AuditEntry, MergeBody, VehicleVersion, VisitVersion } from '../core/vocabulary/records.js';
import type { Vehicle, VehicleBody } from '../core/vocabulary/vehicle.js';
import type { EntryBody, Visit, VisitBody } from '../core/vocabulary/visit.js';
import type { DecisionReason } from '../core/vocabulary/wear.js';

/**
 * The store offers whole operations and is asynchronous at its boundary, so that another database engine can stand
 * behind it. Every write is one transaction: the record, the outlooks that follow from it and the kept answer to an
 * Idempotency-Key; it is answered only once it is durable. What it will not do it throws as a
 * {@link import('../core/refusal.js').Refusal}.
 */
export interface Store {
  keys: KeyStore;
  sessions: SessionStore;
  vehicles: VehicleStore;
  visits: VisitStore;
  corrections: CorrectionStore;
  merging: MergeStore;
  histories: HistoryStore;
  outlooks: OutlookStore;
  openPoints: OpenPointStore;
  planning: PlanningStore;
  reports: ReportStore;
  calendars: CalendarStore;
  experience: ExperienceStore;
  accuracy: AccuracyStore;
  imports: ImportStore;
  exports: ExportStore;
  answers: AnswerStore;
  settings: SettingsStore;
  retention: RetentionStore;
  webhooks: WebhookStore;
  outbox: OutboxStore;
  /** What an operator watches. */
  figures(): Figures;
  /** A secret of the service's own, made when it is first asked for and the same ever since: 256 random bits. */
  secret(name: 'cursors'): Promise<string>;
  /** Resolves when the store can be read; rejects with the fault otherwise. */
  check(): Promise<void>;
}

export interface Figures {
  /** Outlooks of an earlier experience or earlier settings. */
  staleOutlooks: number;
  /** When the experience in force was fitted, as an instant in UTC; null before the first fit. */
  lastFitAt: string | null;
  webhooksPending: number;
  webhooksAbandoned: number;
  /** Keys in force that nobody has used for 90 days, or since they were made. */
  unusedKeys: number;
}

/** Who asks, and what they may see: everything (null), or the vehicles of some fleets. */
export interface Scope {
  fleets: readonly string[] | null;
  /** The name of the API key; null where it is done on the command line. */
  keyName: string | null;
}

export interface Key {
  name: string;
  role: Role;
  fleets: string[];
  createdAt: string;
  /** An instant in UTC from which it is refused; null means never. */
  expiresAt: string | null;
  /** An instant in UTC, at most an hour before the last use. */
  lastUsedAt: string | null;
  revokedAt: string | null;
}

export interface KeyStore {
  /**
   * Null for a key that is unknown, revoked, expired or rotated longer ago than its overlap.
   *
   * @param digest SHA-256 of the key, hex
   */
  find(digest: string): Promise<Key | null>;
  /** @throws Refusal when the name was ever used or is none, or the fleets do not suit the role */
  create(key: {
    name: string;
    role: Role;
    fleets: string[];
    digest: string;
    expiresAt?: string | null;
  }): Promise<void>;
  /**
   * Changes what a key may do; what is missing stays. Fleets of a key that stops being a fleet-manager's are dropped.
   *
   * @throws Refusal when there is no such key in use, or the fleets do not suit the role
   */
  change(name: string, change: { role?: Role; fleets?: string[]; expiresAt?: string | null }): Promise<void>;
  /**
   * Gives a key another secret; the one until now is taken too for so long.
   *
   * @param digest of the new key
   * @throws Refusal when there is no such key in use
   */
  rotate(name: string, digest: string, overlapHours: number): Promise<void>;
  /**
   * Signs everybody out who signed in with a key.
   *
   * @returns how many sessions ended
   * @throws Refusal when there is no such key in use
   */
  endSessions(scope: Scope, name: string): Promise<number>;
  /** Those of the fleets that no vehicle is in. */
  fleetsWithoutVehicles(fleets: readonly string[]): Promise<string[]>;
  list(): Promise<Key[]>;
  /** @returns false when no unrevoked key has that name */
  revoke(name: string): Promise<boolean>;
}

/** Who is signed in on the pages: a token, told by its SHA-256 in hex, that stands for a key until it expires. */
export interface SessionStore {
  /**
   * Begins a session and ends the one that the browser had before.
   *
   * @param session.expiresAt an instant in UTC; the session ends at it, or with its key
   * @param former the digest of the session before; null for none
   */
  begin(
    scope: Scope,
    session: { digest: string; keyName: string; expiresAt: string },
    former: string | null,
  ): Promise<void>;
  /** The key behind a session; null where that has ended. */
  find(digest: string): Promise<Key | null>;
  end(scope: Scope, digest: string): Promise<void>;
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
  /** Part of a registration, VIN or externalId, by letters and digits alone. */
  find?: string;
  registration?: string;
  vin?: string;
  externalId?: string;
  fleet?: string;
  model?: string;
  includeOutOfService?: boolean;
}

/** A merge patch, and what it makes of a vehicle. */
export interface VehicleChange {
  patch: object;
  /** The date from which it holds, for answers as of a date; null means today's. */
  effectiveFrom: string | null;
  /** Reads the patched whole, or throws where it is not a vehicle. */
  read: (patched: unknown) => VehicleBody;
}

export interface VehicleStore {
  create(scope: Scope, body: VehicleBody, keep: Keep<Vehicle> | null): Promise<Vehicle>;
  get(scope: Scope, id: string): Promise<Vehicle>;
  list(scope: Scope, filter: VehicleFilter, page: Page): Promise<Paged<Vehicle>>;
  /** Vehicles with a text in their registration, VIN or externalId, whatever its case, spaces and hyphens. */
  search(scope: Scope, text: string, most: number): Promise<Vehicle[]>;
  change(scope: Scope, id: string, expected: Expected, change: VehicleChange): Promise<Vehicle>;
  /** The fleets that a caller may see, by name. */
  fleets(scope: Scope): Promise<string[]>;
  /** Vehicles whose visits were recorded last, with the date of that visit; the latest first. */
  recent(scope: Scope, max: number): Promise<{ vehicle: Vehicle; date: string }[]>;
}

/** A visit with the outlook that follows from it, both from one transaction. */
export interface RecordedVisit {
  visit: Visit;
  outlook: Outlook;
  /** False when nothing was added: the work order and content were known, or a visit was corrected. */
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
  /** Latest first; voided ones only where they are asked for. */
  list(
    scope: Scope,
    vehicleId: string,
    filter: { includeVoided: boolean },
    page: Page,
  ): Promise<Paged<Visit>>;
}

/** Puts right what a visit says. What stood before stays in its history. */
export interface CorrectionStore {
  /** @param change makes the new body of the standing one, or throws where that is not a visit */
  correct(
    scope: Scope,
    visitId: string,
    expected: Expected,
    correction: { reason: string; change: (body: VisitBody) => VisitBody },
    keep: Keep<RecordedVisit> | null,
  ): Promise<RecordedVisit>;
  /** Takes a visit out of all that is worked out, or back in. */
  setVoided(
    scope: Scope,
    visitId: string,
    expected: Expected,
    correction: { reason: string; void: boolean },
    keep: Keep<RecordedVisit> | null,
  ): Promise<RecordedVisit>;
}

export interface MergeStore {
  /** Moves the visits of another record of the same vehicle here, and fills the identifiers that are missing here. */
  merge(
    scope: Scope,
    vehicleId: string,
    expected: Expected,
    merge: MergeBody,
    keep: Keep<Vehicle> | null,
  ): Promise<Vehicle>;
}

/** What stood when, and who wrote it. Earliest first. */
export interface HistoryStore {
  ofVisit(scope: Scope, visitId: string, page: Page): Promise<Paged<VisitVersion>>;
  /** Also of a record that was merged into another. */
  ofVehicle(scope: Scope, vehicleId: string, page: Page): Promise<Paged<VehicleVersion>>;
  /** @param since an instant in UTC; null for all */
  audit(since: string | null, page: Page): Promise<Paged<AuditEntry>>;
}

export interface OutlookStore {
  /** The stored outlook, worked out when the vehicle's history last changed. */
  get(scope: Scope, vehicleId: string): Promise<Outlook>;
  /** The wear answer that follows from it on one day, as JSON in UTF-8 ready to be sent. */
  wear(scope: Scope, vehicleId: string, question: Question): Promise<Buffer>;
  /** Worked out anew from the visits dated up to a date. */
  asOf(scope: Scope, vehicleId: string, date: string): Promise<Outlook>;
  /** The outlook with the history that it follows from, both from one transaction; as of a date, or as it stands. */
  withHistory(
    scope: Scope,
    vehicleId: string,
    asOf: string | null,
  ): Promise<{ history: History; outlook: Outlook }>;
  /**
   * Works out every stored outlook anew that another experience or other settings stand behind, in batches that
   * hold the writer for a moment each; resolves when none is left. One run at a time, however often it is asked.
   */
  refresh(): Promise<void>;
}

export interface OpenPointStore {
  /** What a visit lacks, as things stood when it was the latest. */
  ofVisit(scope: Scope, visitId: string): Promise<OpenPoints>;
}

export interface PlanningStore {
  /** At which of the coming visits to fit new linings, from everything known of a vehicle. */
  replacement(scope: Scope, vehicleId: string, question: PlanQuestion): Promise<ReplacementPlan>;
}

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
    scope: Scope,
    query: DueSoonQuery,
    page: Page | null,
  ): Promise<
    Paged<DueAxle> &
      DueTotals & {
        /** In the order of the items, what has no such name last; none where no grouping is asked for. */
        groups: (DueTotals & { group: string | null })[];
        unassessedCount: number;
        measureFirstCount: number;
      }
  >;
  /**
   * Axles that have a projection, are not due by the query, and were not measured for longer than the policy allows or
   * have dates too far apart to plan by. Soonest early date first.
   */
  measureFirst(
    scope: Scope,
    query: Omit<DueSoonQuery, 'groupBy'>,
    page: Page | null,
  ): Promise<Paged<MeasureFirstAxle> & { total: number }>;
  unassessed(
    scope: Scope,
    query: { today: string; fleet: string | null },
    page: Page | null,
  ): Promise<Paged<UnassessedAxle> & { total: number }>;
  partsDemand(scope: Scope, query: PartsDemandQuery): Promise<PartsDemand>;
}

/** What a token opens: one calendar, as the key that made it sees it. */
export interface OpenedCalendar {
  subscription: CalendarSubscription;
  key: Key;
}

export interface CalendarStore {
  /**
   * @param by the name of the key that makes it
   * @param digest SHA-256 of the token, hex
   */
  create(
    by: string,
    body: CalendarSubscriptionBody,
    digest: string,
    keep: Keep<CalendarSubscription> | null,
  ): Promise<CalendarSubscription>;
  /**
   * In the order in which they were made.
   *
   * @param madeBy the name of a key; null for those of every key
   */
  list(madeBy: string | null, page: Page): Promise<Paged<CalendarSubscription>>;
  /**
   * @param by the name of the key that revokes it
   * @param madeBy the name of the key that must have made it; null for any
   * @throws Refusal when there is none
   */
  revoke(by: string, id: string, madeBy: string | null): Promise<void>;
  /** Null where no calendar has this token, or the key that made it is revoked. */
  open(digest: string): Promise<OpenedCalendar | null>;
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
  /**
   * Fits the shop's experience anew, on a sample of a large shop, and stores it as a new version.
   *
   * @param carryOut by whom the pieces of the fit are carried out; here and now where it is missing
   * @throws where the histories cannot be fitted; nothing is stored, and the experience stays in force
   */
  fit(carryOut?: CarryOutFits): Promise<number>;
  /** Fits the shop's experience anew and works out every outlook with it; resolves when all are written. */
  refit(): Promise<number>;
  /** Visits that the latest fit knew of, and those that arrived since. */
  newVisits(): Promise<{ known: number; since: number }>;
  /** The latest fits, newest first. */
  list(): Promise<ExperienceVersion[]>;
}

export interface StoredPolicy {
  /** 0 where the defaults stand. */
  version: number;
  body: PolicyBody;
  updatedAt: string | null;
  updatedBy: string | null;
}

export interface StoredGauge {
  /** 0 for a standard gauge as it comes. */
  version: number;
  gauge: Gauge;
}

/** What was erased of a vehicle. */
export interface Erased {
  /** The vehicle's own record, and those that were merged into it. */
  records: number;
  visits: number;
  /** Kept answers to an Idempotency-Key. */
  answers: number;
}

export interface Pruned {
  audit: number;
  visitVersions: number;
  vehicleVersions: number;
}

/** Removes what must not be kept: each a transaction that leaves a line in the audit. */
export interface RetentionStore {
  /**
   * Removes every name, identifier and note from a vehicle, its visits, all their versions, the audit and kept answers.
   * Readings, odometer and dates stay, so that the experience keeps what it learned.
   *
   * @throws Refusal when there is no such vehicle
   */
  erase(vehicleId: string): Promise<Erased>;
  /** @param before an instant: audit entries and superseded versions written before it are removed */
  prune(before: string): Promise<Pruned>;
  /** Rewrites the database file, so that nothing that was removed is left in it. */
  vacuum(): Promise<void>;
}

export interface SettingsStore {
  policy(): Promise<StoredPolicy>;
  /** @param by the name of the key that sets it */
  setPolicy(body: PolicyBody, expected: Expected, by: string): Promise<StoredPolicy>;
  /** The standard ones first, then the shop's own by name. */
  gauges(): Promise<StoredGauge[]>;
  gauge(name: string): Promise<StoredGauge>;
  /** @param expected null where the caller means to add a gauge */
  setGauge(
    name: string,
    body: GaugeBody,
    expected: Expected | null,
    by: string,
  ): Promise<StoredGauge & { isNew: boolean }>;
}

export interface AccuracyQuery {
  fleet: string | null;
  model: string | null;
  axle: Axle | null;
}

export interface AccuracyStore {
  /**
   * How past forecasts did against what followed, the latest forecast first. A null page asks for all. Vehicles whose
   * history has changed are scored anew first, for a few seconds at the most; those left are counted as pending.
   */
  report(
    scope: Scope,
    query: AccuracyQuery,
    page: Page | null,
  ): Promise<
    Paged<PastForecast> & {
      accuracy: Accuracy;
      /** Scored, still to be scored, and in all: of very many only a sample is looked at. */
      vehicles: number;
      pendingVehicles: number;
      ofVehicles: number;
      total: number;
    }
  >;
  /** Fits what was known in the past where that is missing, as where a shop brought its history with it, and scores all that is pending. */
  bringUpToDate(): Promise<void>;
}

export interface AnswerStore {
  find(slot: Omit<AnswerSlot, 'fingerprint'>): Promise<(KeptAnswer & { fingerprint: string }) | null>;
  /** Keeps an answer that changed nothing; one that is there already stays. */
  keep(slot: AnswerSlot, answer: KeptAnswer): Promise<void>;
  /** Removes an answer that no longer counts, so that the same request is carried out again. */
  forget(slot: Omit<AnswerSlot, 'fingerprint'>): Promise<void>;
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

export interface DeliveryFilter {
  endpointId: string | null;
  status: DeliveryState | null;
  type: EventType | null;
}

/** Where events are posted, and what became of each. For owners alone. */
export interface WebhookStore {
  /** @throws Refusal of kind conflict where there are as many as there may be */
  create(
    scope: Scope,
    body: EndpointBody,
    keep: Keep<EndpointWithSecret> | null,
  ): Promise<EndpointWithSecret>;
  get(id: string): Promise<Endpoint>;
  /** All there are, earliest first. */
  list(): Promise<Endpoint[]>;
  /** @param change makes the new body of the standing one, or throws where that is not one */
  change(
    scope: Scope,
    id: string,
    expected: Expected,
    change: (body: EndpointBody) => EndpointBody,
  ): Promise<Endpoint>;
  /** With its secret and its deliveries. */
  remove(scope: Scope, id: string): Promise<void>;
  /** Makes a new secret; the one until now signs beside it for so long. */
  rotateSecret(
    scope: Scope,
    id: string,
    overlapHours: number,
    keep: Keep<EndpointWithSecret> | null,
  ): Promise<EndpointWithSecret>;
  /** Puts a test into the endpoint's queue. */
  test(scope: Scope, id: string, keep: Keep<Delivery> | null): Promise<Delivery>;
  delivery(id: string): Promise<Delivery>;
  /** Latest first. */
  deliveries(filter: DeliveryFilter, page: Page): Promise<Paged<Delivery>>;
  /** Puts a delivery into the queue again, at the head of the schedule, under the same webhook-id. */
  replay(scope: Scope, id: string, keep: Keep<Delivery> | null): Promise<Delivery>;
}

/** One delivery taken out of the queue to be sent. */
export interface ClaimedDelivery {
  seq: number;
  endpointSeq: number;
  endpointId: string;
  url: string;
  webhookId: string;
  /** The text to send, byte for byte. */
  body: string;
  /** Those that sign, the present one first. */
  secrets: string[];
  /** Attempts made before this one. */
  tries: number;
}

/** What the process that delivers asks of the store. Several may share a database: none gets what another has taken. */
export interface OutboxStore {
  /**
   * Takes deliveries whose time has come. What is never settled comes back after a minute.
   *
   * @param room how many there is room for, of one endpoint and in all
   * @param busy how many of each endpoint are being sent, by its seq
   */
  claim(
    room: { perEndpoint: number; inAll: number },
    busy: ReadonlyMap<number, number>,
  ): Promise<ClaimedDelivery[]>;
  /**
   * Writes what became of an attempt and what follows from it.
   *
   * @param chance from 0 to 1: where within the jitter a next attempt falls
   */
  settle(
    delivery: ClaimedDelivery,
    attempt: Attempt,
    answer: WebhookAnswer,
    chance: number,
  ): Promise<{ isAbandoned: boolean }>;
  /**
   * Raises what is news without a write: axles whose date has come nearer than the policy's horizon, and what stands
   * at the end of history that was entered. Forgets deliveries that were done long ago.
   */
  lookAtCalendar(): Promise<void>;
}
