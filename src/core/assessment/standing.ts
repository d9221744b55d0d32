import type { Observation } from '../lives.js';
import type { Limit } from '../vocabulary/wear.js';
import { conformityAbove } from './conformity.js';
import { isPast } from './limits.js';

/** A reading that failed its limit and that nothing recorded since overrules. */
export interface StandingFailure {
  reading: Observation['thinnestRepeat'];
  date: string;
  /** Whether it is a repeat of the latest observation. */
  isLatest: boolean;
}

/** So many standard uncertainties above the limit no slip of the gauge explains: the part may be another one. */
const BEYOND_DOUBT_SDS = 5;
/** Share of a new part's wear that a part must have gained to be taken for another one (common practice, no source). */
const GAINED_SHARE = 0.25;

/** What a part is judged by. */
export interface JudgedBy {
  bound: Pick<Limit, 'limitMm' | 'failsAt'>;
  placementSdMm: number;
  /** Null where it is not known. */
  newMm: number | null;
}

/**
 * The last reading of a part that failed its limit, unless a later one says otherwise: by a finer gauge, or so much
 * thicker that it cannot be the same part. Null where the latest observation fails itself.
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
