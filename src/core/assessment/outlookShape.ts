import type { Crossing } from '../forecast/crossing.js';
import type { Experience } from '../forecast/experience.js';
import type { Axle } from '../vocabulary/terms.js';
import type {
  DrumWear,
  RotorWear,
  AsAt,
  Caution,
  Finding,
  PadWear,
  Replacement,
  Usage,
} from '../vocabulary/wear.js';
import type { Policy } from './policy.js';

/** Types of what is computed when a vehicle's history changes. */

/** When both rotors or drums of an axle are replaced. */
export interface RotorRenewal {
  /** Whether they must go now, whatever the state of the linings. */
  now: boolean;
  /** Chance that they go with the next set of linings; null if unknown. */
  withLinings: number | null;
}

/** The part of a rotor's answer that does not depend on the date. */
export type RotorOutlook = Omit<RotorWear, 'untilNextVisit'>;

export type DrumOutlook = Omit<DrumWear, 'untilNextVisit'>;

/** When the rotors or drums of an axle reach their limit: each one, and the first of them. */
export interface CounterpartDates {
  /** In the order of the positions; null without a forecast. */
  crossings: (Crossing | null)[];
  first: Crossing | null;
}

/** An axle's outlook, computed when its history changes; leaves out what depends on today's date. */
export interface AxleOutlook {
  axle: Axle;
  pads: PadWear[];
  replacement: Pick<Replacement, 'governingPad' | 'limitMm' | 'distanceKm' | 'basis' | 'reasons'>;
  limitSource: string | null;
  crossing: Crossing | null;
  /** Whether a latest reading fails its governing limit. */
  failing: boolean;
  lastReadingDate: string | null;
  rotors: RotorOutlook[];
  drums: DrumOutlook[];
  counterparts: CounterpartDates;
  rotorRenewal: RotorRenewal;
  findings: Finding[];
  /** Date since which the slides had no service, and the days allowed; null if unknown. */
  slides: { since: string; allowedDays: number } | null;
}

/** A vehicle's outlook, computed when its history changes. */
export interface Outlook {
  usage: Usage;
  asAt: AsAt | null;
  /** Whether the odometer was read at the latest visit, but wrongly. */
  isOdometerDoubted: boolean;
  /** Days between its visits; null if it has no rhythm. */
  rhythmDays: number | null;
  axles: AxleOutlook[];
  cautions: Caution[];
  /** The settings behind the outlook that answers need. */
  policy: Pick<Policy, 'visitIntervalDays' | 'longestDaysWithoutReading' | 'dueSoonDays'>;
}

export type ExperienceFor = (axle: Axle) => Experience;
