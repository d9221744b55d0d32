import type { WearParameters } from './experience.js';
import { decay } from './normal.js';

/**
 * The two-state (thickness, rate) Kalman filter of the parts of an axle given its base rate, mixtures merged by their
 * moments. Every step is taken at all nodes of the base rate together: their states are independent, so that a
 * processor works on several at once. Distances are in 1000 km, thickness in mm, rates in mm per 1000 km.
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
/** Numbers that the states of one part take at one node. */
export const PART = STATE * COMPONENTS;

/** The states of one part, or of one of its components, at every node: the first at `first`, each `stride` on. */
export interface AtNodes {
  states: Float64Array;
  first: number;
  stride: number;
  nodes: number;
}

/** Where the states of one part lie in an array of all parts' states, node by node. */
export function partAtNodes(states: Float64Array, parts: number, part: number): AtNodes {
  const stride = parts * PART;
  return { states, first: part * PART, stride, nodes: states.length / stride };
}

/** The fast component of a part. */
export const fastOf = (part: AtNodes): AtNodes => ({ ...part, first: part.first + STATE });

const INVERSE_SQRT_2PI = 1 / Math.sqrt(2 * Math.PI);
/** Readings whose densities are multiplied before their logarithm is taken: too few to come near zero. */
const TOGETHER = 8;
/** Keeps a node that the readings rule out altogether from having no weight to divide by. */
const LEAST_DENSITY = 1e-300;

/** Relative spread of the rate of a part that wears fast. */
const FAST_SPREAD = 0.2;

/**
 * Filters every part of the axle at every base rate, and writes the states of the present lives.
 *
 * @param now null leaves the states at their last reading
 * @param logs has the log likelihood of all readings added to, node by node
 */
export function filterAxle(
  parts: readonly PartTracks[],
  parameters: WearParameters,
  rates: Float64Array,
  now: number | null,
  states: Float64Array,
  logs: Float64Array,
): void {
  parts.forEach(({ lives, ratioShare }, part) => {
    const at = partAtNodes(states, parts.length, part);
    const partRates = ratesOfPart(ratioShare, parameters, rates);
    for (const life of lives) {
      beginPart(life, parameters, partRates, at);
      takeReadings(life, 0, life.at.length, parameters, at, logs);
      if (now !== null) carryPart(life, parameters, now, at);
    }
  });
}

/** The mean rate of a part at every node, by its place on the axle. */
export function ratesOfPart(
  ratioShare: number,
  { logInnerOuter }: WearParameters,
  rates: Float64Array,
): Float64Array {
  const ratio = Math.exp(ratioShare * logInnerOuter);
  return rates.map((rate) => rate * ratio);
}

/** Begins a life with both components, each at its weight before anything is read. */
export function beginPart(
  life: Track,
  { startSd, partSpread, fastChance, fastFactor }: WearParameters,
  rates: Float64Array,
  { states, first, stride, nodes }: AtNodes,
): void {
  for (let node = 0; node < nodes; node++) {
    const at = first + node * stride;
    const rate = rates[node]!;
    beginLife(life, startSd, rate, rate * partSpread, states, at);
    beginLife(life, startSd, rate * fastFactor, rate * FAST_SPREAD, states, at + STATE);
    states[at + WEIGHT] = 1 - fastChance;
    states[at + STATE + WEIGHT] = fastChance;
  }
}

/** Writes the state at the start of a life; its thickness is NaN where it is not known before the first reading. */
function beginLife(
  life: Track,
  startSd: number,
  rateMean: number,
  rateSd: number,
  states: Float64Array,
  at: number,
): void {
  states[at + MM] = hasStart(life) ? life.startMm! : NaN;
  states[at + RATE] = rateMean;
  states[at + VAR_MM] = hasStart(life) ? startSd * startSd : NaN;
  states[at + COV] = 0;
  states[at + VAR_RATE] = rateSd * rateSd;
}

/** Whether a life began at a known place and thickness. */
export const hasStart = ({ startAt, startMm }: Track): boolean => startAt !== null && startMm !== null;

/**
 * Takes the readings `from` … `to` − 1 of a life into both components of a part; what they say of the two shifts
 * weight between them.
 *
 * @param logs has the log density of the readings together added to, node by node
 */
export function takeReadings(
  life: Track,
  from: number,
  to: number,
  parameters: WearParameters,
  part: AtNodes,
  logs: Float64Array,
): void {
  const densities = new Float64Array(part.nodes);
  for (let next = from; next < to; next += TOGETHER) {
    takeTogether(life, next, Math.min(next + TOGETHER, to), placeBefore(life, next), parameters, part, densities);
    for (let node = 0; node < part.nodes; node++) logs[node]! += Math.log(densities[node]!);
  }
}

/**
 * The same for few readings.
 *
 * @param start distance at which the states lie
 * @param densities are set to the density of the readings together, node by node
 */
export function takeTogether(
  life: Track,
  from: number,
  to: number,
  start: number,
  parameters: WearParameters,
  part: AtNodes,
  densities: Float64Array,
): void {
  const errors = errorsOf(parameters);
  const fast = fastOf(part);
  let here = start;
  for (let index = from; index < to; index++) {
    const step = life.at[index]! - here;
    here += step;
    takeReading(life, index, step, errors, part);
    if (parameters.fastChance > 0) takeReading(life, index, step, errors, fast);
  }
  const { states, first, stride, nodes } = part;
  for (let node = 0; node < nodes; node++) {
    const at = first + node * stride;
    const density = states[at + WEIGHT]! + states[at + STATE + WEIGHT]! + LEAST_DENSITY;
    states[at + WEIGHT]! /= density;
    states[at + STATE + WEIGHT]! /= density;
    densities[node] = density;
  }
}

/** Where a life lies before one of its readings. */
function placeBefore(life: Track, index: number): number {
  if (index > 0) return life.at[index - 1]!;
  return hasStart(life) ? life.startAt! : life.at[0]!;
}

/** Carries both components of a part from the end of its readings to `now`. */
export function carryPart(life: Track, { wander }: WearParameters, now: number, part: AtNodes): void {
  const here = endOf(life);
  if (here === null) return;
  carry(part, now - here, wander * wander);
  carry(fastOf(part), now - here, wander * wander);
}

/** Where a life was last seen; null where nothing is known of it. */
function endOf(life: Track): number | null {
  const { at, startAt } = life;
  return at.length > 0 ? at[at.length - 1]! : hasStart(life) ? startAt : null;
}

/** Carries the states of one component over a step of the road. */
export function carry({ states, first, stride, nodes }: AtNodes, step: number, wanderVariance: number): void {
  for (let node = 0; node < nodes; node++) {
    const at = first + node * stride;
    const varRate = states[at + VAR_RATE]!;
    states[at + MM]! -= states[at + RATE]! * step;
    states[at + VAR_MM]! += step * (step * varRate - 2 * states[at + COV]! + wanderVariance);
    states[at + COV]! -= step * varRate;
  }
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
  const alone = { states: out, first: offset, stride: STATE, nodes: 1 };
  const errors = errorsOf(parameters);
  beginLife(life, parameters.startSd, rateMean, rateSd, out, offset);
  let logLikelihood = 0;
  for (let index = 0; index < life.at.length; index++) {
    out[offset + WEIGHT] = 1;
    takeReading(life, index, life.at[index]! - placeBefore(life, index), errors, alone);
    logLikelihood += Math.log(out[offset + WEIGHT]!);
  }
  const here = endOf(life);
  if (now !== null && here !== null) carry(alone, now - here, parameters.wander ** 2);
  return logLikelihood;
}

/** What a reading may be off by, worked out once for all nodes. */
interface Errors {
  wanderVariance: number;
  placementVariance: number;
  /** Chance of the plain explanation, and of the sudden one, each over √2π. */
  plain: number;
  sudden: number;
  suddenMm: number;
  suddenVariance: number;
  /** Density of a gross misreading. */
  misread: number;
  /** A plain density above this leaves nothing for the sudden one to explain that is worth its exponential. */
  overwhelming: number;
}

function errorsOf(parameters: WearParameters): Errors {
  const { misreadChance, misreadRange, placementSd, suddenChance, suddenMm, suddenSd, wander } = parameters;
  return {
    wanderVariance: wander * wander,
    placementVariance: placementSd * placementSd,
    plain: (1 - misreadChance - suddenChance) * INVERSE_SQRT_2PI,
    sudden: suddenChance * INVERSE_SQRT_2PI,
    suddenMm,
    suddenVariance: suddenSd * suddenSd,
    misread: misreadChance / misreadRange,
    overwhelming: suddenChance > 0 ? (500 * suddenChance * INVERSE_SQRT_2PI) / suddenSd : -1,
  };
}

/** The first reading of a life gives the thickness where its start does not. */
function beginAtReading(
  life: Track,
  { placementVariance }: Errors,
  { states, first, stride, nodes }: AtNodes,
): void {
  for (let node = 0; node < nodes; node++) {
    const at = first + node * stride;
    const slip = states[at + RATE]! * life.atSd[0]!;
    states[at + MM] = life.mm[0]!;
    states[at + VAR_MM] = life.gaugeVariance[0]! + placementVariance + slip * slip;
  }
}

/**
 * Carries the states of one component to a reading and takes it in. A reading has three explanations: it is normal
 * about the thickness; the part lost extra thickness since the last one; or it is a gross misreading, spread evenly
 * over the range. The second keeps a reading far too thin from being taken for a mistake out of hand. What they make
 * of the state is merged by its moments, which are the slope and curvature of the log density of the reading by its
 * mean (Masreliez 1975, from memory); the second explanation adds what it moves the thickness alone. The weight of
 * the component is multiplied by the density of the reading.
 */
function takeReading(life: Track, index: number, step: number, errors: Errors, component: AtNodes): void {
  if (index === 0 && !hasStart(life)) return beginAtReading(life, errors, component);
  const { wanderVariance, plain: plainChance, sudden: suddenChance, suddenMm, suddenVariance } = errors;
  const { misread, overwhelming } = errors;
  const { states, first, stride, nodes } = component;
  const readMm = life.mm[index]!;
  const readVariance = life.gaugeVariance[index]! + errors.placementVariance;
  const placeVariance = life.atSd[index]! * life.atSd[index]!;
  const last = first + nodes * stride;
  for (let at = first; at < last; at += stride) {
    const rate = states[at + RATE]!;
    const varRate = states[at + VAR_RATE]!;
    const mm = states[at + MM]! - rate * step;
    const varMm = states[at + VAR_MM]! + step * (step * varRate - 2 * states[at + COV]! + wanderVariance);
    const cov = states[at + COV]! - step * varRate;

    const error = readMm - mm;
    const variance = varMm + readVariance + rate * rate * placeVariance;
    const precision = 1 / variance;
    const pull = error * precision;
    const plain = plainChance * decay(0.5 * error * pull) * Math.sqrt(precision);
    let density = plain + misread;
    let slope = plain * pull;
    let curvature = plain * (pull * pull - precision);
    let lostMm = 0;
    let lostCov = 0;
    let lostVariance = 0;
    if (plain > overwhelming) {
      const scale = 1 / density;
      slope *= scale;
      curvature = curvature * scale - slope * slope;
    } else {
      const suddenPrecision = 1 / (variance + suddenVariance);
      const suddenPull = (error + suddenMm) * suddenPrecision;
      const sudden = suddenChance * decay(0.5 * (error + suddenMm) * suddenPull) * Math.sqrt(suddenPrecision);
      density += sudden;
      const scale = 1 / density;
      slope = (slope + sudden * suddenPull) * scale;
      curvature =
        (curvature + sudden * (suddenPull * suddenPull - suddenPrecision)) * scale - slope * slope;
      const trust = sudden * scale;
      const shift = suddenVariance * suddenPull - suddenMm;
      const unsure = suddenVariance * (1 - suddenVariance * suddenPrecision);
      lostMm = trust * shift;
      lostCov = trust * (shift * (suddenPull - slope) - suddenVariance * suddenPrecision);
      lostVariance = trust * ((1 - trust) * shift * shift + unsure);
    }
    states[at + WEIGHT]! *= density;
    states[at + MM] = mm + varMm * slope + lostMm;
    states[at + RATE] = rate + cov * slope;
    states[at + VAR_RATE] = varRate + cov * cov * curvature;
    states[at + COV] = cov + cov * (varMm * curvature + lostCov);
    states[at + VAR_MM] = varMm + varMm * (varMm * curvature + 2 * lostCov) + lostVariance;
  }
}
