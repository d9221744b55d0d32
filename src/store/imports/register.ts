import type { Import } from '../../core/vocabulary/import.js';
import type { ImportKind } from '../../core/vocabulary/terms.js';
import type { KeyCaller } from '../contract/caller.js';
import type { Page } from '../contract/paging.js';
import { placeAfter, rowsFor } from '../paging.js';
import type { Rules, StoreParts } from '../parts.js';

/** How long the result of a file can be looked up. */
const KEPT_MS = 90 * 86_400_000;
const UNFINISHED = ['receiving', 'checking', 'forecasting', 'writing'] as const;

export const NOTHING_ADDED = {
  vehiclesWritten: 0,
  visitsAdded: 0,
  visitsExtended: 0,
  rowsAdded: 0,
  rowsSkipped: 0,
};

/** Stores the result of each file. */
export function importRegister({ reading, clock, write }: StoreParts) {
  const { imports } = reading.rows;

  async function step(report: Import, changes: Partial<Import>): Promise<void> {
    await writeReport(write, report, (own, next) => saveImport(own, Object.assign(next, changes)));
  }

  return {
    step,
    finish: (report: Import, changes: Partial<Import>): Promise<void> =>
      step(report, { ...changes, finishedAt: clock().toISOString() }),

    find: (id: string): Promise<Import | null> => imports.byId(id),

    /** A page of the rows, the latest first. */
    rows: (page: Page) => imports.page(page.after ? placeAfter(page) : null, rowsFor(page)),

    /** Imports that an earlier process left unfinished. */
    unfinished: (): Promise<Import[]> => imports.inStates(UNFINISHED),

    /** Adds a file being received, and deletes old ones. */
    async add(id: string, { keyName: by }: KeyCaller, kind: ImportKind, dryRun: boolean): Promise<Import> {
      const now = clock();
      const report: Import = {
        id,
        version: 1,
        kind,
        dryRun,
        state: 'receiving',
        detail: null,
        by,
        rows: 0,
        vehicles: 0,
        vehiclesChecked: 0,
        vehiclesForecast: 0,
        ...NOTHING_ADDED,
        errorsTotal: 0,
        errors: [],
        createdAt: now.toISOString(),
        finishedAt: null,
      };
      await write(async (own) => {
        await own.rows.imports.removeBefore(new Date(now.getTime() - KEPT_MS).toISOString());
        await own.rows.imports.insert(report);
      });
      return report;
    },

    remove: (id: string): Promise<void> => write((own) => own.rows.imports.remove(id)),
  };
}

export type ImportRegister = ReturnType<typeof importRegister>;

/**
 * Runs a write that changes a report. The work gets a copy, which replaces the report after the commit: readers never
 * see counts that may be rolled back, and a repeated transaction starts from the same counts.
 */
export async function writeReport(
  write: StoreParts['write'],
  report: Import,
  work: (own: Rules, next: Import) => Promise<void>,
): Promise<void> {
  let next = report;
  await write((own) => {
    next = { ...report };
    return work(own, next);
  });
  Object.assign(report, next);
}

export async function saveImport({ rows }: Rules, report: Import): Promise<void> {
  report.version += 1;
  await rows.imports.update(report);
}
