import type { IdempotencyKey, KeptOutcome } from '../../contract/idempotency.js';
import type { Pruned } from '../../contract/retention.js';
import type { Import } from '../../../core/vocabulary/import.js';
import type { VehicleVersionRow } from './vehicles.js';
import type { VisitVersionRow } from './visits.js';

export interface OutcomeRow extends IdempotencyKey, KeptOutcome {
  createdAt: string;
}

/** The outcomes of writes under an Idempotency-Key. */
export interface OutcomeRows {
  find(key: IdempotencyKey): Promise<KeptOutcome | null>;
  /** @returns false if there is one already; it is left unchanged */
  insert(row: OutcomeRow): Promise<boolean>;
  remove(key: IdempotencyKey): Promise<void>;
  removeBefore(createdAt: string): Promise<void>;
}

/** The service's own secrets. */
export interface SecretRows {
  find(name: string): Promise<string | null>;
  /** Leaves an existing one unchanged. */
  insert(name: string, secret: string): Promise<void>;
}

/** Changes append-only rows, and searches tables for data that must not be kept. */
export interface HistoryRows {
  vehicleVersions(vehicleSeq: number): Promise<VehicleVersionRow[]>;
  updateVehicleVersion(
    row: Pick<VehicleVersionRow, 'vehicleSeq' | 'version' | 'body' | 'patch' | 'reason'>,
  ): Promise<void>;
  visitVersions(visitSeq: number): Promise<VisitVersionRow[]>;
  updateVisitVersion(row: Pick<VisitVersionRow, 'visitSeq' | 'version' | 'body' | 'reason'>): Promise<void>;
  eraseAuditDetails(resourceIds: readonly string[]): Promise<void>;
  outcomes(): Promise<OutcomeRow[]>;
  eraseOutcome(key: IdempotencyKey): Promise<void>;
  imports(): Promise<Import[]>;
  /** Removes from events the data that identifies these vehicles, and from their deliveries what receivers answered. */
  eraseEvents(vehicleIds: readonly string[]): Promise<void>;
  /** Removes audit entries and superseded versions written before an instant. */
  prune(before: string): Promise<Pruned>;
}
