import type { GaugeBody, PolicyBody } from '../../../core/vocabulary/settings.js';

interface Updated {
  version: number;
  /** The name of the key that set it. */
  updatedBy: string;
  updatedAt: string;
}

export interface PolicyRow extends Updated {
  body: PolicyBody;
}

/** A gauge of the shop's own, or its change to a standard one. */
export interface GaugeRow extends Updated {
  name: string;
  body: GaugeBody;
}

/** Every version of the policy and the gauges; rows are only ever added. */
export interface SettingsRows {
  /** A number that grows with every change. */
  revision(): Promise<number>;
  latestPolicy(): Promise<PolicyRow | null>;
  insertPolicy(row: PolicyRow): Promise<void>;
  /** Every version of every gauge, by name and version. */
  gauges(): Promise<GaugeRow[]>;
  latestGauge(name: string): Promise<GaugeRow | null>;
  insertGauge(row: GaugeRow): Promise<void>;
}
