/** What was erased of a vehicle. */
export interface Erased {
  /** The vehicle's own record, and those that were merged into it. */
  records: number;
  visits: number;
  /** Outcomes kept for idempotency keys. */
  outcomes: number;
}

export interface Pruned {
  audit: number;
  visitVersions: number;
  vehicleVersions: number;
}

/** Removes what must not be kept: each a transaction that leaves a line in the audit. */
export interface RetentionStore {
  /**
   * Removes every name, identifier and note from a vehicle, its visits, all their versions, the audit and kept outcomes.
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
