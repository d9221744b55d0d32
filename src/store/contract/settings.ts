import type { Gauge } from '../../core/gauges.js';
import type { GaugeBody, PolicyBody } from '../../core/vocabulary/settings.js';
import type { Expected } from './expected.js';

export interface StoredPolicy {
  /** 0 where the defaults stand. */
  version: number;
  body: PolicyBody;
  updatedAt: string | null;
  updatedBy: string | null;
}

export interface StoredGauge {
  /** 0 for a standard gauge as it comes. */
  version: number;
  gauge: Gauge;
}

export interface SettingsStore {
  policy(): Promise<StoredPolicy>;
  /** @param by the name of the key that sets it */
  setPolicy(body: PolicyBody, expected: Expected, by: string): Promise<StoredPolicy>;
  /** The standard ones first, then the shop's own by name. */
  gauges(): Promise<StoredGauge[]>;
  gauge(name: string): Promise<StoredGauge>;
  /** @param expected null where the caller means to add a gauge */
  setGauge(
    name: string,
    body: GaugeBody,
    expected: Expected | null,
    by: string,
  ): Promise<StoredGauge & { isNew: boolean }>;
}
