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

/** The shapes of what is computed when a vehicle's history changes; what builds and reads them imports them from here. */

/** When both rotors of an axle, or both drums, are renewed. */
export interface RotorRenewal {
  /** Whether they are to go now, whatever the linings. */
  now: boolean;
  /** Chance that they go with the next set of linings; null where nobody can tell. */
  withLinings: number | null;
}

/** What of a rotor’s answer today’s date leaves as it is. */
export type RotorOutlook = Omit<RotorWear, 'untilNextVisit'>;

export type DrumOutlook = Omit<DrumWear, 'untilNextVisit'>;

/** When the rotors or drums of an axle reach their limit: each by itself, and the first of them. */
export interface CounterpartDates {
  /** In the order of the positions; null where there is no forecast. */
  crossings: (Crossing | null)[];
  first: Crossing | null;
}

/** What was worked out of one axle when its history last changed; what depends on today's date is left open. */
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
  /** Since when its slides have gone without service, and how long they may; null where nothing tells. */
  slides: { since: string; allowedDays: number } | null;
}

/** What was worked out of one vehicle when its history last changed. */
export interface Outlook {
  usage: Usage;
  asAt: AsAt | null;
  /** Days between its visits; null where it has no rhythm. */
  rhythmDays: number | null;
  axles: AxleOutlook[];
  cautions: Caution[];
  /** What of the policy it was worked out under answers need. */
  policy: Pick<Policy, 'visitIntervalDays' | 'longestDaysWithoutReading' | 'dueSoonDays'>;
}

export type ExperienceFor = (axle: Axle) => Experience;
