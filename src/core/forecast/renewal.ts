import { normalCdf } from './normal.js';

/**
 * Age of an unrecorded set, as a renewal process. A set lasts until it wears to the usual thickness at replacement. Its
 * life is normal about the distance to that, and so were the lives of the sets before it.
 */

/** When shops replace parts of a kind, and which readings suggest that they did, mm (common practice, no source). */
export interface Habits {
  /** Usual thickness above the limit at replacement, and minimum wear of a set until then. */
  replacedAboveLimitMm: number;
  minWornMm: number;
  /** Standard deviation of a set's life, as a share of the life. */
  lifeSpread: number;
  /** Unrecorded replacement becomes likely below this thickness above the limit, over a range of this width. */
  wornAboveLimitMm: number;
  wornRangeMm: number;
  /** Excess of readings over their forecast that suggests another set. */
  excessMm: number;
  /** Standard deviation of the thickness of a new set that deviates from its specification. */
  otherNewSdMm: number;
  /** Maximum distance of a gross misreading above new or below the limit; null if it lies anywhere from 0. */
  misreadMm: number | null;
  /** Chance that all readings of a visit are wrong, for example those of another axle or vehicle. */
  wrongVisitChance: number;
  /** Chance that the readings of a visit were copied from the one before without measuring. */
  copiedChance: number;
}

export const LINING_HABITS: Habits = {
  replacedAboveLimitMm: 1.1,
  minWornMm: 1,
  lifeSpread: 0.16,
  wornAboveLimitMm: 1.2,
  wornRangeMm: 0.5,
  excessMm: 0.6,
  otherNewSdMm: 1.5,
  misreadMm: null,
  wrongVisitChance: 0,
  copiedChance: 0.01,
};

/** Shops replace rotors and drums together with a set of linings, nearer to their limit and less regularly. */
export const COUNTERPART_HABITS: Habits = {
  replacedAboveLimitMm: 0.3,
  minWornMm: 0.4,
  lifeSpread: 0.3,
  wornAboveLimitMm: 0.4,
  wornRangeMm: 0.15,
  excessMm: 0.15,
  otherNewSdMm: 0.5,
  misreadMm: 1.5,
  wrongVisitChance: 0.01,
  copiedChance: 0,
};

/** Standard deviations beyond its usual life after which a set is no longer fitted. */
const MAX_AGE_SDS = 3.75;

/** The range over which a set wears, mm. */
interface WearingSet {
  newMm: number;
  limitMm: number;
  habits: Habits;
}

/** After this many lives, replacement is equally likely at any distance. */
const SETTLED_LIVES = 6;
const INVERSE_SQRT_2PI = 1 / Math.sqrt(2 * Math.PI);

/** Usual distance from fitting to replacement at a rate of wear, 1000 km. */
export const usualLife = (
  { newMm, limitMm, habits: { replacedAboveLimitMm, minWornMm } }: WearingSet,
  rate: number,
): number => Math.max(minWornMm, newMm - limitMm - replacedAboveLimitMm) / rate;

/** The age that hardly any set reaches, 1000 km. */
export const maxAge = ({ lifeSpread }: Habits, life: number): number => (1 + MAX_AGE_SDS * lifeSpread) * life;

/**
 * Chance that the original set is still fitted.
 *
 * @param life usual distance from fitting to replacement, 1000 km
 */
export function originalChance(
  { lifeSpread }: Habits,
  life: number,
  driven: number,
  drivenSd: number,
): number {
  return normalCdf((life - driven) / Math.hypot(lifeSpread * life, drivenSd));
}

/**
 * Density of the age of the current set, summed over all sets but the original one.
 *
 * @param driven distance since the vehicle entered service, 1000 km; infinite if unknown
 */
export function ageDensity(
  { lifeSpread }: Habits,
  age: number,
  life: number,
  driven: number,
  drivenSd: number,
): number {
  const spread = lifeSpread * life;
  const lasts = normalCdf((life - age) / spread);
  const fittedAt = driven - age;
  if (fittedAt > SETTLED_LIVES * life) return lasts / life;
  let renewals = 0;
  for (let set = 1; set <= SETTLED_LIVES + 3; set++) {
    const sd = Math.sqrt(set * spread * spread + drivenSd * drivenSd);
    const z = (fittedAt - set * life) / sd;
    renewals += (INVERSE_SQRT_2PI / sd) * Math.exp(-0.5 * z * z);
  }
  return lasts * renewals;
}

/** On an interval narrower than this many standard deviations, a normal density is nearly constant. */
const NEARLY_FLAT = 0.02;

/** Mean and variance of a normal truncated to `from` … `to`, and its probability mass there. */
export function cutOff(
  mean: number,
  sd: number,
  from: number,
  to: number,
): { mean: number; variance: number; share: number } {
  const low = (from - mean) / sd;
  const high = (to - mean) / sd;
  const width = to - from;
  const uniformVariance = (width * width) / 12;
  if (width < NEARLY_FLAT * sd) {
    const middle = 0.5 * (low + high);
    const density = (INVERSE_SQRT_2PI / sd) * Math.exp(-0.5 * middle * middle);
    return { mean: from + width / 2, variance: uniformVariance, share: density * width };
  }
  const share = normalCdf(high) - normalCdf(low);
  if (!(share > 1e-9)) {
    const nearest = mean < from ? from : to;
    const reach = Math.min(to - from, sd);
    return { mean: nearest, variance: (reach * reach) / 12, share: Math.max(0, share) };
  }
  const atLow = INVERSE_SQRT_2PI * Math.exp(-0.5 * low * low);
  const atHigh = INVERSE_SQRT_2PI * Math.exp(-0.5 * high * high);
  const shift = (atLow - atHigh) / share;
  const lowMoment = Number.isFinite(low) ? low * atLow : 0;
  const highMoment = Number.isFinite(high) ? high * atHigh : 0;
  const variance = 1 + (lowMoment - highMoment) / share - shift * shift;
  // Rounding errors must not lead out of the interval, nor beyond the variance of a uniform distribution on it.
  return {
    mean: Math.min(to, Math.max(from, mean + sd * shift)),
    variance: Math.min(uniformVariance, sd * sd * Math.max(1e-6, variance)),
    share,
  };
}
