import { toMm } from '../units.js';
import { DEFAULT_POLICY_BODY, type PolicyBody } from '../vocabulary/settings.js';
import type { ShopMinimum } from './limits.js';

/** The owner's settings for the whole shop. */
export interface Policy {
  /** Assumed days between visits for a vehicle without a regular visit interval. */
  visitIntervalDays: number;
  /** Days after which an unmeasured axle gets a finding. */
  longestDaysWithoutReading: number;
  /** Default horizon of the due-soon report. */
  dueSoonDays: number;
  /** Ids of the rule sets that apply; none by default. */
  ruleSets: readonly string[];
  /** The shop's own minimum pad thickness. */
  padMinimumMm: ShopMinimum | null;
}

/** Converts the policy to the form the assessment uses. */
export function policyFrom(body: PolicyBody): Policy {
  const { visitIntervalDays, longestDaysWithoutReading, ruleSets, padMinimum } = body;
  const padMinimumMm = padMinimum ? { limitMm: toMm(padMinimum), failsAt: 'below' as const } : null;
  const dueSoonDays = body.dueSoon.withinDays;
  return { visitIntervalDays, longestDaysWithoutReading, dueSoonDays, ruleSets, padMinimumMm };
}

/** The policy until the owner changes it. */
export const DEFAULT_POLICY: Policy = policyFrom(DEFAULT_POLICY_BODY);
