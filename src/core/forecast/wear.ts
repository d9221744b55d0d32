import { laidOut, type Draw, type WearParameters } from './experience.js';
import { copyOf, eventsOf, followOn, startFollowing } from './changes.js';
import {
  beginPart,
  carryPart,
  COMPONENTS,
  COV,
  MM,
  PART,
  partAtNodes,
  RATE,
  ratesOfPart,
  STATE,
  takeReadings,
  VAR_MM,
  VAR_RATE,
  WEIGHT,
  type AtNodes,
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
/** How the nodes are placed: looked for first among so many, then so many steps between the first and the last. */
interface Placing {
  coarse: number;
  steps: number;
}
/** Where the rate does not change, what is of account is looked at closer before the nodes are placed. */
const STEADY: Placing = { coarse: 17, steps: 14 };
/** What a rate may become depends on where its nodes end, so that they are placed as the fit has learned with. */
const CHANGING: Placing = { coarse: 33, steps: 20 };
const CLOSER_NODES = 16;
const COARSEST_STEP = 0.16;
const FINEST_STEP_CHANGING = 0.05;
/** A node is of no account when its log posterior is this far below the best. */
const NEGLIGIBLE = 11;
/** The same while the best may still lie between nodes. */
const NEGLIGIBLE_AT_FIRST = 18;
/** Share of the posterior that a node of what a rate has become must hold, as a logarithm. */
const NEGLIGIBLE_CHANGED = -NEGLIGIBLE / 1.5;
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
  return posteriorOf(followTo(now, [parts], draws), parts, now);
}

/**
 * Takes the readings from some distance on into one draw's states; writes what they come to at `now` and the log weight of each
 * node.
 */
type Finish = (
  parts: readonly PartTracks[],
  now: number | null,
  states: Float64Array,
  logWeights: Float64Array,
) => void;

/** An axle whose readings short of some distance are taken in, at every node and with every draw. */
export interface Followed {
  grid: Float64Array;
  /** Whether the nodes serve the other ways as well. */
  servesAll: boolean;
  draws: readonly Draw<WearParameters>[];
  finishes: Finish[];
}

/**
 * Follows an axle up to a distance, so that what comes from there on can be taken in one way and another.
 *
 * @param until where the ways part; no reading at or beyond it is taken in yet
 * @param ways what may come, the likeliest first; the nodes are placed for that one, and for the others as well where
 *   that takes few more
 */
export function followTo(
  until: number,
  ways: readonly (readonly PartTracks[])[],
  draws: readonly Draw<WearParameters>[],
): Followed {
  const placed = placeNodes(until, ways, draws);
  const finishes = draws.map(({ parameters }) => {
    const follow = parameters.jumpPerMm > 0 ? followChanging : followSteady;
    return follow(until, ways[0]!, laidOut(parameters), placed.grid);
  });
  return { ...placed, draws, finishes };
}

/**
 * The posterior once all readings are taken in.
 *
 * @param parts one of the ways that the road may go on; the same as the others before they part
 * @param draws how many of the draws count
 */
export function posteriorOf(
  { grid, draws, finishes }: Followed,
  parts: readonly PartTracks[],
  now: number,
  counted = draws.length,
): WearPosterior {
  const nodes = grid.length;
  const size = parts.length * PART;
  const logWeights = new Float64Array(counted * nodes);
  const all = new Float64Array(counted * nodes * size);
  for (let draw = 0; draw < counted; draw++) {
    const first = draw * nodes;
    const logs = logWeights.subarray(first, first + nodes);
    finishes[draw]!(parts, now, all.subarray(first * size, (first + nodes) * size), logs);
    const logWeight = Math.log(draws[draw]!.weight);
    for (let node = 0; node < nodes; node++) logs[node]! += logWeight;
  }
  return collapse(parts.length, grid, draws, logWeights, all);
}

/** A life that more may come of: the present one of a part, or one with a reading where the ways part. */
interface OpenLife {
  part: number;
  life: number;
  /** Readings that are taken in, and the part's states after them. */
  taken: number;
  begun: AtNodes;
}

/** By the filter of each part by itself, where the rate does not change. */
function followSteady(
  until: number,
  parts: readonly PartTracks[],
  parameters: WearParameters,
  grid: Float64Array,
): Finish {
  const rates = grid.map(Math.exp);
  const logs = grid.map((logRate) => logPrior(logRate, parameters));
  const open: OpenLife[] = [];
  const fleeting = new Float64Array(grid.length * PART);
  parts.forEach(({ lives, ratioShare }, part) => {
    const partRates = ratesOfPart(ratioShare, parameters, rates);
    lives.forEach((track, life) => {
      const taken = takenBy(track, until);
      const isOpen = life === lives.length - 1 || taken < track.at.length;
      const begun = partAtNodes(isOpen ? new Float64Array(fleeting.length) : fleeting, 1, 0);
      beginPart(track, parameters, partRates, begun);
      takeReadings(track, 0, taken, parameters, begun, logs);
      if (isOpen) open.push({ part, life, taken, begun });
    });
  });
  return (ways, now, states, logWeights) => {
    logWeights.set(logs);
    for (const { part, life, taken, begun } of open) {
      const track = ways[part]!.lives[life]!;
      const finished = partAtNodes(states, parts.length, part);
      copyStates(begun, finished);
      takeReadings(track, taken, track.at.length, parameters, finished, logWeights);
      if (now !== null) carryPart(track, parameters, now, finished);
    }
  };
}

function copyStates(from: AtNodes, to: AtNodes): void {
  for (let node = 0; node < from.nodes; node++) {
    const source = from.first + node * from.stride;
    const target = to.first + node * to.stride;
    for (let at = 0; at < PART; at++) to.states[target + at] = from.states[source + at]!;
  }
}

/** Readings of a life short of a distance. */
function takenBy({ at }: Track, until: number): number {
  let taken = at.length;
  while (taken > 0 && at[taken - 1]! >= until) taken--;
  return taken;
}

/** By the filter of all parts together, where the rate may change. */
function followChanging(
  until: number,
  parts: readonly PartTracks[],
  parameters: WearParameters,
  grid: Float64Array,
): Finish {
  const prior = grid.map((logRate) => Math.exp(logPrior(logRate, parameters)));
  const states = new Float64Array(grid.length * parts.length * PART);
  const early = eventsOf(parts, until).filter(({ at }) => at < until);
  const following = startFollowing(parts, parameters, grid, prior, states);
  followOn(following, parts, early, null);
  return (ways, now, finished, logWeights) => {
    const late = eventsOf(ways, now ?? until).filter(({ at }) => at >= until);
    const end = copyOf(following, finished);
    followOn(end, ways, late, now);
    end.weights.forEach((weight, node) => (logWeights[node] = end.logLikelihood + Math.log(weight + 1e-300)));
  };
}

function logPrior(logRate: number, { logRateMean, logRateSd }: WearParameters): number {
  const z = (logRate - logRateMean) / logRateSd;
  return -0.5 * z * z - Math.log(logRateSd);
}

/** How many times as far as the first way needs the nodes may reach for the others. */
const FARTHER = 1.3;

/** Evenly spaced nodes of log b over the part of the prior's reach that the readings leave of account. */
function placeNodes(
  until: number,
  ways: readonly (readonly PartTracks[])[],
  draws: readonly Draw<WearParameters>[],
): Pick<Followed, 'grid' | 'servesAll'> {
  let low = Infinity;
  let high = -Infinity;
  for (const { parameters } of draws) {
    low = Math.min(low, parameters.logRateMean - REACH * parameters.logRateSd);
    high = Math.max(high, parameters.logRateMean + REACH * parameters.logRateSd);
  }
  const central = centre(draws);
  const mayChange = central.jumpPerMm > 0;
  const { coarse, steps } = mayChange ? CHANGING : STEADY;
  const reachesAmong = (nodes: Float64Array, negligible: number): Reach[] => {
    const finishes = [followSteady(until, ways[0]!, central, nodes)];
    if (mayChange) finishes.push(followChanging(until, ways[0]!, central, nodes));
    return ways.map((way) => reachOf(way, finishes, nodes, negligible));
  };
  let reaches = reachesAmong(
    evenNodes({ from: low, to: high }, coarse),
    mayChange ? NEGLIGIBLE : NEGLIGIBLE_AT_FIRST,
  );
  if (!mayChange) reaches = reachesAmong(evenNodes(around(reaches), CLOSER_NODES), NEGLIGIBLE);
  const own = reaches[0]!;
  const all = around(reaches);
  const servesAll = all.to - all.from <= FARTHER * (own.to - own.from);
  const reach = servesAll ? all : own;
  const finest = mayChange ? FINEST_STEP_CHANGING : 0;
  const step = Math.min(COARSEST_STEP, Math.max(finest, (own.to - own.from) / steps));
  return { grid: evenNodes(reach, Math.ceil((reach.to - reach.from) / step) + 1), servesAll };
}

/** A stretch of log b. */
interface Reach {
  from: number;
  to: number;
}

const around = (reaches: readonly Reach[]): Reach => ({
  from: Math.min(...reaches.map(({ from }) => from)),
  to: Math.max(...reaches.map(({ to }) => to)),
});

const evenNodes = ({ from, to }: Reach, count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, node) => from + (node * (to - from)) / (count - 1));

/** From before the first to after the last node of account, for the rate at first or for what it has become. */
function reachOf(
  parts: readonly PartTracks[],
  finishes: readonly Finish[],
  nodes: Float64Array,
  negligible: number,
): Reach {
  const states = new Float64Array(nodes.length * parts.length * PART);
  const logs = new Float64Array(nodes.length);
  const reaches = finishes.map((finish, changed): Reach => {
    finish(parts, null, states, logs);
    const best = Math.max(...logs);
    const total = logs.reduce((sum, log) => sum + Math.exp(log - best), 0);
    const least = best + (changed ? NEGLIGIBLE_CHANGED + Math.log(total) : -negligible);
    const first = logs.findIndex((log) => log > least);
    const last = logs.findLastIndex((log) => log > least);
    return { from: nodes[Math.max(0, first - 1)]!, to: nodes[Math.min(nodes.length - 1, last + 1)]! };
  });
  return around(reaches);
}

/** The draws' mean parameters, with the widest prior among them: where to look for the posterior. */
function centre(draws: readonly Draw<WearParameters>[]): WearParameters {
  const mean = { ...draws[0]!.parameters };
  const total = draws.reduce((sum, { weight }) => sum + weight, 0);
  for (const key of Object.keys(mean) as (keyof WearParameters)[]) {
    mean[key] = draws.reduce((sum, { weight, parameters }) => sum + weight * parameters[key], 0) / total;
  }
  return laidOut({ ...mean, logRateSd: Math.max(...draws.map(({ parameters }) => parameters.logRateSd)) });
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
    const from = node * size + offset;
    write(states, target, 0, all[from + MM]!, all[from + RATE]!, 1, 0, 1);
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
  write(states, target, weight, mm, rate, varMm, cov, varRate);
}

function write(
  states: Float64Array,
  offset: number,
  weight: number,
  mm: number,
  rate: number,
  varMm: number,
  cov: number,
  varRate: number,
): void {
  states[offset + WEIGHT] = weight;
  states[offset + MM] = mm;
  states[offset + RATE] = rate;
  states[offset + VAR_MM] = varMm;
  states[offset + COV] = cov;
  states[offset + VAR_RATE] = varRate;
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
  const states = new Float64Array(nodes * ratioShares.length * PART);
  ratioShares.forEach((ratioShare, part) => {
    const partRates = ratesOfPart(ratioShare, parameters, rates);
    beginPart(newTrack(startMm), parameters, partRates, partAtNodes(states, ratioShares.length, part));
  });
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
  const { nodes, parts, states, wanderVariance } = posterior;
  for (let node = 0; node < nodes; node++) {
    if (product[node] === 0) continue;
    const first = (node * parts + part) * PART;
    let chance = 0;
    for (let from = first; from < first + PART; from += STATE) {
      const weight = states[from + WEIGHT]!;
      if (weight < LIGHTEST_COMPONENT) continue;
      const above = states[from + MM]! - ahead * states[from + RATE]! - limitMm;
      chance += weight * normalCdf(above / Math.sqrt(thicknessVariance(states, from, ahead, wanderVariance)));
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
  const { nodes, parts, states, weights, wanderVariance } = posterior;
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
        mixture.sds[index] = Math.sqrt(thicknessVariance(states, from, ahead, wanderVariance));
      }
    }
  }
  return mixture;
}

function thicknessVariance(
  states: Float64Array,
  from: number,
  ahead: number,
  wanderVariance: number,
): number {
  const grown = ahead * (ahead * states[from + VAR_RATE]! - 2 * states[from + COV]! + wanderVariance);
  return Math.max(1e-8, states[from + VAR_MM]! + grown);
}
