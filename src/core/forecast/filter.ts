import type { WearParameters } from './experience.js';
import { decay, normalCdf } from './normal.js';
import type { Habits } from './renewal.js';

/**
 * Kalman filter for one part, given its axle's base rate; the states are thickness and rate. Each part has three
 * components (explanations of its wear), each a weighted normal state: it wears normally, it has worn fast since it was
 * fitted, or it started to drag at some time. Distances are in 1000 km, thickness in mm, rates in mm per 1000 km.
 */

/** One life of one part, prepared for the filter. All arrays have the same length and are ordered by distance. */
export interface Track {
  /** Distance at which the life began; null if unknown. */
  startAt: number | null;
  /** Thickness at the start, mm; null if unknown, in which case the life begins with its first reading. */
  startMm: number | null;
  at: Float64Array;
  /** Standard deviation of `at`, if it was estimated from dates. */
  atSd: Float64Array;
  mm: Float64Array;
  /** Variance of each reading due to the gauge alone, mm². */
  gaugeVariance: Float64Array;
  /** Number of readings behind each mean, if readings are grouped; `scatter` is their sum of squares about it, mm². */
  counts?: Float64Array;
  scatter?: Float64Array;
  /** Present if an unrecorded set may be fitted; without it the records are assumed complete. */
  set?: SetFacts;
}

/** What is known about a life's set if the records may be incomplete. */
export interface SetFacts {
  /** Recorded when fitted; fitted when the vehicle entered service, unless replaced since; or unknown. */
  origin: 'recorded' | 'in-service' | 'unknown';
  /** Specified thickness of a new part, mm. */
  newMm: number;
  /** Limit of the part, mm. */
  limitMm: number;
  /** Standard deviation of the distance at which the life began, 1000 km. */
  startAtSd: number;
  habits: Habits;
}

/** The lives of one part position on the axle, oldest first; the last one is current. */
export interface PartTracks {
  /** Share of the log inner-to-outer ratio: +½ for an inner pad, −½ for an outer one, 0 for a rotor. */
  ratioShare: number;
  lives: Track[];
  /** Parts with the same number are on the same wheel; one wheel's parts may be replaced alone. */
  wheel?: number;
  /** Distances at which work ended any dragging, 1000 km. */
  freedAt?: readonly number[];
  /** Whether the distances are in doubt, so that only a part that became thicker suggests a replacement. */
  distanceDoubted?: boolean;
}

/** Numbers per component: five of its normal state, and its weight. */
export const STATE = 6;
export const WEIGHT = 0;
export const MM = 1;
export const RATE = 2;
export const VAR_MM = 3;
export const COV = 4;
export const VAR_RATE = 5;
export const COMPONENTS = 3;
/** Offsets of the components within a part's state. */
export const NORMAL = 0;
export const FAST = STATE;
export const DRAGGING = 2 * STATE;
/** Numbers per part and lane. */
export const PART = STATE * COMPONENTS;

const INVERSE_SQRT_2PI = 1 / Math.sqrt(2 * Math.PI);
/** Relative spread of the rate of a part that wears fast. */
const FAST_SPREAD = 0.2;
/** Components with less weight than this are dropped. */
export const MIN_COMPONENT_WEIGHT = 1e-5;
/** Prevents a division by zero in lanes that the readings rule out. */
export const MIN_DENSITY = 1e-300;

/** One draw of the parameters, precomputed for the filter. */
export interface FilterModel {
  logInnerOuter: number;
  setSpread: number;
  partVariance: number;
  fastChance: number;
  fastFactor: number;
  startVariance: number;
  wanderVariance: number;
  placementVariance: number;
  visitVariance: number;
  misreadChance: number;
  /** Chances that a reading is plain or follows a sudden loss, each divided by √2π. */
  plain: number;
  sudden: number;
  suddenMm: number;
  suddenVariance: number;
  /** Above this plain density, the sudden loss is negligible and not computed. */
  overwhelming: number;
  dragsPer1000Km: number;
  dragFactor: number;
  dragVariance: number;
  jumpPerMm: number;
  jumpSd: number;
  replacedWornChance: number;
}

export function filterModel(parameters: WearParameters): FilterModel {
  const {
    logInnerOuter,
    setSpread,
    partSpread,
    fastChance,
    fastFactor,
    startSd,
    wander,
    placementSd,
    visitSd,
  } = parameters;
  const { misreadChance, suddenChance, suddenMm, suddenSd, jumpPerMm, jumpSd } = parameters;
  const { dragsPer1000Km, dragFactor, dragSpread, replacedWornChance } = parameters;
  // A loss is positive: the normal distribution is cut off at 0.
  const isLoss = suddenSd > 0 ? normalCdf(suddenMm / suddenSd) : 1;
  return {
    logInnerOuter,
    setSpread,
    partVariance: partSpread * partSpread,
    fastChance,
    fastFactor,
    startVariance: startSd * startSd,
    wanderVariance: wander * wander,
    placementVariance: placementSd * placementSd,
    visitVariance: visitSd * visitSd,
    misreadChance,
    plain: (1 - misreadChance - suddenChance) * INVERSE_SQRT_2PI,
    sudden: (suddenChance * INVERSE_SQRT_2PI) / isLoss,
    suddenMm,
    suddenVariance: suddenSd * suddenSd,
    overwhelming: suddenChance > 0 ? (500 * suddenChance * INVERSE_SQRT_2PI) / suddenSd : -1,
    dragsPer1000Km,
    dragFactor,
    dragVariance: (dragSpread * dragFactor) ** 2,
    jumpPerMm,
    jumpSd,
    replacedWornChance,
  };
}

/** One reading, prepared for the filter. */
export interface Look {
  part: number;
  mm: number;
  gaugeVariance: number;
  /** Variance of the distance, (1000 km)². */
  placeVariance: number;
  count: number;
  scatter: number;
  /** Range of a gross misreading of the part, mm. */
  rangeMm: number;
}

/** A misreading may exceed the thickness of a new part by this much, mm. */
const BEYOND_NEW_MM = 1;

/**
 * Width of the uniform range of a part's gross misreading, mm: from 0 to a little more than new. A part that is
 * replaced with most of its thickness left, such as a rotor, is misread only near its possible range.
 */
export function misreadRangeMm({ set, startMm, mm }: Track): number {
  if (set?.habits.misreadMm) return set.newMm - set.limitMm + 2 * set.habits.misreadMm;
  const max = set?.newMm ?? startMm ?? mm.reduce((max, each) => Math.max(max, Math.abs(each)), 0);
  return Math.abs(max) + BEYOND_NEW_MM;
}

export function lookOf(part: number, track: Track, index: number): Look {
  return {
    part,
    mm: track.mm[index]!,
    gaugeVariance: track.gaugeVariance[index]!,
    placeVariance: track.atSd[index]! ** 2,
    count: track.counts?.[index] ?? 1,
    scatter: track.scatter?.[index] ?? 0,
    rangeMm: misreadRangeMm(track),
  };
}

/** Variance of a reading about the thickness, from gauge and placement, mm². */
export const lookVariance = ({ gaugeVariance, count }: Look, { placementVariance }: FilterModel): number =>
  (gaugeVariance + placementVariance) / count;

/** Density of grouped readings about their mean, all plain: the joint density divided by the density of the mean. */
export function densityAboutMean({ count, scatter, gaugeVariance }: Look, model: FilterModel): number {
  if (count === 1) return 1;
  const variance = gaugeVariance + model.placementVariance;
  const each = model.plain / Math.sqrt(variance);
  return (Math.pow(each, count - 1) * Math.exp((-0.5 * scatter) / variance)) / Math.sqrt(count);
}

/** Starts a part of known thickness, with its components at their prior weights. */
export function beginPart(
  states: Float64Array,
  at: number,
  model: FilterModel,
  rate: number,
  rateVariance: number,
  mm: number,
  mmVariance: number,
): void {
  const { fastChance, fastFactor } = model;
  const fast = rate * fastFactor;
  write(states, at + NORMAL, 1 - fastChance, mm, rate, mmVariance, 0, rateVariance);
  write(states, at + FAST, fastChance, mm, fast, mmVariance, 0, (rate * FAST_SPREAD) ** 2);
  write(states, at + DRAGGING, 0, mm, rate * model.dragFactor, mmVariance, 0, rateVariance);
}

export function write(
  states: Float64Array,
  at: number,
  weight: number,
  mm: number,
  rate: number,
  varMm: number,
  cov: number,
  varRate: number,
): void {
  states[at + WEIGHT] = weight;
  states[at + MM] = mm;
  states[at + RATE] = rate;
  states[at + VAR_MM] = varMm;
  states[at + COV] = cov;
  states[at + VAR_RATE] = varRate;
}

/** Moves the components from offset `from` up to but not including `to` over a step in distance. */
export function carry(
  states: Float64Array,
  from: number,
  to: number,
  step: number,
  wanderVariance: number,
): void {
  for (let at = from; at < to; at += STATE) {
    if (states[at + WEIGHT] === 0) continue;
    const varRate = states[at + VAR_RATE]!;
    states[at + MM]! -= states[at + RATE]! * step;
    states[at + VAR_MM]! += step * (step * varRate - 2 * states[at + COV]! + wanderVariance);
    states[at + COV]! -= step * varRate;
  }
}

/** Merges one weighted normal state into another, matching moments. */
export function addByMoments(into: Float64Array, target: number, from: Float64Array, source: number): void {
  const added = from[source + WEIGHT]!;
  const weight = into[target + WEIGHT]! + added;
  if (!(weight > 0)) return;
  const share = added / weight;
  const between = share * (1 - share);
  const apartMm = from[source + MM]! - into[target + MM]!;
  const apartRate = from[source + RATE]! - into[target + RATE]!;
  into[target + WEIGHT] = weight;
  into[target + MM]! += share * apartMm;
  into[target + RATE]! += share * apartRate;
  into[target + VAR_MM]! +=
    share * (from[source + VAR_MM]! - into[target + VAR_MM]!) + between * apartMm * apartMm;
  into[target + COV]! += share * (from[source + COV]! - into[target + COV]!) + between * apartMm * apartRate;
  into[target + VAR_RATE]! +=
    share * (from[source + VAR_RATE]! - into[target + VAR_RATE]!) + between * apartRate * apartRate;
}

/** Dragging starts a quarter or three quarters into a step: mean of the remaining share, and of its square. */
const DRAGGED = 0.5;
const DRAGGED_SQUARE = 0.3125;

/**
 * Writes the state of a part that started to drag within a step, from the state after normal wear over the whole step.
 * It started a quarter or three quarters of the step ago, equally likely; the two are merged by moments.
 */
export function beganToDrag(
  states: Float64Array,
  source: number,
  { dragFactor, dragVariance }: FilterModel,
  weight: number,
  step: number,
  into: Float64Array,
  target: number,
): void {
  const rate = states[source + RATE]!;
  const varRate = states[source + VAR_RATE]!;
  const cov = states[source + COV]!;
  const dragged = DRAGGED * step;
  const more = dragged * (dragFactor - 1);
  const draggedSquare = DRAGGED_SQUARE * step * step;
  const moreSquare = draggedSquare * (dragFactor - 1) * (dragFactor - 1);
  const slip = rate * rate * dragVariance;
  const varMm = states[source + VAR_MM]! + moreSquare * varRate - 2 * more * cov + draggedSquare * slip;
  write(
    into,
    target,
    weight,
    states[source + MM]! - more * rate,
    rate * dragFactor,
    varMm + (moreSquare - more * more) * rate * rate,
    dragFactor * (cov - more * varRate) - dragged * slip,
    dragFactor * dragFactor * varRate + slip,
  );
}

/** Frees a part, which wears normally from here on. */
export function free(states: Float64Array, at: number, { dragFactor }: FilterModel): void {
  const dragging = at + DRAGGING;
  if (states[dragging + WEIGHT]! <= 0) return;
  states[dragging + RATE]! /= dragFactor;
  states[dragging + COV]! /= dragFactor;
  states[dragging + VAR_RATE]! /= dragFactor * dragFactor;
  addByMoments(states, at + NORMAL, states, dragging);
  states[dragging + WEIGHT] = 0;
}

/**
 * Updates one component with a reading and multiplies its weight by the reading's density. A reading has three
 * explanations: it is plain, normal about the thickness; the part suddenly lost thickness since the last reading; or it
 * is a gross misreading, uniform over the part's range. The results are merged by their moments.
 *
 * @param error of the reading, net of the error its visit's readings share, mm
 * @param readVariance of the reading about the thickness, mm²
 */
export function takeIntoComponent(
  states: Float64Array,
  at: number,
  error: number,
  readVariance: number,
  misread: number,
  model: FilterModel,
): void {
  const varMm = states[at + VAR_MM]!;
  const variance = varMm + readVariance;
  const precision = 1 / variance;
  const plain = model.plain * decay(0.5 * error * error * precision) * Math.sqrt(precision);
  if (plain <= model.overwhelming) {
    takeSuddenLoss(states, at, error, variance, plain, misread, model);
    return;
  }
  const density = plain + misread;
  const trust = plain / density;
  const gainMm = varMm * precision;
  const gainRate = states[at + COV]! * precision;
  const less = trust * ((1 - trust) * error * error - variance);
  states[at + WEIGHT]! *= density;
  states[at + MM]! += trust * gainMm * error;
  states[at + RATE]! += trust * gainRate * error;
  states[at + VAR_MM]! += less * gainMm * gainMm;
  states[at + COV]! += less * gainMm * gainRate;
  states[at + VAR_RATE]! += less * gainRate * gainRate;
}

/** The same where a sudden loss may explain the reading. The loss is normal, cut off at 0. */
function takeSuddenLoss(
  states: Float64Array,
  at: number,
  error: number,
  variance: number,
  plain: number,
  misread: number,
  { sudden: chance, suddenMm, suddenVariance }: FilterModel,
): void {
  const lossPrecision = 1 / (variance + suddenVariance);
  const pull = (error + suddenMm) * lossPrecision;
  const lossMean = suddenMm - suddenVariance * pull;
  const lossSd = Math.sqrt(suddenVariance * variance * lossPrecision);
  const above = lossSd > 0 ? lossMean / lossSd : 0;
  const isLoss = lossSd > 0 ? normalCdf(above) : 0;
  const sudden = chance * Math.exp(-0.5 * (error + suddenMm) * pull) * Math.sqrt(lossPrecision) * isLoss;
  const density = plain + sudden + misread + MIN_DENSITY;
  // Mean and variance of a normal cut off at 0.
  const hazard = isLoss > 1e-12 ? (INVERSE_SQRT_2PI * Math.exp(-0.5 * above * above)) / isLoss : 0;
  const lost = Math.max(0, lossMean + lossSd * hazard);
  const lostVariance = lossSd * lossSd * Math.max(0, 1 - hazard * (hazard + above));

  const gainMm = states[at + VAR_MM]! / variance;
  const gainRate = states[at + COV]! / variance;
  const plainShare = plain / density;
  const lossShare = sudden / density;
  const plainMm = gainMm * error;
  const plainRate = gainRate * error;
  const lossMm = plainMm - (1 - gainMm) * lost;
  const lossRate = gainRate * (error + lost);
  const meanMm = plainShare * plainMm + lossShare * lossMm;
  const meanRate = plainShare * plainRate + lossShare * lossRate;
  const corrected = plainShare + lossShare;
  const product = (a: number, b: number, lossA: number, lossB: number, meanA: number, meanB: number) =>
    plainShare * a * b + lossShare * lossA * lossB - meanA * meanB;
  states[at + WEIGHT]! *= density;
  states[at + MM]! += meanMm;
  states[at + RATE]! += meanRate;
  states[at + VAR_MM]! +=
    product(plainMm, plainMm, lossMm, lossMm, meanMm, meanMm) -
    corrected * gainMm * gainMm * variance +
    lossShare * (1 - gainMm) ** 2 * lostVariance;
  states[at + COV]! +=
    product(plainMm, plainRate, lossMm, lossRate, meanMm, meanRate) -
    corrected * gainMm * gainRate * variance -
    lossShare * (1 - gainMm) * gainRate * lostVariance;
  states[at + VAR_RATE]! +=
    product(plainRate, plainRate, lossRate, lossRate, meanRate, meanRate) -
    corrected * gainRate * gainRate * variance +
    lossShare * gainRate * gainRate * lostVariance;
}

/** Whether the life began at a known distance and thickness. */
export const hasStart = ({ startAt, startMm }: Track): boolean => startAt !== null && startMm !== null;

/**
 * Textbook Kalman filter over one life at one rate, without the other explanations.
 *
 * @returns the log likelihood of the readings
 */
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
  write(out, offset, 1, life.startMm ?? NaN, rateMean, model.startVariance, 0, rateSd * rateSd);
  let here = life.startAt;
  let logLikelihood = 0;
  life.at.forEach((at, index) => {
    const look = lookOf(0, life, index);
    const readVariance = lookVariance(look, model);
    if (index === 0 && !hasStart(life)) {
      out[offset + MM] = look.mm;
      out[offset + VAR_MM] = readVariance;
    } else {
      carry(out, offset, offset + STATE, at - here!, model.wanderVariance);
      out[offset + WEIGHT] = 1;
      const misread = model.misreadChance / look.rangeMm;
      takeIntoComponent(out, offset, look.mm - out[offset + MM]!, readVariance, misread, model);
      logLikelihood += Math.log(out[offset + WEIGHT]! * densityAboutMean(look, model));
    }
    here = at;
  });
  if (now !== null && here !== null) carry(out, offset, offset + STATE, now - here, model.wanderVariance);
  return logLikelihood;
}
