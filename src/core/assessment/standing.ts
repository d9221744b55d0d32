import { leftUntil, type Observation, type Wears } from '../lives.js';
import { conformityAsItWears } from './conformity.js';

/** A failing reading that no later one overrules. */
export interface StandingFailure {
  reading: Observation['worstRepeat'];
  date: string;
  /** Whether it is a repeat of the latest observation. */
  isLatest: boolean;
}

/**
 * Standard uncertainties above the limit that no gauge error explains: the reading may be of another part.
 */
const BEYOND_DOUBT_SDS = 5;
/**
 * Share of a new part's usable thickness that a reading must have gained to count as that of another part (common
 * practice, no source).
 */
const GAINED_SHARE = 0.5;

/** The limit and tolerances that a part is judged by. */
export interface JudgedBy {
  wears: Wears;
  limitMm: number;
  /** Whether a reading at the limit itself fails. */
  failsAtLimit: boolean;
  placementSdMm: number;
  /** Usable wear of a new part until its limit, mm. */
  usableMm: number;
}

/**
 * The last failing reading of a part, unless a later one overrules it: by a finer gauge, or so much thicker that it
 * cannot be the same part. Null if the latest observation itself fails.
 */
export function standingFailure(observations: readonly Observation[], by: JudgedBy): StandingFailure | null {
  const latest = observations.at(-1);
  if (!latest || fails(latest.mm, by)) return null;
  let standing: StandingFailure | null = null;
  for (const observation of observations) {
    const reading = observation.worstRepeat;
    if (fails(reading.mm, by))
      standing = { reading, date: observation.visit.date, isLatest: observation === latest };
    else if (standing && overrules(observation, standing, by)) standing = null;
  }
  return standing;
}

function fails(mm: number, { wears, limitMm, failsAtLimit }: JudgedBy): boolean {
  return failsAtLimit ? leftUntil(wears, mm, limitMm) <= 0 : leftUntil(wears, mm, limitMm) < 0;
}

function overrules(
  { mm, gauge, standardUncertaintyMm: u }: Observation,
  { reading }: StandingFailure,
  { wears, limitMm, placementSdMm, usableMm }: JudgedBy,
): boolean {
  const isFiner = gauge.standardUncertaintyMm < reading.gauge.standardUncertaintyMm;
  if (isFiner && conformityAsItWears(wears, mm, limitMm, u) === 'conforms') return true;
  return (
    leftUntil(wears, mm, limitMm) >= BEYOND_DOUBT_SDS * Math.hypot(u, placementSdMm) &&
    leftUntil(wears, mm, reading.mm) >= GAINED_SHARE * usableMm
  );
}
