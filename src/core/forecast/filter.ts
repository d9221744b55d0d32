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

const INVERSE_SQRT_2PI = 1 / Math.sqrt(2 * Math.PI);
/** Readings whose densities are multiplied before their logarithm is taken: too few to come near zero. */
const TOGETHER = 8;

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
    for (const life of lives) {
      sum += beginPart(life, life.at.length, parameters, partRate, out, at);
      if (now !== null) carryPart(life, parameters, now, out, at);
    }
  }
  return sum;
}

/**
 * Takes the first `to` readings of a life into both components and weighs the two by what the readings say of them.
 *
 * @returns the log likelihood of the readings
 */
export function beginPart(
  life: Track,
  to: number,
  parameters: WearParameters,
  rate: number,
  out: Float64Array,
  offset: number,
): number {
  const { fastChance, fastFactor, partSpread } = parameters;
  beginLife(life, parameters, rate, rate * partSpread, out, offset);
  const normal = takeFrom(life, 0, to, parameters, out, offset);
  out[offset + WEIGHT] = 1;
  out[offset + STATE + WEIGHT] = 0;
  if (fastChance === 0) return normal;
  const fastOffset = offset + STATE;
  beginLife(life, parameters, rate * fastFactor, rate * FAST_SPREAD, out, fastOffset);
  const fast = takeFrom(life, 0, to, parameters, out, fastOffset);
  const top = Math.max(normal, fast);
  const normalPart = (1 - fastChance) * Math.exp(normal - top);
  const fastPart = fastChance * Math.exp(fast - top);
  out[offset + WEIGHT] = normalPart / (normalPart + fastPart);
  out[fastOffset + WEIGHT] = fastPart / (normalPart + fastPart);
  return top + Math.log(normalPart + fastPart);
}

/** A component of less weight than this is not worth another reading. */
const LIGHTEST = 1e-9;

/**
 * Takes the readings `from` … `to` − 1 of a life into both components of a part that has been begun; what they say of
 * the two shifts weight between them.
 *
 * @param start distance at which the states lie
 * @returns the density of the readings together
 */
export function takeOn(
  life: Track,
  from: number,
  to: number,
  start: number,
  parameters: WearParameters,
  states: Float64Array,
  offset: number,
): number {
  if (from >= to) return 1;
  const fastOffset = offset + STATE;
  const fastWeight = states[fastOffset + WEIGHT]!;
  const normal = states[offset + WEIGHT]! * takeReadings(life, from, to, start, parameters, states, offset);
  if (fastWeight <= LIGHTEST) return normal;
  const fast = fastWeight * takeReadings(life, from, to, start, parameters, states, fastOffset);
  states[offset + WEIGHT] = normal / (normal + fast);
  states[fastOffset + WEIGHT] = fast / (normal + fast);
  return normal + fast;
}

/** Carries both components of a part from the end of its readings to `now`. */
export function carryPart(
  life: Track,
  parameters: WearParameters,
  now: number,
  states: Float64Array,
  offset: number,
): void {
  const here = endOf(life);
  if (here === null) return;
  const wanderVariance = parameters.wander * parameters.wander;
  carry(states, offset, now - here, wanderVariance);
  if (parameters.fastChance > 0) carry(states, offset + STATE, now - here, wanderVariance);
}

/** Where a life was last seen; null where nothing is known of it. */
function endOf(life: Track): number | null {
  const { at, startAt } = life;
  return at.length > 0 ? at[at.length - 1]! : hasStart(life) ? startAt : null;
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
  beginLife(life, parameters, rateMean, rateSd, out, offset);
  const logLikelihood = takeFrom(life, 0, life.at.length, parameters, out, offset);
  const here = endOf(life);
  if (now !== null && here !== null) carry(out, offset, now - here, parameters.wander * parameters.wander);
  return logLikelihood;
}

/** Whether a life began at a known place and thickness. */
export const hasStart = ({ startAt, startMm }: Track): boolean => startAt !== null && startMm !== null;

/** Writes the state at the start of a life; its thickness is NaN where it is not known before the first reading. */
export function beginLife(
  life: Track,
  { startSd }: WearParameters,
  rateMean: number,
  rateSd: number,
  out: Float64Array,
  offset: number,
): void {
  out[offset + MM] = hasStart(life) ? life.startMm! : NaN;
  out[offset + RATE] = rateMean;
  out[offset + VAR_MM] = hasStart(life) ? startSd * startSd : NaN;
  out[offset + COV] = 0;
  out[offset + VAR_RATE] = rateSd * rateSd;
}

/** Where a life lies before one of its readings. */
export function placeBefore(life: Track, index: number): number {
  if (index > 0) return life.at[index - 1]!;
  return hasStart(life) ? life.startAt! : life.at[0]!;
}

/** Log likelihood of readings that are taken into a state. */
function takeFrom(
  life: Track,
  from: number,
  to: number,
  parameters: WearParameters,
  out: Float64Array,
  offset: number,
): number {
  let logLikelihood = 0;
  for (let next = from; next < to; next += TOGETHER) {
    const until = Math.min(next + TOGETHER, to);
    logLikelihood += Math.log(
      takeReadings(life, next, until, placeBefore(life, next), parameters, out, offset),
    );
  }
  return logLikelihood;
}

/** Carries a state over a step of the road. */
export function carry(states: Float64Array, offset: number, step: number, wanderVariance: number): void {
  const varRate = states[offset + VAR_RATE]!;
  states[offset + MM]! -= states[offset + RATE]! * step;
  states[offset + VAR_MM]! += step * (step * varRate - 2 * states[offset + COV]! + wanderVariance);
  states[offset + COV]! -= step * varRate;
}

/**
 * Carries a state from reading to reading and takes each in. A reading has three explanations: it is normal about the
 * thickness; the part lost extra thickness since the last one; or it is a gross misreading, spread evenly over the
 * range. The second keeps a reading far too thin from being taken for a mistake out of hand. What they make of the
 * state is merged by its moments, which are the slope and curvature of the log density of the reading by its mean
 * (Masreliez 1975, from memory); the second explanation adds what it moves the thickness alone.
 *
 * @param from index of the first reading to take, `to` that after the last; the first of a life gives the thickness
 *   where the start does not
 * @param start distance at which the state lies
 * @returns the density of the readings together
 */
export function takeReadings(
  life: Track,
  from: number,
  to: number,
  start: number,
  parameters: WearParameters,
  states: Float64Array,
  offset: number,
): number {
  const { misreadChance, misreadRange, placementSd, suddenChance, suddenMm, suddenSd, wander } = parameters;
  const wanderVariance = wander * wander;
  const placementVariance = placementSd * placementSd;
  const suddenVariance = suddenSd * suddenSd;
  const plainChance = (1 - misreadChance - suddenChance) * INVERSE_SQRT_2PI;
  const misread = misreadChance / misreadRange;
  // Where the plain explanation is overwhelming the sudden one is not worth its exponential.
  const overwhelming = suddenChance > 0 ? (500 * suddenChance * INVERSE_SQRT_2PI) / suddenSd : -1;
  let mm = states[offset + MM]!;
  let rate = states[offset + RATE]!;
  let varMm = states[offset + VAR_MM]!;
  let cov = states[offset + COV]!;
  let varRate = states[offset + VAR_RATE]!;
  let likelihood = 1;
  let next = from;
  if (next === 0 && to > 0 && !hasStart(life)) {
    const slip = rate * life.atSd[0]!;
    mm = life.mm[0]!;
    varMm = life.gaugeVariance[0]! + placementVariance + slip * slip;
    next = 1;
  }
  let here = start;
  for (let index = next; index < to; index++) {
    const there = life.at[index]!;
    const step = there - here;
    here = there;
    mm -= rate * step;
    varMm += step * (step * varRate - 2 * cov + wanderVariance);
    cov -= step * varRate;

    const slip = rate * life.atSd[index]!;
    const error = life.mm[index]! - mm;
    const variance = varMm + life.gaugeVariance[index]! + placementVariance + slip * slip;
    const precision = 1 / variance;
    const plain = plainChance * Math.exp(-0.5 * error * error * precision) * Math.sqrt(precision);
    const pull = error * precision;
    let density = plain + misread;
    let slope = plain * pull;
    let curvature = plain * (pull * pull - precision);
    let sudden = 0;
    let suddenPrecision = 0;
    let suddenPull = 0;
    if (plain <= overwhelming) {
      suddenPrecision = 1 / (variance + suddenVariance);
      suddenPull = (error + suddenMm) * suddenPrecision;
      const far = Math.exp(-0.5 * (error + suddenMm) * suddenPull);
      sudden = suddenChance * INVERSE_SQRT_2PI * far * Math.sqrt(suddenPrecision);
      density += sudden;
      slope += sudden * suddenPull;
      curvature += sudden * (suddenPull * suddenPull - suddenPrecision);
    }
    slope /= density;
    curvature = curvature / density - slope * slope;
    let lostMm = 0;
    let lostCov = 0;
    let lostVariance = 0;
    if (sudden > 0) {
      const trust = sudden / density;
      const shift = suddenVariance * suddenPull - suddenMm;
      const unsure = suddenVariance * (1 - suddenVariance * suddenPrecision);
      lostMm = trust * shift;
      lostCov = trust * (shift * (suddenPull - slope) - suddenVariance * suddenPrecision);
      lostVariance = trust * ((1 - trust) * shift * shift + unsure);
    }
    mm += varMm * slope + lostMm;
    rate += cov * slope;
    varRate += cov * cov * curvature;
    cov += cov * (varMm * curvature + lostCov);
    varMm += varMm * (varMm * curvature + 2 * lostCov) + lostVariance;
    likelihood *= density;
  }
  states[offset + MM] = mm;
  states[offset + RATE] = rate;
  states[offset + VAR_MM] = varMm;
  states[offset + COV] = cov;
  states[offset + VAR_RATE] = varRate;
  return likelihood;
}
