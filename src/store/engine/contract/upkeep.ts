/** Rows of a database by table. */
export type RowCounts = Record<string, number>;

/** Maintenance of a database without opening its store. */
export interface Upkeep {
  /** Whether it is so large that opening it checks only its beginning; `readThrough` checks the rest. */
  isCheckedLater(): boolean;
  /**
   * Checks the whole database while it is in use.
   *
   * @throws DatabaseUnusable if it is damaged
   */
  readThrough(): void;
  /** Reserves disk space, so that a key can be revoked when the disk is full. */
  keepReserve(): void;
  /**
   * Copies the database while it is in use, and verifies the copy. An interrupted backup leaves nothing under the
   * target's name.
   *
   * @returns the row counts of the copy
   * @throws DatabaseUnusable if there is nothing to copy, the target exists, or the copy is incomplete
   */
  backUp(target: string): Promise<RowCounts>;
  /** When the last verified backup was made, as an instant in UTC; null if unknown. */
  lastBackupAt(): string | null;
  /** Converts a database error at startup to one clear line; any other error is returned unchanged. */
  asUnusable(error: unknown): unknown;
}
