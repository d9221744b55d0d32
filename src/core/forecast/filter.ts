import type { WearParameters } from './experience.js';
import { decay } from './normal.js';

/**
 * The two-state (thickness, rate) Kalman filter of the parts of an axle given its base rate, mixtures merged by their
 * moments. A part is followed along many lanes at once, one for each draw of the parameters and node of the base rate:
 * every step is taken on all of them before the next, and since they do not depend on one another a processor works
 * on several together. Distances are in 1000 km, thickness in mm, rates in mm per 1000 km.
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
  /** How many readings each stands for, where some are taken together, and the squares about their mean, mm². */
  counts?: Float64Array;
  scatter?: Float64Array;
}

/** One part's place on the axle: its lives, oldest first; the last is the present one. */
export interface PartTracks {
  /** Share of the log inner-to-outer ratio: +½ for an inner pad, −½ for an outer one, 0 for a rotor. */
  ratioShare: number;
  lives: Track[];
}

/** State of a part in one lane: normal and fast component, each with weight. */
export const STATE = 6;
export const WEIGHT = 0;
export const MM = 1;
export const RATE = 2;
export const VAR_MM = 3;
export const COV = 4;
export const VAR_RATE = 5;
export const COMPONENTS = 2;
/** Numbers that the state of one part takes in one lane. */
export const PART = STATE * COMPONENTS;

/** The states of one part: `lanes` of {@link PART} numbers from `first` on, draw by draw and in each node by node. */
export interface PartStates {
  states: Float64Array;
  first: number;
  lanes: number;
}

/** Where the states of one part lie in an array that holds all parts, one after the other. */
export const partStates = (states: Float64Array, part: number, lanes: number): PartStates => ({
  states,
  first: part * lanes * PART,
  lanes,
});

const INVERSE_SQRT_2PI = 1 / Math.sqrt(2 * Math.PI);
/** Readings whose densities are multiplied before their logarithm is taken: too few to come near zero. */
export const TOGETHER = 8;
/** Keeps a lane that the readings rule out altogether from having no weight to divide by. */
export const LEAST_DENSITY = 1e-300;

/** Relative spread of the rate of a part that wears fast. */
const FAST_SPREAD = 0.2;

/** One draw of the parameters as the filter takes it, worked out once for all readings. */
export interface FilterModel {
  logInnerOuter: number;
  partSpread: number;
  fastChance: number;
  fastFactor: number;
  startVariance: number;
  wanderVariance: number;
  placementVariance: number;
  /** Chances of the plain and of the sudden explanation of a reading, each over √2π. */
  plain: number;
  sudden: number;
  suddenMm: number;
  suddenVariance: number;
  /** Density of a gross misreading. */
  misread: number;
  /** A plain density above this leaves nothing for the sudden explanation that is worth its exponential. */
  overwhelming: number;
  /** Chance per mm worn that the base rate changes, and by how much of its logarithm. */
  jumpPerMm: number;
  jumpSd: number;
}

export function filterModel(parameters: WearParameters): FilterModel {
  const { logInnerOuter, partSpread, fastChance, fastFactor, startSd, wander, placementSd } = parameters;
  const { misreadChance, misreadRange, suddenChance, suddenMm, suddenSd, jumpPerMm, jumpSd } = parameters;
  return {
    logInnerOuter,
    partSpread,
    fastChance,
    fastFactor,
    startVariance: startSd * startSd,
    wanderVariance: wander * wander,
    placementVariance: placementSd * placementSd,
    plain: (1 - misreadChance - suddenChance) * INVERSE_SQRT_2PI,
    sudden: suddenChance * INVERSE_SQRT_2PI,
    suddenMm,
    suddenVariance: suddenSd * suddenSd,
    misread: misreadChance / misreadRange,
    overwhelming: suddenChance > 0 ? (500 * suddenChance * INVERSE_SQRT_2PI) / suddenSd : -1,
    jumpPerMm,
    jumpSd,
  };
}

/**
 * Filters every part of the axle at every base rate, and writes the states of the present lives.
 *
 * @param states part by part
 * @param logs has the log likelihood of all readings added to, lane by lane
 */
export function filterAxle(
  parts: readonly PartTracks[],
  models: readonly FilterModel[],
  rates: Float64Array,
  now: number | null,
  states: Float64Array,
  logs: Float64Array,
): void {
  parts.forEach(({ lives, ratioShare }, index) => {
    const part = partStates(states, index, logs.length);
    for (const life of lives) {
      beginPart(life, ratioShare, models, rates, part);
      takeReadings(life, 0, life.at.length, models, part, logs);
      if (now !== null) carryPart(life, models, now, part);
    }
  });
}

/**
 * Begins a life with both components, each at its weight before anything is read.
 *
 * @param rates base rate at each node
 */
export function beginPart(
  life: Track,
  ratioShare: number,
  models: readonly FilterModel[],
  rates: Float64Array,
  { states, first }: PartStates,
): void {
  let at = first;
  for (const model of models) {
    const { fastChance, fastFactor, partSpread } = model;
    const ratio = Math.exp(ratioShare * model.logInnerOuter);
    for (let node = 0; node < rates.length; node++, at += PART) {
      const rate = rates[node]! * ratio;
      beginLife(life, model, rate, rate * partSpread, states, at);
      beginLife(life, model, rate * fastFactor, rate * FAST_SPREAD, states, at + STATE);
      states[at + WEIGHT] = 1 - fastChance;
      states[at + STATE + WEIGHT] = fastChance;
    }
  }
}

/** Writes the state at the start of a life; its thickness is NaN where it is not known before the first reading. */
function beginLife(
  life: Track,
  { startVariance }: FilterModel,
  rateMean: number,
  rateSd: number,
  states: Float64Array,
  at: number,
): void {
  const isKnown = hasStart(life);
  states[at + MM] = isKnown ? life.startMm! : NaN;
  states[at + RATE] = rateMean;
  states[at + VAR_MM] = isKnown ? startVariance : NaN;
  states[at + COV] = 0;
  states[at + VAR_RATE] = rateSd * rateSd;
}

/** Whether a life began at a known place and thickness. */
export const hasStart = ({ startAt, startMm }: Track): boolean => startAt !== null && startMm !== null;

/**
 * Takes the readings `from` … `to` − 1 of a life into both components of a part; what they say of the two shifts
 * weight between them.
 *
 * @param logs has the log density of the readings together added to, lane by lane
 */
export function takeReadings(
  life: Track,
  from: number,
  to: number,
  models: readonly FilterModel[],
  part: PartStates,
  logs: Float64Array,
): void {
  for (let index = from; index < to; index++) {
    takeReading(life, index, life.at[index]! - placeBefore(life, index), models, part);
    if (index === to - 1 || (index - from + 1) % TOGETHER === 0) settle(part, logs);
  }
}

/** Makes the weights of the two components sum to one again, and adds the log of what they came to. */
function settle({ states, first, lanes }: PartStates, logs: Float64Array): void {
  for (let lane = 0, at = first; lane < lanes; lane++, at += PART) {
    const density = states[at + WEIGHT]! + states[at + STATE + WEIGHT]! + LEAST_DENSITY;
    states[at + WEIGHT]! /= density;
    states[at + STATE + WEIGHT]! /= density;
    logs[lane]! += Math.log(density);
  }
}

/** Where a life lies before one of its readings. */
function placeBefore(life: Track, index: number): number {
  if (index > 0) return life.at[index - 1]!;
  return hasStart(life) ? life.startAt! : life.at[0]!;
}

/** Carries both components of a part from the end of its readings to `now`. */
export function carryPart(
  life: Track,
  models: readonly FilterModel[],
  now: number,
  { states, first, lanes }: PartStates,
): void {
  const here = endOf(life);
  if (here === null) return;
  const size = (lanes / models.length) * PART;
  models.forEach(({ wanderVariance }, draw) => {
    carry(states, first + draw * size, first + (draw + 1) * size, now - here, wanderVariance);
  });
}

/** Where a life was last seen; null where nothing is known of it. */
function endOf(life: Track): number | null {
  const { at, startAt } = life;
  return at.length > 0 ? at[at.length - 1]! : hasStart(life) ? startAt : null;
}

/** Carries the states from `from` to before `to` over a step of the road. */
export function carry(
  states: Float64Array,
  from: number,
  to: number,
  step: number,
  wanderVariance: number,
): void {
  for (let at = from; at < to; at += STATE) {
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
  const model = filterModel(parameters);
  beginLife(life, model, rateMean, rateSd, out, offset);
  let logLikelihood = 0;
  life.at.forEach((at, index) => {
    out[offset + WEIGHT] = 1;
    takeIntoStates(life, index, at - placeBefore(life, index), model, out, offset, offset + STATE, STATE);
    logLikelihood += Math.log(out[offset + WEIGHT]!);
  });
  const here = endOf(life);
  if (now !== null && here !== null) carry(out, offset, offset + STATE, now - here, model.wanderVariance);
  return logLikelihood;
}

/**
 * Carries both components of a part over the step to a reading and takes it in. Their weights are multiplied by its
 * density, so that together they come to its density by both.
 */
export function takeReading(
  life: Track,
  index: number,
  step: number,
  models: readonly FilterModel[],
  { states, first, lanes }: PartStates,
): void {
  const size = (lanes / models.length) * PART;
  models.forEach((model, draw) => {
    const from = first + draw * size;
    // Where no part wears fast, that component is left as it is.
    const apart = model.fastChance > 0 ? STATE : PART;
    takeIntoStates(life, index, step, model, states, from, from + size, apart);
  });
}

/** Density of readings about their mean, all of them plain: what is left of their density when the mean's is taken out. */
function densityAboutMean(count: number, scatter: number, variance: number, plainChance: number): number {
  const each = plainChance / Math.sqrt(variance);
  return (Math.pow(each, count - 1) * Math.exp((-0.5 * scatter) / variance)) / Math.sqrt(count);
}

/** The first reading of a life gives the thickness where its start does not. */
function beginAtReading(
  life: Track,
  { placementVariance }: FilterModel,
  states: Float64Array,
  from: number,
  to: number,
  apart: number,
): void {
  for (let at = from; at < to; at += apart) {
    const slip = states[at + RATE]! * life.atSd[0]!;
    states[at + MM] = life.mm[0]!;
    states[at + VAR_MM] = life.gaugeVariance[0]! + placementVariance + slip * slip;
  }
}

/**
 * Carries states that lie so far apart to a reading and takes it in. A reading has three explanations: it is normal
 * about the thickness; the part lost extra thickness since the last one; or it is a gross misreading, spread evenly
 * over the range. The second keeps a reading far too thin from being taken for a mistake out of hand. What they make
 * of the state is merged by its moments, which are the slope and curvature of the log density of the reading by its
 * mean (Masreliez 1975, from memory); the second explanation adds what it moves the thickness alone. The weight of
 * the component is multiplied by the density of the reading.
 */
function takeIntoStates(
  life: Track,
  index: number,
  step: number,
  model: FilterModel,
  states: Float64Array,
  from: number,
  to: number,
  apart: number,
): void {
  if (index === 0 && !hasStart(life)) return beginAtReading(life, model, states, from, to, apart);
  const { wanderVariance, plain: plainChance, sudden: suddenChance, suddenMm, suddenVariance } = model;
  const { misread, overwhelming } = model;
  const readMm = life.mm[index]!;
  const count = life.counts?.[index] ?? 1;
  const oneVariance = life.gaugeVariance[index]! + model.placementVariance;
  const readVariance = oneVariance / count;
  const others = count > 1 ? densityAboutMean(count, life.scatter![index]!, oneVariance, plainChance) : 1;
  const placeVariance = life.atSd[index]! * life.atSd[index]!;
  for (let at = from; at < to; at += apart) {
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
      curvature = (curvature + sudden * (suddenPull * suddenPull - suddenPrecision)) * scale - slope * slope;
      const trust = sudden * scale;
      const shift = suddenVariance * suddenPull - suddenMm;
      const unsure = suddenVariance * (1 - suddenVariance * suddenPrecision);
      lostMm = trust * shift;
      lostCov = trust * (shift * (suddenPull - slope) - suddenVariance * suddenPrecision);
      lostVariance = trust * ((1 - trust) * shift * shift + unsure);
    }
    states[at + WEIGHT]! *= density * others;
    states[at + MM] = mm + varMm * slope + lostMm;
    states[at + RATE] = rate + cov * slope;
    states[at + VAR_RATE] = varRate + cov * cov * curvature;
    states[at + COV] = cov + cov * (varMm * curvature + lostCov);
    states[at + VAR_MM] = varMm + varMm * (varMm * curvature + 2 * lostCov) + lostVariance;
  }
}
