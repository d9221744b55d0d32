import type { Draw, WearParameters } from './experience.js';
import { eventsOf, followChanges } from './changes.js';
import {
  COMPONENTS,
  COV,
  filterAxle,
  MM,
  PART,
  RATE,
  STATE,
  VAR_MM,
  VAR_RATE,
  WEIGHT,
  type PartTracks,
  type Track,
} from './filter.js';
import { normalCdf, type NormalMixture } from './normal.js';

export { filterComponent, type PartTracks, type Track } from './filter.js';

/**
 * Wear of the parts of one axle by distance. Given the axle's base rate b, each part is a two-state (thickness,
 * rate) Kalman filter, mixtures merged by their moments; given b the parts are independent. The posterior of b is a
 * sum over nodes of log b, so all parts of the axle inform one another and nothing is sampled. Distances are in
 * 1000 km, thickness in mm, rates in mm per 1000 km.
 */

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
  /** How the rate may yet change, averaged over the draws. */
  changes: { perMm: number; sd: number };
}

/** Standard deviations of log b that the nodes reach to either side. */
const REACH = 4;
const COARSE_NODES = 33;
const FINEST_STEP = 0.05;
const COARSEST_STEP = 0.16;
/** A node is of no account when its log posterior is this far below the best. */
const NEGLIGIBLE = 11;
/** Nodes reach less far into the tails of what a rate has become. */
const CHANGED_SHARE = 1.5;
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
  const events = draws.some(({ parameters }) => parameters.jumpPerMm > 0) ? eventsOf(parts, now) : null;
  draws.forEach(({ weight, parameters }, draw) => {
    const first = draw * nodes;
    const states = all.subarray(first * size, (first + nodes) * size);
    const logs = logWeights.subarray(first, first + nodes);
    if (events && parameters.jumpPerMm > 0)
      filterChanging(parts, events, parameters, grid, now, states, logs);
    else {
      for (let node = 0; node < nodes; node++) {
        const likelihood = filterAxle(parts, parameters, Math.exp(grid[node]!), now, states, node * size);
        logs[node] = logPrior(grid[node]!, parameters) + likelihood;
      }
    }
    for (let node = 0; node < nodes; node++) logs[node]! += Math.log(weight);
  });
  return collapse(parts.length, grid, draws, logWeights, all);
}

function filterChanging(
  parts: readonly PartTracks[],
  events: ReturnType<typeof eventsOf>,
  parameters: WearParameters,
  grid: Float64Array,
  now: number,
  states: Float64Array,
  logs: Float64Array,
): void {
  const weights = grid.map((logRate) => Math.exp(logPrior(logRate, parameters)));
  const likelihood = followChanges(parts, events, parameters, grid, weights, now, states);
  weights.forEach((weight, node) => (logs[node] = likelihood + Math.log(weight + 1e-300)));
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
  if (central.jumpPerMm > 0) widen(coarse, parts, central, low, step);
  const best = Math.max(...coarse);
  const first = coarse.findIndex((value) => value > best - NEGLIGIBLE);
  const last = coarse.findLastIndex((value) => value > best - NEGLIGIBLE);
  const from = low + Math.max(0, first - 1) * step;
  const to = low + Math.min(COARSE_NODES - 1, last + 1) * step;
  const fine = Math.min(COARSEST_STEP, Math.max(FINEST_STEP, (to - from) / 20));
  const count = Math.ceil((to - from) / fine) + 1;
  return Float64Array.from({ length: count }, (_, node) => from + (node * (to - from)) / (count - 1));
}

/** Where the rate may change, what it has become counts as much as what it was before. */
function widen(
  coarse: Float64Array,
  parts: readonly PartTracks[],
  parameters: WearParameters,
  low: number,
  step: number,
): void {
  const grid = coarse.map((_, node) => low + node * step);
  const weights = grid.map((logRate) => Math.exp(logPrior(logRate, parameters)));
  const states = new Float64Array(grid.length * parts.length * PART);
  followChanges(parts, eventsOf(parts, 0), parameters, grid, weights, null, states);
  const best = Math.max(...coarse);
  coarse.forEach((value, node) => {
    coarse[node] = Math.max(value, best + CHANGED_SHARE * Math.log(weights[node]! + 1e-300));
  });
}

/** The draws' mean parameters, with the widest prior among them: where to look for the posterior. */
function centre(draws: readonly Draw<WearParameters>[]): WearParameters {
  const mean = { ...draws[0]!.parameters };
  const total = draws.reduce((sum, { weight }) => sum + weight, 0);
  for (const key of Object.keys(mean) as (keyof WearParameters)[]) {
    mean[key] = draws.reduce((sum, { weight, parameters }) => sum + weight * parameters[key], 0) / total;
  }
  return { ...mean, logRateSd: Math.max(...draws.map(({ parameters }) => parameters.logRateSd)) };
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
  let perMm = 0;
  let jumpVariance = 0;
  joint.forEach((value, index) => {
    nodeSums[index % nodes]! += value;
    total += value;
    const { jumpPerMm, jumpSd, wander } = draws[Math.floor(index / nodes)]!.parameters;
    wanderVariance += value * wander ** 2;
    perMm += value * jumpPerMm;
    jumpVariance += value * jumpSd ** 2;
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
    changes: { perMm: perMm / total, sd: Math.sqrt(jumpVariance / total) },
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
  return {
    parts: ratioShares.length,
    nodes,
    weights,
    rates,
    states,
    wanderVariance: parameters.wander ** 2,
    changes: { perMm: parameters.jumpPerMm, sd: parameters.jumpSd },
  };
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
