import type { SheetRow } from '../../core/spreadsheet/cells.js';
import type { Import, RowError } from '../../core/vocabulary/import.js';
import type { ImportKind } from '../../core/vocabulary/terms.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { KeyCaller } from './caller.js';
import type { Keep } from './idempotency.js';
import type { Page, Paged } from './paging.js';

/** A parsed piece of a file; unreadable rows appear as errors. */
export interface FilePiece<Row> {
  rows: Row[];
  errors: RowError[];
  /** Number of unreadable rows; one row may have several errors. */
  unread: number;
}

export interface VehicleLine {
  line: number;
  body: VehicleBody;
}

/**
 * A file is imported completely or not at all. Its rows are staged in a separate database until all are checked and the
 * resulting outlooks computed, then written in one transaction.
 */
export interface ImportStore {
  /** Records that a file is being received. */
  begin(caller: KeyCaller, kind: ImportKind, file: { dryRun: boolean }): Promise<Import>;
  /** Marks a file that was not received completely. */
  markIncomplete(id: string, detail: string): Promise<void>;
  /** Deletes the record made by `begin`. */
  forget(id: string): Promise<void>;
  /** @returns the result: done, refused, or failed if the store was closed meanwhile */
  visits(id: string, pieces: AsyncIterable<FilePiece<SheetRow>>, keep: Keep<Import> | null): Promise<Import>;
  vehicles(
    id: string,
    pieces: AsyncIterable<FilePiece<VehicleLine>>,
    keep: Keep<Import> | null,
  ): Promise<Import>;
  get(id: string): Promise<Import>;
  /** Latest first. */
  list(page: Page): Promise<Paged<Import>>;
  /** Marks imports that an earlier process left unfinished as failed. */
  recover(): Promise<void>;
  /** Aborts imports in progress; resolves when they have ended. */
  stop(): Promise<void>;
}
