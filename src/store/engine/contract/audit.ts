import type { DeedEffect } from '../../contract/histories.js';

/** One write: which key did what to which resource, and when. */
export interface AuditRow {
  seq: number;
  at: string;
  /** Null if done on the command line. */
  keyName: string | null;
  /** Null on the command line. */
  effect: DeedEffect | null;
  action: string;
  resource: string;
  resourceId: string;
  /** The result, if the resource itself does not keep it permanently. */
  detail: string | null;
}

/** Rows are only added. */
export interface AuditRows {
  insert(rows: readonly Omit<AuditRow, 'seq'>[]): Promise<void>;
  /**
   * Earliest first.
   *
   * @param since an instant; null for all
   */
  page(since: string | null, after: number, limit: number): Promise<AuditRow[]>;
}
