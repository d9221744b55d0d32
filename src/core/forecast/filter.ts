import type { WearParameters } from './experience.js';

/**
 * The two-state (thickness, rate) Kalman filter of one part given its axle's base rate, mixtures merged by their
 * moments. Distances are in 1000 km, thickness in mm, rates in mm per 1000 km.
 */

/** One life of one part, ready for the filter. The arrays are of one length, in order of distance. */
export interface Track {
  /** Distance at which the life began; null where only its readings are known. */
  startAt: number | null;
  /** Thickness at the start, mm; null where it is not known: the life then begins with its first reading. */
  startMm: number | null;
  at: Float64Array;
  /** Standard deviation of `at`, where it was worked out from dates. */
  atSd: Float64Array;
  mm: Float64Array;
  /** Variance of each reading from its gauge alone, mm². */
  gaugeVariance: Float64Array;
}

/** One part's place on the axle: its lives, oldest first; the last is the present one. */
export interface PartTracks {
  /** Share of the log inner-to-outer ratio: +½ for an inner pad, −½ for an outer one, 0 for a rotor. */
  ratioShare: number;
  lives: Track[];
}

/** Filter state of a part given one base rate: normal and fast component, each with weight. */
export const STATE = 6;
export const WEIGHT = 0;
export const MM = 1;
export const RATE = 2;
export const VAR_MM = 3;
export const COV = 4;
export const VAR_RATE = 5;
export const COMPONENTS = 2;
/** Numbers that {@link filterAxle} writes for each part. */
export const PART = STATE * COMPONENTS;

const SQRT_2PI = Math.sqrt(2 * Math.PI);
/** Below this a product of densities is moved into its logarithm. */
const TINY = 1e-200;

/** Relative spread of the rate of a part that wears fast. */
export const FAST_SPREAD = 0.2;

/**
 * Filters every part of the axle given base rate b, and writes the states of the present lives.
 *
 * @param now null leaves the states at their last reading
 * @returns the log likelihood of all readings
 */
export function filterAxle(
  parts: readonly PartTracks[],
  parameters: WearParameters,
  rate: number,
  now: number | null,
  out: Float64Array,
  offset: number,
): number {
  let sum = 0;
  for (let part = 0; part < parts.length; part++) {
    const { lives, ratioShare } = parts[part]!;
    const partRate = rate * Math.exp(ratioShare * parameters.logInnerOuter);
    const at = offset + part * PART;
    for (const life of lives) sum += filterPart(life, parameters, partRate, now, out, at);
  }
  return sum;
}

function filterPart(
  life: Track,
  parameters: WearParameters,
  rate: number,
  now: number | null,
  out: Float64Array,
  offset: number,
): number {
  const { fastChance, fastFactor, partSpread } = parameters;
  const normal = filterComponent(life, parameters, rate, rate * partSpread, now, out, offset);
  if (fastChance === 0) {
    out[offset + WEIGHT] = 1;
    out[offset + STATE + WEIGHT] = 0;
    return normal;
  }
  const fastRate = rate * fastFactor;
  const fast = filterComponent(life, parameters, fastRate, rate * FAST_SPREAD, now, out, offset + STATE);
  const top = Math.max(normal, fast);
  const normalPart = (1 - fastChance) * Math.exp(normal - top);
  const fastPart = fastChance * Math.exp(fast - top);
  out[offset + WEIGHT] = normalPart / (normalPart + fastPart);
  out[offset + STATE + WEIGHT] = fastPart / (normalPart + fastPart);
  return top + Math.log(normalPart + fastPart);
}

/** One Kalman filter over one life: x' = (thickness − rate·Δ, rate), process variance σw²·Δ on thickness. */
export function filterComponent(
  life: Track,
  parameters: WearParameters,
  rateMean: number,
  rateSd: number,
  now: number | null,
  out: Float64Array,
  offset: number,
): number {
  const { at } = life;
  const wanderVariance = parameters.wander * parameters.wander;
  let next = beginLife(life, parameters, rateMean, rateSd, out, offset);
  let here = next === 0 ? life.startAt : at[0];
  if (here == null) return 0;
  let likelihood = 1;
  let logLikelihood = 0;
  for (; next < at.length; next++) {
    carry(out, offset, at[next]! - here, wanderVariance);
    here = at[next]!;
    likelihood *= observe(life, next, parameters, out, offset);
    if (likelihood < TINY) {
      logLikelihood += Math.log(likelihood);
      likelihood = 1;
    }
  }
  if (now !== null) carry(out, offset, now - here, wanderVariance);
  return logLikelihood + Math.log(likelihood);
}

/**
 * Writes the state at the start of a life: new, or else as first read.
 *
 * @returns the number of readings used up
 */
export function beginLife(
  { startAt, startMm, at, atSd, gaugeVariance, mm }: Track,
  { placementSd, startSd }: WearParameters,
  rateMean: number,
  rateSd: number,
  out: Float64Array,
  offset: number,
): number {
  out[offset + RATE] = rateMean;
  out[offset + COV] = 0;
  out[offset + VAR_RATE] = rateSd * rateSd;
  if (startMm !== null && startAt !== null) {
    out[offset + MM] = startMm;
    out[offset + VAR_MM] = startSd * startSd;
    return 0;
  }
  if (at.length === 0) {
    out[offset + MM] = NaN;
    out[offset + VAR_MM] = NaN;
    return 0;
  }
  const slip = rateMean * atSd[0]!;
  out[offset + MM] = mm[0]!;
  out[offset + VAR_MM] = gaugeVariance[0]! + placementSd * placementSd + slip * slip;
  return 1;
}

/** Carries a state over a step of the road. */
export function carry(states: Float64Array, offset: number, step: number, wanderVariance: number): void {
  const varRate = states[offset + VAR_RATE]!;
  states[offset + MM]! -= states[offset + RATE]! * step;
  states[offset + VAR_MM]! += step * (step * varRate - 2 * states[offset + COV]! + wanderVariance);
  states[offset + COV]! -= step * varRate;
}

/**
 * Takes one reading into a state. It has three explanations, whose posteriors are merged by their moments: it is
 * normal about the thickness; the part lost extra thickness since the last one; or it is a gross misreading, spread
 * evenly over the range. The second keeps a reading far too thin from being taken for a mistake out of hand.
 *
 * @returns the density of the reading
 */
export function observe(
  { atSd, gaugeVariance, mm: read }: Track,
  index: number,
  parameters: WearParameters,
  states: Float64Array,
  offset: number,
): number {
  const { misreadChance, misreadRange, placementSd, suddenChance, suddenMm, suddenSd } = parameters;
  const rate = states[offset + RATE]!;
  const varMm = states[offset + VAR_MM]!;
  const cov = states[offset + COV]!;
  const suddenVariance = suddenSd * suddenSd;
  const slip = rate * atSd[index]!;
  const variance = varMm + gaugeVariance[index]! + placementSd * placementSd + slip * slip;
  const error = read[index]! - states[offset + MM]!;
  const suddenSpread = variance + suddenVariance;
  const suddenError = error + suddenMm;
  const good = (1 - misreadChance - suddenChance) * normalDensity(error, variance);
  // Where the plain explanation is overwhelming the sudden one is not worth its exponential.
  const isIgnored = good > (500 * suddenChance) / (SQRT_2PI * suddenSd);
  const sudden = isIgnored ? 0 : suddenChance * normalDensity(suddenError, suddenSpread);
  const density = good + sudden + misreadChance / misreadRange;
  const trust = good / density;
  const suddenTrust = sudden / density;
  const gainMm = varMm / variance;
  const gainRate = cov / variance;
  const suddenGainMm = (varMm + suddenVariance) / suddenSpread;
  const suddenGainRate = cov / suddenSpread;
  // Where each explanation moves the state; a misreading leaves it.
  const moveMm = gainMm * error;
  const moveRate = gainRate * error;
  const suddenMoveMm = suddenGainMm * suddenError - suddenMm;
  const suddenMoveRate = suddenGainRate * suddenError;
  const meanMoveMm = trust * moveMm + suddenTrust * suddenMoveMm;
  const meanMoveRate = trust * moveRate + suddenTrust * suddenMoveRate;
  states[offset + VAR_MM]! +=
    trust * (moveMm * moveMm - gainMm * gainMm * variance) +
    suddenTrust *
      (suddenVariance + suddenMoveMm * suddenMoveMm - suddenGainMm * suddenGainMm * suddenSpread) -
    meanMoveMm * meanMoveMm;
  states[offset + COV]! +=
    trust * (moveMm * moveRate - gainMm * gainRate * variance) +
    suddenTrust * (suddenMoveMm * suddenMoveRate - suddenGainMm * suddenGainRate * suddenSpread) -
    meanMoveMm * meanMoveRate;
  states[offset + VAR_RATE]! +=
    trust * (moveRate * moveRate - gainRate * gainRate * variance) +
    suddenTrust * (suddenMoveRate * suddenMoveRate - suddenGainRate * suddenGainRate * suddenSpread) -
    meanMoveRate * meanMoveRate;
  states[offset + MM]! += meanMoveMm;
  states[offset + RATE]! = rate + meanMoveRate;
  return density;
}

function normalDensity(error: number, variance: number): number {
  return Math.exp((-0.5 * error * error) / variance) / (SQRT_2PI * Math.sqrt(variance));
}
