import { desc, eq, inArray, lt, sql } from 'drizzle-orm';
import { v7 as uuid } from 'uuid';
import type { Import } from '../../core/vocabulary/import.js';
import type { ImportKind } from '../../core/vocabulary/terms.js';
import type { KeyCaller } from '../contract/caller.js';
import type { Page } from '../contract/paging.js';
import type { Database } from '../engine/sqlite/connection.js';
import { imports } from '../engine/sqlite/schema.js';
import { placeAfter, rowsFor } from '../paging.js';
import type { StoreParts } from '../parts.js';

/** How long the result of a file can be looked up. */
const KEPT_MS = 90 * 86_400_000;
const UNFINISHED = ['receiving', 'checking', 'forecasting', 'writing'] as const;

export const NOTHING_TAKEN = {
  vehiclesWritten: 0,
  visitsAdded: 0,
  visitsExtended: 0,
  rowsAdded: 0,
  rowsSkipped: 0,
};

/** Stores the result of each file. */
export function importRegister({ database, clock, write }: StoreParts) {
  const byId = database
    .select()
    .from(imports)
    .where(eq(imports.id, sql.placeholder('id')))
    .prepare();

  /** Call within a transaction of the given connection. */
  function save(report: Import, into: Database = database): void {
    report.version += 1;
    into.update(imports).set({ state: report.state, body: report }).where(eq(imports.id, report.id)).run();
  }

  async function step(report: Import, changes: Partial<Import>): Promise<void> {
    Object.assign(report, changes);
    await write(() => save(report));
  }

  return {
    save,
    step,
    finish: (report: Import, changes: Partial<Import>): Promise<void> =>
      step(report, { ...changes, finishedAt: clock().toISOString() }),

    find: (id: string): Import | undefined => byId.get({ id })?.body,

    /** A page of the rows, the latest first. */
    rows: (page: Page) =>
      database
        .select()
        .from(imports)
        .where(page.after ? lt(imports.seq, placeAfter(page)) : undefined)
        .orderBy(desc(imports.seq))
        .limit(rowsFor(page))
        .all(),

    /** Imports that an earlier process left unfinished. */
    unfinished: (): Import[] =>
      database
        .select({ body: imports.body })
        .from(imports)
        .where(inArray(imports.state, [...UNFINISHED]))
        .all()
        .map(({ body }) => body),

    /** Adds a file being received, and deletes old ones. */
    async add({ keyName: by }: KeyCaller, kind: ImportKind, dryRun: boolean): Promise<Import> {
      const now = clock();
      const report: Import = {
        id: uuid(),
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
        ...NOTHING_TAKEN,
        errorsTotal: 0,
        errors: [],
        createdAt: now.toISOString(),
        finishedAt: null,
      };
      await write(() => {
        const expired = new Date(now.getTime() - KEPT_MS).toISOString();
        database.delete(imports).where(lt(imports.createdAt, expired)).run();
        const { id, state, createdAt } = report;
        database.insert(imports).values({ id, state, body: report, createdAt }).run();
      });
      return report;
    },

    async remove(id: string): Promise<void> {
      await write(() => database.delete(imports).where(eq(imports.id, id)).run());
    },
  };
}

export type ImportRegister = ReturnType<typeof importRegister>;
