import type { Draw, WearParameters } from './experience.js';
import { normalCdf, type NormalMixture } from './normal.js';

/**
 * Wear of the parts of one axle by distance. Given the axle's base rate b, each part is a two-state (thickness,
 * rate) Kalman filter, mixtures merged by their moments; given b the parts are independent. The posterior of b is a
 * sum over nodes of log b, so all parts of the axle inform one another and nothing is sampled. Distances are in
 * 1000 km, thickness in mm, rates in mm per 1000 km.
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
const STATE = 6;
const WEIGHT = 0;
const MM = 1;
const RATE = 2;
const VAR_MM = 3;
const COV = 4;
const VAR_RATE = 5;
const COMPONENTS = 2;
const PART = STATE * COMPONENTS;

const SQRT_2PI = Math.sqrt(2 * Math.PI);
/** Below this a product of densities is moved into its logarithm. */
const TINY = 1e-200;

/** Relative spread of the rate of a part that wears fast. */
const FAST_SPREAD = 0.2;

/** What is known of an axle's parts, at one point of the road. */
export interface WearPosterior {
  parts: number;
  nodes: number;
  /** Weight of each node of the base rate; they sum to one. */
  weights: Float64Array;
  /** Base rate at each node. */
  rates: Float64Array;
  /** States: node-major, then part, then component. */
  states: Float64Array;
  /** Variance of the wander per 1000 km, averaged over the draws. */
  wanderVariance: number;
}

/** Standard deviations of log b that the nodes reach to either side. */
const REACH = 4;
const COARSE_NODES = 33;
const FINEST_STEP = 0.05;
const COARSEST_STEP = 0.16;
/** A node is of no account when its log posterior is this far below the best. */
const NEGLIGIBLE = 11;
/** Nodes of less weight than this are dropped once all readings are in. */
const LIGHTEST_NODE = 1e-6;
/** A component of less weight than this is left out of the chance at its node. */
const LIGHTEST_COMPONENT = 1e-5;

/**
 * The posterior of an axle's base rate and of each part's state at distance `now`.
 *
 * @param draws the experience; weights sum to one
 * @param now distance to which the states are carried; at or beyond the last reading
 */
export function wearPosterior(
  parts: readonly PartTracks[],
  draws: readonly Draw<WearParameters>[],
  now: number,
): WearPosterior {
  const grid = placeNodes(parts, draws);
  const nodes = grid.length;
  const size = parts.length * PART;
  const total = draws.length * nodes;
  const logWeights = new Float64Array(total);
  const all = new Float64Array(total * size);
  draws.forEach(({ weight, parameters }, draw) => {
    for (let node = 0; node < nodes; node++) {
      const index = draw * nodes + node;
      const likelihood = filterAxle(parts, parameters, Math.exp(grid[node]!), now, all, index * size);
      logWeights[index] = Math.log(weight) + logPrior(grid[node]!, parameters) + likelihood;
    }
  });
  return collapse(parts.length, grid, draws, logWeights, all);
}

function logPrior(logRate: number, { logRateMean, logRateSd }: WearParameters): number {
  const z = (logRate - logRateMean) / logRateSd;
  return -0.5 * z * z - Math.log(logRateSd);
}

/** Evenly spaced nodes of log b over the part of the prior's reach that the readings leave of account. */
function placeNodes(parts: readonly PartTracks[], draws: readonly Draw<WearParameters>[]): Float64Array {
  let low = Infinity;
  let high = -Infinity;
  for (const { parameters } of draws) {
    low = Math.min(low, parameters.logRateMean - REACH * parameters.logRateSd);
    high = Math.max(high, parameters.logRateMean + REACH * parameters.logRateSd);
  }
  const central = centre(draws);
  const scratch = new Float64Array(parts.length * PART);
  const step = (high - low) / (COARSE_NODES - 1);
  const coarse = Float64Array.from({ length: COARSE_NODES }, (_, node) => {
    const logRate = low + node * step;
    return logPrior(logRate, central) + filterAxle(parts, central, Math.exp(logRate), null, scratch, 0);
  });
  const best = Math.max(...coarse);
  const first = coarse.findIndex((value) => value > best - NEGLIGIBLE);
  const last = coarse.findLastIndex((value) => value > best - NEGLIGIBLE);
  const from = low + Math.max(0, first - 1) * step;
  const to = low + Math.min(COARSE_NODES - 1, last + 1) * step;
  const fine = Math.min(COARSEST_STEP, Math.max(FINEST_STEP, (to - from) / 20));
  const count = Math.ceil((to - from) / fine) + 1;
  return Float64Array.from({ length: count }, (_, node) => from + (node * (to - from)) / (count - 1));
}

/** The draws' mean parameters, with the widest prior among them: where to look for the posterior. */
function centre(draws: readonly Draw<WearParameters>[]): WearParameters {
  const mean = { ...draws[0]!.parameters };
  for (const key of Object.keys(mean) as (keyof WearParameters)[]) {
    mean[key] = draws.reduce((sum, { weight, parameters }) => sum + weight * parameters[key], 0);
  }
  return { ...mean, logRateSd: Math.max(...draws.map(({ parameters }) => parameters.logRateSd)) };
}

/**
 * Filters every part of the axle given base rate b, and writes the states of the present lives.
 *
 * @param now null leaves the states at their last reading
 * @returns the log likelihood of all readings
 */
function filterAxle(
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

/**
 * One Kalman filter over one life: x' = (thickness − rate·Δ, rate), process variance σw²·Δ on thickness. Each
 * reading has three explanations, whose posteriors are merged by their moments: it is normal about the thickness;
 * the part lost extra thickness since the last one; or it is a gross misreading, spread evenly over the range. The
 * second keeps a reading far too thin from being taken for a mistake out of hand.
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
  const { misreadChance, misreadRange, placementSd, startSd, suddenChance, suddenMm, suddenSd, wander } =
    parameters;
  const { at, atSd, gaugeVariance, mm: read } = life;
  const wanderVariance = wander * wander;
  const placement = placementSd * placementSd;
  const misread = misreadChance / misreadRange;
  const usual = 1 - misreadChance - suddenChance;
  const suddenVariance = suddenSd * suddenSd;
  const suddenIgnored = (500 * suddenChance) / (SQRT_2PI * suddenSd);
  let mm: number;
  let rate = rateMean;
  let varMm: number;
  let cov = 0;
  let varRate = rateSd * rateSd;
  let here: number;
  let first = 0;
  let likelihood = 1;
  let logLikelihood = 0;

  if (life.startMm !== null && life.startAt !== null) {
    mm = life.startMm;
    varMm = startSd * startSd;
    here = life.startAt;
  } else if (at.length > 0) {
    const slip = rate * atSd[0]!;
    mm = read[0]!;
    varMm = gaugeVariance[0]! + placement + slip * slip;
    here = at[0]!;
    first = 1;
  } else {
    out.set([0, NaN, rateMean, NaN, 0, varRate], offset);
    return 0;
  }

  for (let i = first; i < at.length; i++) {
    const step = at[i]! - here;
    here = at[i]!;
    mm -= rate * step;
    varMm += step * (step * varRate - 2 * cov + wanderVariance);
    cov -= step * varRate;
    const slip = rate * atSd[i]!;
    const variance = varMm + gaugeVariance[i]! + placement + slip * slip;
    const error = read[i]! - mm;
    const suddenSpread = variance + suddenVariance;
    const suddenError = error + suddenMm;
    const good = usual * normalDensity(error, variance);
    // Where the plain explanation is overwhelming the sudden one is not worth its exponential.
    const sudden = good > suddenIgnored ? 0 : suddenChance * normalDensity(suddenError, suddenSpread);
    const density = good + sudden + misread;
    likelihood *= density;
    if (likelihood < TINY) {
      logLikelihood += Math.log(likelihood);
      likelihood = 1;
    }
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
    varMm +=
      trust * (moveMm * moveMm - gainMm * gainMm * variance) +
      suddenTrust *
        (suddenVariance + suddenMoveMm * suddenMoveMm - suddenGainMm * suddenGainMm * suddenSpread) -
      meanMoveMm * meanMoveMm;
    cov +=
      trust * (moveMm * moveRate - gainMm * gainRate * variance) +
      suddenTrust * (suddenMoveMm * suddenMoveRate - suddenGainMm * suddenGainRate * suddenSpread) -
      meanMoveMm * meanMoveRate;
    varRate +=
      trust * (moveRate * moveRate - gainRate * gainRate * variance) +
      suddenTrust * (suddenMoveRate * suddenMoveRate - suddenGainRate * suddenGainRate * suddenSpread) -
      meanMoveRate * meanMoveRate;
    mm += meanMoveMm;
    rate += meanMoveRate;
  }
  if (now !== null) {
    const step = now - here;
    mm -= rate * step;
    varMm += step * (step * varRate - 2 * cov + wanderVariance);
    cov -= step * varRate;
  }
  out[offset + MM] = mm;
  out[offset + RATE] = rate;
  out[offset + VAR_MM] = varMm;
  out[offset + COV] = cov;
  out[offset + VAR_RATE] = varRate;
  return logLikelihood + Math.log(likelihood);
}

function normalDensity(error: number, variance: number): number {
  return Math.exp((-0.5 * error * error) / variance) / (SQRT_2PI * Math.sqrt(variance));
}

/** Merges the draws at each node by moments: what they differ in given b is small beside the spread over b. */
function collapse(
  parts: number,
  grid: Float64Array,
  draws: readonly Draw<WearParameters>[],
  logWeights: Float64Array,
  all: Float64Array,
): WearPosterior {
  const nodes = grid.length;
  const size = parts * PART;
  const top = Math.max(...logWeights);
  const joint = logWeights.map((value) => Math.exp(value - top));
  const nodeSums = new Float64Array(nodes);
  let total = 0;
  let wanderVariance = 0;
  joint.forEach((value, index) => {
    nodeSums[index % nodes]! += value;
    total += value;
    wanderVariance += value * draws[Math.floor(index / nodes)]!.parameters.wander ** 2;
  });
  const kept = Array.from(nodeSums.keys()).filter((node) => nodeSums[node]! > LIGHTEST_NODE * total);
  const keptTotal = kept.reduce((sum, node) => sum + nodeSums[node]!, 0);
  const states = new Float64Array(kept.length * size);
  kept.forEach((node, index) => {
    for (let offset = 0; offset < size; offset += STATE) {
      const target = index * size + offset;
      mergeStates(all, joint, node, nodes, size, offset, states, target);
      states[target + WEIGHT]! /= nodeSums[node]!;
    }
  });
  return {
    parts,
    nodes: kept.length,
    weights: Float64Array.from(kept, (node) => nodeSums[node]! / keptTotal),
    rates: Float64Array.from(kept, (node) => Math.exp(grid[node]!)),
    states,
    wanderVariance: wanderVariance / total,
  };
}

/** Moments of one component's state over the draws at one node; the merged weight is left unnormalised. */
function mergeStates(
  all: Float64Array,
  joint: Float64Array,
  node: number,
  nodes: number,
  size: number,
  offset: number,
  states: Float64Array,
  target: number,
): void {
  let weight = 0;
  let mm = 0;
  let rate = 0;
  for (let index = node; index < joint.length; index += nodes) {
    const from = index * size + offset;
    const share = joint[index]! * all[from + WEIGHT]!;
    weight += share;
    mm += share * all[from + MM]!;
    rate += share * all[from + RATE]!;
  }
  if (weight <= 0) {
    // No draw gives this component any weight here; keep a harmless state of variance one.
    states.set([0, all[node * size + offset + MM]!, all[node * size + offset + RATE]!, 1, 0, 1], target);
    return;
  }
  mm /= weight;
  rate /= weight;
  let varMm = 0;
  let cov = 0;
  let varRate = 0;
  for (let index = node; index < joint.length; index += nodes) {
    const from = index * size + offset;
    const share = (joint[index]! * all[from + WEIGHT]!) / weight;
    const apartMm = all[from + MM]! - mm;
    const apartRate = all[from + RATE]! - rate;
    varMm += share * (all[from + VAR_MM]! + apartMm * apartMm);
    cov += share * (all[from + COV]! + apartMm * apartRate);
    varRate += share * (all[from + VAR_RATE]! + apartRate * apartRate);
  }
  states.set([weight, mm, rate, varMm, cov, varRate], target);
}

/**
 * The same axle with a new set of parts fitted: the belief about the base rate is kept, the parts start anew.
 *
 * @param startMm thickness of a new part
 */
export function freshParts(
  { weights, rates, nodes }: WearPosterior,
  ratioShares: readonly number[],
  draws: readonly Draw<WearParameters>[],
  startMm: number,
): WearPosterior {
  const parameters = centre(draws);
  const size = ratioShares.length * PART;
  const states = new Float64Array(nodes * size);
  const parts = ratioShares.map((ratioShare): PartTracks => ({ ratioShare, lives: [newTrack(startMm)] }));
  rates.forEach((rate, node) => filterAxle(parts, parameters, rate, 0, states, node * size));
  return { parts: ratioShares.length, nodes, weights, rates, states, wanderVariance: parameters.wander ** 2 };
}

function newTrack(startMm: number): Track {
  const none = new Float64Array(0);
  return { startAt: 0, startMm, at: none, atSd: none, mm: none, gaugeVariance: none };
}

/** Chance, at each node, that a part is still thicker than a limit after a further `ahead`; multiplied into `product`. */
export function multiplyChanceAbove(
  posterior: WearPosterior,
  part: number,
  limitMm: number,
  ahead: number,
  product: Float64Array,
): void {
  const { nodes, parts, states } = posterior;
  for (let node = 0; node < nodes; node++) {
    const first = (node * parts + part) * PART;
    let chance = 0;
    for (let from = first; from < first + PART; from += STATE) {
      const weight = states[from + WEIGHT]!;
      if (weight < LIGHTEST_COMPONENT) continue;
      const above = states[from + MM]! - ahead * states[from + RATE]! - limitMm;
      chance += weight * normalCdf(above / Math.sqrt(thicknessVariance(posterior, from, ahead)));
    }
    product[node]! *= chance;
  }
}

type Quantity = 'thickness' | 'rate';

/**
 * Distribution of a part's thickness after a further `ahead` 1000 km, or of its rate: a mixture over nodes and
 * components.
 */
export function partMixture(
  posterior: WearPosterior,
  part: number,
  quantity: Quantity,
  ahead = 0,
): NormalMixture {
  const { nodes, parts, states, weights } = posterior;
  const count = nodes * COMPONENTS;
  const mixture = {
    weights: new Float64Array(count),
    means: new Float64Array(count),
    sds: new Float64Array(count),
  };
  for (let node = 0; node < nodes; node++) {
    for (let component = 0; component < COMPONENTS; component++) {
      const from = (node * parts + part) * PART + component * STATE;
      const index = node * COMPONENTS + component;
      mixture.weights[index] = weights[node]! * states[from + WEIGHT]!;
      if (quantity === 'rate') {
        mixture.means[index] = states[from + RATE]!;
        mixture.sds[index] = Math.sqrt(states[from + VAR_RATE]!);
      } else {
        mixture.means[index] = states[from + MM]! - ahead * states[from + RATE]!;
        mixture.sds[index] = Math.sqrt(thicknessVariance(posterior, from, ahead));
      }
    }
  }
  return mixture;
}

function thicknessVariance({ states, wanderVariance }: WearPosterior, from: number, ahead: number): number {
  const grown = ahead * (ahead * states[from + VAR_RATE]! - 2 * states[from + COV]! + wanderVariance);
  return Math.max(1e-8, states[from + VAR_MM]! + grown);
}
