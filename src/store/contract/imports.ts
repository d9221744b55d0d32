import type { SheetRow } from '../../core/spreadsheet/cells.js';
import type { Import, RowError } from '../../core/vocabulary/import.js';
import type { ImportKind } from '../../core/vocabulary/terms.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { KeyCaller } from './caller.js';
import type { Keep } from './idempotency.js';
import type { Page, Paged } from './paging.js';

/** A piece of a file as it has been read; what could not be read of it are its errors. */
export interface FilePiece<Row> {
  rows: Row[];
  errors: RowError[];
  /** Rows that could not be read, of which there may be several errors. */
  unread: number;
}

export interface VehicleLine {
  line: number;
  body: VehicleBody;
}

/**
 * A file is taken whole or not at all: its rows wait in a database of their own until all have been checked and the
 * outlooks that follow are worked out, and are then written in one transaction.
 */
export interface ImportStore {
  /** Notes that a file is coming in. */
  begin(caller: KeyCaller, kind: ImportKind, file: { dryRun: boolean }): Promise<Import>;
  /** A file that never came in whole. */
  breakOff(id: string, detail: string): Promise<void>;
  /** Removes what `begin` noted. */
  forget(id: string): Promise<void>;
  /** @returns what became of it: done, refused, or failed where the store was being closed */
  visits(id: string, pieces: AsyncIterable<FilePiece<SheetRow>>, keep: Keep<Import> | null): Promise<Import>;
  vehicles(
    id: string,
    pieces: AsyncIterable<FilePiece<VehicleLine>>,
    keep: Keep<Import> | null,
  ): Promise<Import>;
  get(id: string): Promise<Import>;
  /** Latest first. */
  list(page: Page): Promise<Paged<Import>>;
  /** Marks those that an earlier process left unfinished as failed. */
  recover(): Promise<void>;
  /** Cuts those under way short; resolves when they have ended. */
  stop(): Promise<void>;
}
