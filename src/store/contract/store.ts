import type { AccuracyStore } from './accuracy.js';
import type { CalendarStore } from './calendars.js';
import type { ExperienceStore } from './experience.js';
import type { ExportStore } from './exports.js';
import type { SharedCounts } from './counts.js';
import type { Figures } from './figures.js';
import type { HistoryStore } from './histories.js';
import type { OutcomeStore } from './idempotency.js';
import type { ImportStore } from './imports.js';
import type { KeyStore } from './keys.js';
import type { OutlookStore, PlanningStore } from './outlooks.js';
import type { ReportStore } from './reports.js';
import type { RetentionStore } from './retention.js';
import type { SessionStore } from './sessions.js';
import type { SettingsStore } from './settings.js';
import type { MergeStore, VehicleStore } from './vehicles.js';
import type { CorrectionStore, OpenPointStore, VisitStore } from './visits.js';
import type { OutboxStore, WebhookStore } from './webhooks.js';

/**
 * The store offers whole operations behind an asynchronous interface, so that another database engine can replace this
 * one. Every write is one transaction (the record, the resulting outlooks and the stored outcome of an idempotency key)
 * and is acknowledged only once it is durable. An operation that is not allowed throws a {@link
 * import('../../core/refusal.js').Refusal}.
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
  outcomes: OutcomeStore;
  settings: SettingsStore;
  retention: RetentionStore;
  webhooks: WebhookStore;
  outbox: OutboxStore;
  /** Null if one server has the database to itself. */
  counts: SharedCounts | null;
  /** Figures for operators. */
  figures(): Promise<Figures>;
  /** A secret of the service, created on first use and never changed: 256 random bits. */
  secret(name: 'cursors'): Promise<string>;
  /** Resolves if the store can be read; otherwise rejects with the fault. */
  check(): Promise<void>;
}
