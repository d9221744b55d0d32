import { desc, eq, inArray, lt } from 'drizzle-orm';
import type { ImportRows } from '../../contract/imports.js';
import type { Database } from '../connections.js';
import { imports } from '../schema.js';

export function importRows(database: Database): ImportRows {
  return {
    byId: async (id) => (await database.select().from(imports).where(eq(imports.id, id)))[0]?.body ?? null,
    page: async (before, limit) =>
      database
        .select({ seq: imports.seq, report: imports.body })
        .from(imports)
        .where(before === null ? undefined : lt(imports.seq, before))
        .orderBy(desc(imports.seq))
        .limit(limit),
    async inStates(states) {
      const rows = await database
        .select({ body: imports.body })
        .from(imports)
        .where(inArray(imports.state, [...states]));
      return rows.map(({ body }) => body);
    },
    async insert(report) {
      const { id, state, createdAt } = report;
      await database.insert(imports).values({ id, state, body: report, createdAt });
    },
    async update(report) {
      await database
        .update(imports)
        .set({ state: report.state, body: report })
        .where(eq(imports.id, report.id));
    },
    async remove(id) {
      await database.delete(imports).where(eq(imports.id, id));
    },
    async removeBefore(createdAt) {
      await database.delete(imports).where(lt(imports.createdAt, createdAt));
    },
  };
}
