import { asc, desc, eq, sql } from 'drizzle-orm';
import type { SettingsRows } from '../../contract/settings.js';
import type { Database } from '../connections.js';
import { gauges, policies } from '../schema.js';

/** Rows are only added to both tables, so their number identifies a state. */
export const SETTINGS_REVISION = sql<number>`((select count(*) from ${gauges}) + (select count(*) from ${policies}))::int`;

export function settingsRows(database: Database): SettingsRows {
  const latestPolicy = database.select().from(policies).orderBy(desc(policies.version)).limit(1).prepare('');
  const all = database.select().from(gauges).orderBy(asc(gauges.name), asc(gauges.version)).prepare('');
  return {
    async revision() {
      const [row] = (await database.execute(sql`select ${SETTINGS_REVISION}`)) as unknown as [[number]];
      return row[0];
    },
    latestPolicy: async () => (await latestPolicy.execute())[0] ?? null,
    async insertPolicy(row) {
      await database.insert(policies).values(row);
    },
    gauges: async () => all.execute(),
    latestGauge: async (name) =>
      (
        await database
          .select()
          .from(gauges)
          .where(eq(gauges.name, name))
          .orderBy(desc(gauges.version))
          .limit(1)
      )[0] ?? null,
    async insertGauge(row) {
      await database.insert(gauges).values(row);
    },
  };
}
