import { asc, desc, eq } from 'drizzle-orm';
import { latestDateAt } from '../../core/calendar.js';
import { ownGauge, STANDARD_GAUGES, type Gauge } from '../../core/gauges.js';
import { invalid, notFound } from '../../core/refusal.js';
import { DEFAULT_POLICY_BODY, type GaugeBody, type PolicyBody } from '../../core/vocabulary/settings.js';
import { complete } from './inForce.js';
import type { StoreParts } from '../parts.js';
import { gauges, policies } from '../engine/sqlite/schema.js';
import type { Caller, KeyCaller } from '../contract/caller.js';
import { refuseStale, type Expected } from '../contract/expected.js';
import type { SettingsStore, StoredGauge, StoredPolicy } from '../contract/settings.js';

export function settingsStore({ database, clock, write, versions }: StoreParts): SettingsStore {
  const latestPolicy = database.select().from(policies).orderBy(desc(policies.version)).limit(1).prepare();

  function policyInForce(): StoredPolicy {
    const row = latestPolicy.get();
    return row
      ? { ...row, body: complete(row.body) }
      : { version: 0, body: DEFAULT_POLICY_BODY, updatedAt: null, updatedBy: null };
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

  const note = (caller: Caller, resource: string, resourceId: string): void =>
    versions.note(caller, { effect: 'set', action: 'set', resource, resourceId });

  return {
    async policy() {
      return policyInForce();
    },

    async setPolicy(caller: KeyCaller, body: PolicyBody, expected: Expected) {
      return write(() => {
        const before = policyInForce();
        refuseStale(expected, before.version);
        const updated = { updatedBy: caller.keyName, updatedAt: clock().toISOString() };
        const row = { version: before.version + 1, body, ...updated };
        note(caller, 'policy', 'policy');
        return database.insert(policies).values(row).returning().get();
      });
    },

    async gauges() {
      const rows = database.select().from(gauges).orderBy(asc(gauges.name), asc(gauges.version)).all();
      // A later version replaces its gauge in place; standard gauges stay at the head.
      return [
        ...new Map<string, StoredGauge>([
          ...[...STANDARD_GAUGES].map(([name, gauge]) => [name, { version: 0, gauge }] as const),
          ...rows.map(({ name, version, body }) => [name, { version, gauge: ownGauge(name, body) }] as const),
        ]).values(),
      ];
    },

    async gauge(name: string) {
      const found = gaugeInForce(name);
      if (!found) throw notFound('gauge');
      return found;
    },

    async setGauge(caller: KeyCaller, name: string, body: GaugeBody, expected: Expected | null) {
      return write(() => {
        refuseFutureCalibration(body, latestDateAt(clock()));
        const before = gaugeInForce(name);
        if (before || expected !== null) refuseStale(expected ?? [], before?.version ?? null);
        const version = (before?.version ?? 0) + 1;
        database
          .insert(gauges)
          .values({ name, version, body, updatedBy: caller.keyName, updatedAt: clock().toISOString() })
          .run();
        const gauge: Gauge = ownGauge(name, body);
        note(caller, 'gauge', name);
        return { version, gauge, isNew: before === null };
      });
    },
  };
}

/** @throws Refusal of kind invalid if a gauge's calibration date is in the future everywhere on earth */
function refuseFutureCalibration({ calibrationDate }: GaugeBody, latestDate: string): void {
  if (!calibrationDate || calibrationDate <= latestDate) return;
  const detail = `${calibrationDate} is in the future; give the date of the last calibration`;
  throw invalid([{ path: ['calibrationDate'], detail }]);
}
