/** What was erased of a vehicle. */
export interface Erased {
  /** The vehicle's own record, and those merged into it. */
  records: number;
  visits: number;
  /** Stored outcomes of idempotent writes. */
  outcomes: number;
}

export interface Pruned {
  audit: number;
  visitVersions: number;
  vehicleVersions: number;
}

/** Deletes data that must not be kept; every operation is a transaction that adds an audit entry. */
export interface RetentionStore {
  /**
   * Erases every name, identifier and note from a vehicle, its visits, all their versions, the audit and stored
   * outcomes. Readings, odometer and dates remain, so that the experience keeps what it learned.
   *
   * @throws Refusal if there is no such vehicle
   */
  erase(vehicleId: string): Promise<Erased>;
  /** @param before an instant: deletes audit entries and superseded versions written before it */
  prune(before: string): Promise<Pruned>;
  /** Rewrites the database file, so that no deleted data remains in it. */
  vacuum(): Promise<void>;
}
