import { toMm } from '../units.js';
import { DEFAULT_POLICY_BODY, type PolicyBody } from '../vocabulary/settings.js';
import type { ShopMinimum } from './limits.js';

/** What the owner settles for the whole shop. */
export interface Policy {
  /** Days between visits assumed of a vehicle that has no rhythm. */
  visitIntervalDays: number;
  /** An axle unmeasured for longer is named in a finding. */
  longestDaysWithoutReading: number;
  /** How far ahead the due-soon report looks where its caller does not say. */
  dueSoonDays: number;
  /** Rule sets that count here, by id; none unless the owner picks them. */
  ruleSets: readonly string[];
  /** The shop's own least thickness of pads. */
  padMinimumMm: ShopMinimum | null;
}

/** The policy as the assessment takes it. */
export function policyFrom(body: PolicyBody): Policy {
  const { visitIntervalDays, longestDaysWithoutReading, ruleSets, padMinimum } = body;
  const padMinimumMm = padMinimum ? { limitMm: toMm(padMinimum), failsAt: 'below' as const } : null;
  const dueSoonDays = body.dueSoon.withinDays;
  return { visitIntervalDays, longestDaysWithoutReading, dueSoonDays, ruleSets, padMinimumMm };
}

/** What holds until the owner settles otherwise. */
export const DEFAULT_POLICY: Policy = policyFrom(DEFAULT_POLICY_BODY);
