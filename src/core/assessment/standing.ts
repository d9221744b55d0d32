import type { Observation } from '../lives.js';
import type { Limit } from '../vocabulary/wear.js';
import { conformityAbove } from './conformity.js';
import { isPast } from './limits.js';

/** A failing reading that nothing recorded since overrules. */
export interface StandingFailure {
  reading: Observation['thinnestRepeat'];
  date: string;
  /** Whether it is a repeat of the latest observation. */
  isLatest: boolean;
}

/**
 * At this many standard uncertainties above the limit no gauge error explains the difference: it may be another part.
 */
const BEYOND_DOUBT_SDS = 5;
/**
 * Share of a new part's usable thickness that a part must have gained to count as another one (common practice, no
 * source).
 */
const GAINED_SHARE = 0.25;

/** The basis for judging a part. */
export interface JudgedBy {
  bound: Pick<Limit, 'limitMm' | 'failsAt'>;
  placementSdMm: number;
  /** Null if unknown. */
  newMm: number | null;
}

/**
 * The last failing reading of a part, unless a later one overrules it: by a finer gauge, or so much thicker that it
 * cannot be the same part. Null if the latest observation itself fails.
 */
export function standingFailure(observations: readonly Observation[], by: JudgedBy): StandingFailure | null {
  const { bound } = by;
  const latest = observations.at(-1);
  if (!latest || isPast(latest.mm, bound)) return null;
  let standing: StandingFailure | null = null;
  for (const observation of observations) {
    const reading = observation.thinnestRepeat;
    if (isPast(reading.mm, bound))
      standing = { reading, date: observation.visit.date, isLatest: observation === latest };
    else if (standing && overrules(observation, standing, by)) standing = null;
  }
  return standing;
}

function overrules(
  { mm, gauge, standardUncertaintyMm: u }: Observation,
  { reading }: StandingFailure,
  { bound: { limitMm }, placementSdMm, newMm }: JudgedBy,
): boolean {
  const isFiner = gauge.standardUncertaintyMm < reading.gauge.standardUncertaintyMm;
  if (isFiner && conformityAbove(mm, limitMm, u) === 'conforms') return true;
  const gainedMm = newMm === null ? 0 : GAINED_SHARE * (newMm - limitMm);
  return mm - limitMm >= BEYOND_DOUBT_SDS * Math.hypot(u, placementSdMm) && mm - reading.mm >= gainedMm;
}
