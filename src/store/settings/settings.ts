import { latestDateAt } from '../../core/calendar.js';
import { ownGauge, STANDARD_GAUGES } from '../../core/gauges.js';
import { invalid, notFound } from '../../core/refusal.js';
import { DEFAULT_POLICY_BODY, type GaugeBody } from '../../core/vocabulary/settings.js';
import type { Caller } from '../contract/caller.js';
import { refuseStale } from '../contract/expected.js';
import type { SettingsStore, StoredGauge, StoredPolicy } from '../contract/settings.js';
import type { ReadingRules, Rules, StoreParts } from '../parts.js';
import { complete } from './inForce.js';

export function settingsStore({ reading, clock, write }: StoreParts): SettingsStore {
  return {
    policy: () => policyInForce(reading),

    async setPolicy(caller, body, expected) {
      return write(async (own) => {
        const before = await policyInForce(own);
        refuseStale(expected, before.version);
        const updated = { updatedBy: caller.keyName, updatedAt: clock().toISOString() };
        const row = { version: before.version + 1, body, ...updated };
        await note(own, caller, 'policy', 'policy');
        await own.rows.settings.insertPolicy(row);
        return row;
      });
    },

    async gauges() {
      const rows = await reading.rows.settings.gauges();
      // A later version replaces its gauge in place; standard gauges stay at the head.
      return [
        ...new Map<string, StoredGauge>([
          ...[...STANDARD_GAUGES].map(([name, gauge]) => [name, { version: 0, gauge }] as const),
          ...rows.map(({ name, version, body }) => [name, { version, gauge: ownGauge(name, body) }] as const),
        ]).values(),
      ];
    },

    async gauge(name) {
      const found = await gaugeInForce(reading, name);
      if (!found) throw notFound('gauge');
      return found;
    },

    async setGauge(caller, name, body, expected) {
      return write(async (own) => {
        refuseFutureCalibration(body, latestDateAt(clock()));
        const before = await gaugeInForce(own, name);
        if (before || expected !== null) refuseStale(expected ?? [], before?.version ?? null);
        const version = (before?.version ?? 0) + 1;
        const updated = { updatedBy: caller.keyName, updatedAt: clock().toISOString() };
        await own.rows.settings.insertGauge({ name, version, body, ...updated });
        await note(own, caller, 'gauge', name);
        return { version, gauge: ownGauge(name, body), isNew: before === null };
      });
    },
  };
}

async function policyInForce({ rows }: ReadingRules): Promise<StoredPolicy> {
  const row = await rows.settings.latestPolicy();
  return row
    ? { ...row, body: complete(row.body) }
    : { version: 0, body: DEFAULT_POLICY_BODY, updatedAt: null, updatedBy: null };
}

async function gaugeInForce({ rows }: ReadingRules, name: string): Promise<StoredGauge | null> {
  const row = await rows.settings.latestGauge(name);
  if (row) return { version: row.version, gauge: ownGauge(name, row.body) };
  const standard = STANDARD_GAUGES.get(name);
  return standard ? { version: 0, gauge: standard } : null;
}

const note = ({ versions }: Rules, caller: Caller, resource: string, resourceId: string): Promise<void> =>
  versions.note(caller, { effect: 'set', action: 'set', resource, resourceId });

/** @throws Refusal of kind invalid if a gauge's calibration date is in the future everywhere on earth */
function refuseFutureCalibration({ calibrationDate }: GaugeBody, latestDate: string): void {
  if (!calibrationDate || calibrationDate <= latestDate) return;
  const detail = `${calibrationDate} is in the future; give the date of the last calibration`;
  throw invalid([{ path: ['calibrationDate'], detail }]);
}
