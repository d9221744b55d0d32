import type { Import } from '../../../core/vocabulary/import.js';

/** The reports of files sent for import. */
export interface ImportRows {
  byId(id: string): Promise<Import | null>;
  /**
   * Latest first.
   *
   * @param before the number of the last one of the previous page; null for the first page
   */
  page(before: number | null, limit: number): Promise<{ seq: number; report: Import }[]>;
  inStates(states: readonly Import['state'][]): Promise<Import[]>;
  insert(report: Import): Promise<void>;
  update(report: Import): Promise<void>;
  remove(id: string): Promise<void>;
  removeBefore(createdAt: string): Promise<void>;
}
