import { normalCdf } from './normal.js';

/**
 * Age of an unrecorded set, as a renewal process. A set lasts until it is worn to the usual thickness at replacement.
 * Its life is normal about that distance, and so were the lives of the sets before it.
 */

/** Usual thickness above the limit at replacement, mm (common practice, no source). */
export const REPLACED_ABOVE_LIMIT_MM = 1.1;
/** Standard deviation of a set's life, as a share of the life. */
const LIFE_SPREAD = 0.16;
/** After this many lives, replacement is equally likely at any distance. */
const SETTLED_LIVES = 6;
const INVERSE_SQRT_2PI = 1 / Math.sqrt(2 * Math.PI);

/** @param life usual distance from fitting to replacement, 1000 km */
export function originalChance(life: number, driven: number, drivenSd: number): number {
  return normalCdf((life - driven) / Math.hypot(LIFE_SPREAD * life, drivenSd));
}

/**
 * Density of the age of the current set, summed over all sets but the original one.
 *
 * @param driven distance since the vehicle entered service, 1000 km; infinite if unknown
 */
export function ageDensity(age: number, life: number, driven: number, drivenSd: number): number {
  const spread = LIFE_SPREAD * life;
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

/** Mean and variance of a normal truncated to `from` … `to`, and its probability mass there. */
export function cutOff(
  mean: number,
  sd: number,
  from: number,
  to: number,
): { mean: number; variance: number; share: number } {
  const low = (from - mean) / sd;
  const high = (to - mean) / sd;
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
  return { mean: mean + sd * shift, variance: sd * sd * Math.max(1e-6, variance), share };
}
