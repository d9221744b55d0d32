import type { AuditEntry, VehicleVersion, VisitVersion } from '../../core/vocabulary/records.js';
import type { Caller } from './caller.js';
import type { Page, Paged } from './paging.js';

/** The effect of an audited operation on its resource. */
export type DeedEffect = 'act' | 'set' | 'change' | 'remove';

export interface AuditLine extends Omit<AuditEntry, 'method'> {
  /** Null if done on the command line or by the service itself. */
  effect: DeedEffect | null;
}

/** Past versions and their authors, earliest first. */
export interface HistoryStore {
  ofVisit(caller: Caller, visitId: string, page: Page): Promise<Paged<VisitVersion>>;
  /** Also works for a vehicle that was merged into another. */
  ofVehicle(caller: Caller, vehicleId: string, page: Page): Promise<Paged<VehicleVersion>>;
  /** @param since an instant in UTC; null for all */
  audit(since: string | null, page: Page): Promise<Paged<AuditLine>>;
}
