import type { AccuracyStore } from './accuracy.js';
import type { CalendarStore } from './calendars.js';
import type { ExperienceStore } from './experience.js';
import type { ExportStore } from './exports.js';
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
 * The store offers whole operations and is asynchronous at its boundary, so that another database engine can stand
 * behind it. Every write is one transaction: the record, the outlooks that follow from it and what is kept for an
 * idempotency key; it is answered only once it is durable. What it will not do it throws as a
 * {@link import('../../core/refusal.js').Refusal}.
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
  /** What an operator watches. */
  figures(): Figures;
  /** A secret of the service's own, made when it is first asked for and the same ever since: 256 random bits. */
  secret(name: 'cursors'): Promise<string>;
  /** Resolves when the store can be read; rejects with the fault otherwise. */
  check(): Promise<void>;
}
