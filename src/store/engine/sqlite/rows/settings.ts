import { asc, desc, eq } from 'drizzle-orm';
import type { SettingsRows } from '../../contract/settings.js';
import type { Database } from '../connection.js';
import { gauges, policies } from '../schema.js';
import { settingsRevisionReader } from '../statements.js';

export function settingsRows(database: Database): SettingsRows {
  const revision = settingsRevisionReader(database);
  const latestPolicy = database.select().from(policies).orderBy(desc(policies.version)).limit(1).prepare();
  const all = database.select().from(gauges).orderBy(asc(gauges.name), asc(gauges.version)).prepare();
  return {
    revision: async () => revision(),
    latestPolicy: async () => latestPolicy.get() ?? null,
    async insertPolicy(row) {
      database.insert(policies).values(row).run();
    },
    gauges: async () => all.all(),
    latestGauge: async (name) =>
      database.select().from(gauges).where(eq(gauges.name, name)).orderBy(desc(gauges.version)).get() ?? null,
    async insertGauge(row) {
      database.insert(gauges).values(row).run();
    },
  };
}
