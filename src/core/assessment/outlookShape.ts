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

/** Types of the outlook, which the server computes when a vehicle's history changes. */

/** When to replace both rotors or drums of an axle. */
export interface RotorRenewal {
  /** Whether they must be replaced now, whatever the state of the linings. */
  now: boolean;
  /** Chance that they must be replaced with the next set of linings; null if unknown. */
  withLinings: number | null;
}

/** The part of a rotor's answer that does not depend on the date. */
export type RotorOutlook = Omit<RotorWear, 'untilNextVisit'>;

export type DrumOutlook = Omit<DrumWear, 'untilNextVisit'>;

/** When the rotors or drums of an axle reach their limits: each of them, and the first. */
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
  /** Whether the odometer reading of the latest visit is doubted. */
  isOdometerDoubted: boolean;
  /** Usual days between its visits; null with too few visits. */
  rhythmDays: number | null;
  axles: AxleOutlook[];
  cautions: Caution[];
  /** The settings that were used for the outlook and that answers need too. */
  policy: Pick<Policy, 'visitIntervalDays' | 'longestDaysWithoutReading' | 'dueSoonDays'>;
}

export type ExperienceFor = (axle: Axle) => Experience;
