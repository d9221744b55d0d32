import { asc, count, desc, eq } from 'drizzle-orm';
import type { Policy } from '../core/assessment/outlook.js';
import { ownGauge, STANDARD_GAUGES, type Gauge, type Gauges } from '../core/gauges.js';
import { notFound, stale } from '../core/refusal.js';
import { toMm } from '../core/units.js';
import { DEFAULT_POLICY_BODY, type GaugeBody, type PolicyBody } from '../core/vocabulary/settings.js';
import type { Database } from './database.js';
import type { StoreParts } from './parts.js';
import { gauges, policies } from './schema.js';
import type { Expected, SettingsStore, StoredGauge, StoredPolicy } from './store.js';

/** What the shop settled, as the core takes it; `revision` grows with every change. */
export interface Settings {
  revision: number;
  policy: Policy;
  gauges: Gauges;
}

/** The policy as the core takes it. */
export function policyFrom(body: PolicyBody): Policy {
  const { visitIntervalDays, longestDaysWithoutReading, ruleSets, padMinimum } = body;
  const padMinimumMm = padMinimum ? { limitMm: toMm(padMinimum), failsAt: 'below' as const } : null;
  return { visitIntervalDays, longestDaysWithoutReading, ruleSets, padMinimumMm };
}

/** What holds until the owner settles otherwise. */
export const DEFAULT_POLICY: Policy = policyFrom(DEFAULT_POLICY_BODY);

/** Reads the settings in force; another process may have changed them since the last time. */
export function settingsReader(database: Database): () => Settings {
  const latestPolicy = database.select().from(policies).orderBy(desc(policies.version)).limit(1).prepare();
  const gaugeVersions = database.select({ rows: count() }).from(gauges).prepare();
  const policyVersions = database.select({ rows: count() }).from(policies).prepare();
  const allGauges = database.select().from(gauges).orderBy(asc(gauges.name), asc(gauges.version)).prepare();
  let known: Settings | null = null;
  return () => {
    // Both tables only ever grow, so that the number of their rows tells one state from another.
    const revision = gaugeVersions.get()!.rows + policyVersions.get()!.rows;
    if (known?.revision !== revision) {
      const own = allGauges.all().map(({ name, body }) => [name, ownGauge(name, body)] as const);
      known = {
        revision,
        policy: policyFrom(latestPolicy.get()?.body ?? DEFAULT_POLICY_BODY),
        gauges: new Map([...STANDARD_GAUGES, ...own]),
      };
    }
    return known;
  };
}

export function settingsStore({ database, clock, write, versions }: StoreParts): SettingsStore {
  function policyInForce(): StoredPolicy {
    const row = database.select().from(policies).orderBy(desc(policies.version)).limit(1).get();
    return row ?? { version: 0, body: DEFAULT_POLICY_BODY, updatedAt: null, updatedBy: null };
  }

  function gaugeInForce(name: string): StoredGauge | null {
    const row = database
      .select()
      .from(gauges)
      .where(eq(gauges.name, name))
      .orderBy(desc(gauges.version))
      .limit(1)
      .get();
    if (row) return { version: row.version, gauge: ownGauge(name, row.body) };
    const standard = STANDARD_GAUGES.get(name);
    return standard ? { version: 0, gauge: standard } : null;
  }

  const note = (keyName: string, resource: string, resourceId: string): void =>
    versions.note({ keyName }, { method: 'PUT', action: 'set', resource, resourceId });

  return {
    async policy() {
      return policyInForce();
    },

    async setPolicy(body: PolicyBody, expected: Expected, by: string) {
      return write(() => {
        const before = policyInForce();
        refuseStale(before.version, expected);
        const row = { version: before.version + 1, body, updatedBy: by, updatedAt: clock().toISOString() };
        note(by, 'policy', 'policy');
        return database.insert(policies).values(row).returning().get();
      });
    },

    async gauges() {
      const names = database.selectDistinct({ name: gauges.name }).from(gauges).all();
      const own = names.map(({ name }) => name).filter((name) => !STANDARD_GAUGES.has(name));
      return [...STANDARD_GAUGES.keys(), ...own.sort()].map((name) => gaugeInForce(name)!);
    },

    async gauge(name: string) {
      const found = gaugeInForce(name);
      if (!found) throw notFound('gauge');
      return found;
    },

    async setGauge(name: string, body: GaugeBody, expected: Expected | null, by: string) {
      return write(() => {
        const before = gaugeInForce(name);
        if (before || expected !== null) refuseStale(before?.version ?? null, expected ?? []);
        const version = (before?.version ?? 0) + 1;
        database
          .insert(gauges)
          .values({ name, version, body, updatedBy: by, updatedAt: clock().toISOString() })
          .run();
        const gauge: Gauge = ownGauge(name, body);
        note(by, 'gauge', name);
        return { version, gauge, isNew: before === null };
      });
    },
  };
}

/** @throws Refusal when the version in force is not one of those the caller is ready to change */
function refuseStale(version: number | null, expected: Expected): void {
  const matches = version !== null && (expected === '*' || expected.includes(version));
  if (!matches) throw stale();
}
