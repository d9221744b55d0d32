import type { Gauge } from '../../core/gauges.js';
import type { GaugeBody, PolicyBody } from '../../core/vocabulary/settings.js';
import type { KeyCaller } from './caller.js';
import type { Expected } from './expected.js';

export interface StoredPolicy {
  /** 0 for the defaults. */
  version: number;
  body: PolicyBody;
  updatedAt: string | null;
  updatedBy: string | null;
}

export interface StoredGauge {
  /** 0 for an unchanged standard gauge. */
  version: number;
  gauge: Gauge;
}

export interface SettingsStore {
  policy(): Promise<StoredPolicy>;
  setPolicy(caller: KeyCaller, body: PolicyBody, expected: Expected): Promise<StoredPolicy>;
  /** The standard gauges first, then the shop's own by name. */
  gauges(): Promise<StoredGauge[]>;
  gauge(name: string): Promise<StoredGauge>;
  /** @param expected null to add a new gauge */
  setGauge(
    caller: KeyCaller,
    name: string,
    body: GaugeBody,
    expected: Expected | null,
  ): Promise<StoredGauge & { isNew: boolean }>;
}
