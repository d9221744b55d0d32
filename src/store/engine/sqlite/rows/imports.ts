import { desc, eq, inArray, lt } from 'drizzle-orm';
import type { ImportRows } from '../../contract/imports.js';
import type { Database } from '../connection.js';
import { imports } from '../schema.js';

export function importRows(database: Database): ImportRows {
  return {
    byId: async (id) => database.select().from(imports).where(eq(imports.id, id)).get()?.body ?? null,
    page: async (before, limit) =>
      database
        .select({ seq: imports.seq, report: imports.body })
        .from(imports)
        .where(before === null ? undefined : lt(imports.seq, before))
        .orderBy(desc(imports.seq))
        .limit(limit)
        .all(),
    inStates: async (states) =>
      database
        .select({ body: imports.body })
        .from(imports)
        .where(inArray(imports.state, [...states]))
        .all()
        .map(({ body }) => body),
    async insert(report) {
      const { id, state, createdAt } = report;
      database.insert(imports).values({ id, state, body: report, createdAt }).run();
    },
    async update(report) {
      database
        .update(imports)
        .set({ state: report.state, body: report })
        .where(eq(imports.id, report.id))
        .run();
    },
    async remove(id) {
      database.delete(imports).where(eq(imports.id, id)).run();
    },
    async removeBefore(createdAt) {
      database.delete(imports).where(lt(imports.createdAt, createdAt)).run();
    },
  };
}
