import type { Draw, WearParameters } from './experience.js';
import { copyOf, eventsOf, followOn, startFollowing } from './changes.js';
import {
  beginPart,
  carryPart,
  COMPONENTS,
  COV,
  filterModel,
  MM,
  PART,
  partStates,
  RATE,
  STATE,
  takeReadings,
  VAR_MM,
  VAR_RATE,
  WEIGHT,
  type FilterModel,
  type PartStates,
  type PartTracks,
  type Track,
} from './filter.js';
import { normalCdf, type NormalMixture } from './normal.js';
import { scratch } from './scratch.js';

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
  /** States: part by part, in each node by node, then component. */
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
  return posteriorOf(followTo(now, [parts], draws).likeliest, parts, now);
}

/** States and log weights at every node of one draw after the other. */
interface Lanes {
  /** Part by part, in each draw by draw and node by node; the room is used again by whatever is finished next. */
  states: Float64Array;
  logWeights: Float64Array;
}

const roomToFinish = scratch();
const roomForEnded = scratch();

/**
 * Takes in the readings from some distance on, and carries the states to `now`; null leaves them at the last reading.
 *
 * @param counted how many of the draws count
 */
type Finish = (parts: readonly PartTracks[], now: number | null, counted: number) => Lanes;

/** An axle whose readings short of some distance are taken in, at every node and with every draw. */
export interface Followed {
  grid: Float64Array;
  draws: readonly Draw<WearParameters>[];
  finish: Finish;
}

/** An axle followed up to where what may come parts. */
export interface FollowedWays {
  /** At nodes placed for the likeliest way. */
  likeliest: Followed;
  /** At nodes that serve another way. */
  another: (way: readonly PartTracks[]) => Followed;
}

/**
 * Follows an axle up to a distance, so that what comes from there on can be taken in one way and another.
 *
 * @param until where the ways part; no reading at or beyond it is taken in yet
 * @param ways what may come, the likeliest first
 * @param counted how many of the draws count for the other ways
 */
export function followTo(
  until: number,
  ways: readonly (readonly PartTracks[])[],
  draws: readonly Draw<WearParameters>[],
  counted = draws.length,
): FollowedWays {
  const first = ways[0]!;
  const few = draws.slice(0, counted);
  if (!mayChange(draws)) {
    const { grid, servesAll } = placeSteady(until, ways, draws);
    const likeliest = { grid, draws, finish: followSteady(until, first, parametersOf(draws), grid) };
    return {
      likeliest,
      another: (way) => (servesAll ? likeliest : followTo(until, [way], few).likeliest),
    };
  }
  const place = placeChanging(until, first, draws);
  const followed: Followed[] = [];
  const followAt = (grid: Float64Array, counting: readonly Draw<WearParameters>[]): Followed => {
    // Ways that part late often lead to the same nodes.
    const known = followed.find((each) => isSameGrid(each.grid, grid));
    if (known) return known;
    const finish = followChanging(until, first, parametersOf(counting), grid);
    const made = { grid, draws: counting, finish };
    followed.push(made);
    return made;
  };
  return {
    likeliest: followAt(place(first), draws),
    another: (way) => followAt(place(way), few),
  };
}

/** Whether nodes placed among the same coarse ones lie at the same rates. */
const isSameGrid = (a: Float64Array, b: Float64Array): boolean =>
  a.length === b.length && a[0] === b[0] && a[a.length - 1] === b[b.length - 1];

const parametersOf = (draws: readonly Draw<WearParameters>[]): WearParameters[] =>
  draws.map(({ parameters }) => parameters);

/** Whether the rate may change along the road. */
const mayChange = (draws: readonly Draw<WearParameters>[]): boolean =>
  draws.some(({ parameters }) => parameters.jumpPerMm > 0);

/**
 * The posterior once all readings are taken in.
 *
 * @param parts one of the ways that the road may go on; the same as the others before they part
 * @param counted how many of the draws count
 */
export function posteriorOf(
  { grid, draws, finish }: Followed,
  parts: readonly PartTracks[],
  now: number,
  counted = draws.length,
): WearPosterior {
  const lanes = finish(parts, now, counted);
  return collapse(parts.length, grid, draws.slice(0, counted), lanes);
}

/** A life of a part as far as the ways have not parted; open where more may come of it. */
interface Begun {
  part: number;
  life: number;
  ratioShare: number;
  track: Track;
  /** Readings that are taken in. */
  taken: number;
  isOpen: boolean;
}

/** The present life of each part is open, and any with a reading where the ways part. */
function begunBefore(until: number, parts: readonly PartTracks[]): Begun[] {
  return parts.flatMap(({ lives, ratioShare }, part) =>
    lives.map((track, life) => {
      const taken = takenBy(track, until);
      const isOpen = life === lives.length - 1 || taken < track.at.length;
      return { part, life, ratioShare, track, taken, isOpen };
    }),
  );
}

/** By the filter of each part by itself, where the rate does not change. */
function followSteady(
  until: number,
  parts: readonly PartTracks[],
  draws: readonly WearParameters[],
  grid: Float64Array,
): Finish {
  const models = draws.map(filterModel);
  const rates = grid.map(Math.exp);
  const lanes = draws.length * grid.length;
  const logs = logPriors(draws, grid);
  const lives = begunBefore(until, parts);
  addEnded(
    lives.filter(({ isOpen }) => !isOpen),
    models,
    grid,
    logs,
  );
  const open = lives.filter(({ isOpen }) => isOpen);
  const begun = new Float64Array(open.length * lanes * PART);
  open.forEach((life, index) => followLife(life, models, rates, partStates(begun, index, lanes), logs));
  return (ways, now, counted) => {
    const counting = models.slice(0, counted);
    const left = counted * grid.length;
    const logWeights = logs.slice(0, left);
    const size = parts.length * left * PART;
    // A part without any life has no weight.
    const states = roomToFinish(size).fill(0, 0, size);
    open.forEach(({ part, life, taken }, index) => {
      const track = ways[part]!.lives[life]!;
      const finished = partStates(states, part, left);
      const from = index * lanes * PART;
      states.set(begun.subarray(from, from + left * PART), finished.first);
      takeReadings(track, taken, track.at.length, counting, finished, logWeights);
      if (now !== null) carryPart(track, counting, now, finished);
    });
    return { states, logWeights };
  };
}

function followLife(
  { track, ratioShare, taken }: Begun,
  models: readonly FilterModel[],
  rates: Float64Array,
  states: PartStates,
  logs: Float64Array,
): void {
  beginPart(track, ratioShare, models, rates, states);
  takeReadings(track, 0, taken, models, states, logs);
}

/** Lives that are over are followed at so many nodes, if these reach no wider than this along log b. */
const ENDED_NODES = 8;
const ENDED_WIDTH = 0.45;

/**
 * Adds the log likelihood of lives that are over, which tell of the base rate alone. It is a smooth function of log b:
 * over a short stretch it is worked out at a few of Chebyshev's points and put in between by Lagrange's polynomial, so
 * that a long history costs little more than a short one.
 */
function addEnded(
  ended: readonly Begun[],
  models: readonly FilterModel[],
  grid: Float64Array,
  logs: Float64Array,
): void {
  if (ended.length === 0) return;
  const reach = { from: grid[0]!, to: grid[grid.length - 1]! };
  const isSmooth = grid.length > ENDED_NODES && reach.to - reach.from <= ENDED_WIDTH;
  const points = isSmooth ? chebyshevPoints(reach, ENDED_NODES) : grid;
  const rates = points.map(Math.exp);
  const lanes = models.length * points.length;
  const states = partStates(roomForEnded(lanes * PART), 0, lanes);
  const told = isSmooth ? new Float64Array(lanes) : logs;
  for (const life of ended) followLife(life, models, rates, states, told);
  if (isSmooth) addInterpolated(told, points, grid, logs);
}

function chebyshevPoints({ from, to }: Reach, count: number): Float64Array {
  return Float64Array.from(
    { length: count },
    (_, point) => (from + to) / 2 - ((to - from) / 2) * Math.cos(((2 * point + 1) * Math.PI) / (2 * count)),
  );
}

/** Adds at each node of each draw what Lagrange's polynomial through the draw's values at the points comes to. */
function addInterpolated(
  values: Float64Array,
  points: Float64Array,
  grid: Float64Array,
  into: Float64Array,
): void {
  const draws = into.length / grid.length;
  grid.forEach((at, node) => {
    points.forEach((point, index) => {
      let share = 1;
      for (const other of points) if (other !== point) share *= (at - other) / (point - other);
      for (let draw = 0; draw < draws; draw++) {
        into[draw * grid.length + node]! += share * values[draw * points.length + index]!;
      }
    });
  });
}

function logPriors(draws: readonly WearParameters[], grid: Float64Array): Float64Array {
  const logs = new Float64Array(draws.length * grid.length);
  draws.forEach((parameters, draw) => {
    grid.forEach((logRate, node) => (logs[draw * grid.length + node] = logPrior(logRate, parameters)));
  });
  return logs;
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
  draws: readonly WearParameters[],
  grid: Float64Array,
): Finish {
  const nodes = grid.length;
  const early = eventsOf(parts, until).filter(({ at }) => at < until);
  const prior = logPriors(draws, grid).map(Math.exp);
  const states = new Float64Array(parts.length * prior.length * PART);
  const followed = startFollowing(parts, draws.map(filterModel), grid, prior, states);
  followOn(followed, parts, early, null);
  return (ways, now, counted) => {
    const lanes = counted * nodes;
    const end = copyOf(followed, counted, roomToFinish(parts.length * lanes * PART));
    followOn(end, ways, eventsOf(ways, now ?? until, until), now);
    const logWeights = end.weights.map(
      (weight, lane) => end.logLikelihoods[Math.floor(lane / nodes)]! + Math.log(weight + 1e-300),
    );
    return { states: end.states, logWeights };
  };
}

function logPrior(logRate: number, { logRateMean, logRateSd }: WearParameters): number {
  const z = (logRate - logRateMean) / logRateSd;
  return -0.5 * z * z - Math.log(logRateSd);
}

/** Evenly spaced nodes of log b over all of the prior's reach. */
function widestNodes(draws: readonly Draw<WearParameters>[], count: number): Float64Array {
  const reaches = draws.map(({ parameters: { logRateMean, logRateSd } }): Reach => ({
    from: logRateMean - REACH * logRateSd,
    to: logRateMean + REACH * logRateSd,
  }));
  return evenNodes(around(reaches), count);
}

/** How many times as far as the likeliest way needs the nodes may reach for the others. */
const FARTHER = 1.3;

/** Nodes over what the readings leave of account for the likeliest way, and for the others where that takes few more. */
function placeSteady(
  until: number,
  ways: readonly (readonly PartTracks[])[],
  draws: readonly Draw<WearParameters>[],
): { grid: Float64Array; servesAll: boolean } {
  const central = centre(draws);
  const reachesAmong = (nodes: Float64Array, negligible: number, among: typeof ways): Reach[] => {
    const finish = followSteady(until, among[0]!, [central], nodes);
    return among.map((way) => reachOf(finish(way, null, 1).logWeights, nodes, -negligible));
  };
  const widest = widestNodes(draws, STEADY.coarse);
  const closer = (among: typeof ways): Reach[] => {
    const first = around(reachesAmong(widest, NEGLIGIBLE_AT_FIRST, among));
    const second = reachesAmong(evenNodes(first, CLOSER_NODES), NEGLIGIBLE, ways);
    const { from, to } = around(second);
    // Lives of long ago may have worn otherwise than the latest ones led to look.
    return among !== ways && (from === first.from || to === first.to) ? closer(ways) : second;
  };
  const reaches = closer(ways.map(latestLives));
  const own = reaches[0]!;
  const all = around(reaches);
  const servesAll = all.to - all.from <= FARTHER * (own.to - own.from);
  const step = Math.min(COARSEST_STEP, (own.to - own.from) / STEADY.steps);
  return { grid: nodesOver(servesAll ? all : own, step), servesAll };
}

/**
 * Nodes over what the readings leave of account, for the rate at first or for what it has become. Nodes that reach
 * farther would change what it may yet become, so that each way gets its own.
 */
function placeChanging(
  until: number,
  parts: readonly PartTracks[],
  draws: readonly Draw<WearParameters>[],
): (way: readonly PartTracks[]) => Float64Array {
  const central = centre(draws);
  const widest = widestNodes(draws, CHANGING.coarse);
  const atFirst = followSteady(until, parts, [central], widest);
  const atLast = followChanging(until, parts, [central], widest);
  return (way) => {
    const changed = atLast(way, null, 1).logWeights;
    const reach = around([
      reachOf(atFirst(way, null, 1).logWeights, widest, -NEGLIGIBLE),
      reachOf(changed, widest, NEGLIGIBLE_CHANGED + logSumOverBest(changed)),
    ]);
    const step = Math.max(FINEST_STEP_CHANGING, (reach.to - reach.from) / CHANGING.steps);
    return nodesOver(reach, Math.min(COARSEST_STEP, step));
  };
}

const nodesOver = (reach: Reach, step: number): Float64Array =>
  evenNodes(reach, Math.ceil((reach.to - reach.from) / step) + 1);

/** Of each part its present life and the one before it: enough to see roughly where the rate lies. */
const latestLives = (parts: readonly PartTracks[]): PartTracks[] =>
  parts.map(({ ratioShare, lives }) => ({ ratioShare, lives: lives.slice(-2) }));

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
  new Float64Array(count).map((_, node) => from + (node * (to - from)) / (count - 1));

/** From before the first to after the last node whose log weight is so far above the best one's. */
function reachOf(logWeights: Float64Array, nodes: Float64Array, least: number): Reach {
  const enough = greatest(logWeights) + least;
  let first = 0;
  while (first < nodes.length - 1 && !(logWeights[first]! > enough)) first++;
  let last = nodes.length - 1;
  while (last > 0 && !(logWeights[last]! > enough)) last--;
  return { from: nodes[Math.max(0, first - 1)]!, to: nodes[Math.min(nodes.length - 1, last + 1)]! };
}

/** The logarithm of the sum of numbers given by their logarithms, over the greatest of them. */
function logSumOverBest(logs: Float64Array): number {
  const best = greatest(logs);
  let sum = 0;
  for (let index = 0; index < logs.length; index++) sum += Math.exp(logs[index]! - best);
  return Math.log(sum);
}

function greatest(values: Float64Array): number {
  let most = -Infinity;
  for (let index = 0; index < values.length; index++) most = Math.max(most, values[index]!);
  return most;
}

/** The draws' mean parameters, with the widest prior among them: where to look for the posterior. */
function centre(draws: readonly Draw<WearParameters>[]): WearParameters {
  const mean = { ...draws[0]!.parameters };
  let total = 0;
  for (const { weight } of draws) total += weight;
  for (const key of Object.keys(mean) as (keyof WearParameters)[]) {
    let sum = 0;
    for (const { weight, parameters } of draws) sum += weight * parameters[key];
    mean[key] = sum / total;
  }
  mean.logRateSd = Math.max(...draws.map(({ parameters }) => parameters.logRateSd));
  return mean;
}

/** Merges the draws at each node by moments: what they differ in given b is small beside the spread over b. */
function collapse(
  parts: number,
  grid: Float64Array,
  draws: readonly Draw<WearParameters>[],
  { states: all, logWeights }: Lanes,
): WearPosterior {
  const nodes = grid.length;
  const joint = jointWeights(draws, logWeights);
  const nodeSums = new Float64Array(nodes);
  let wanderVariance = 0;
  let perMm = 0;
  let jumpVariance = 0;
  draws.forEach(({ parameters: { jumpPerMm, jumpSd, wander } }, draw) => {
    let weight = 0;
    for (let node = 0; node < nodes; node++) {
      nodeSums[node]! += joint[draw * nodes + node]!;
      weight += joint[draw * nodes + node]!;
    }
    wanderVariance += weight * wander ** 2;
    perMm += weight * jumpPerMm;
    jumpVariance += weight * jumpSd ** 2;
  });
  const kept = Array.from(nodeSums.keys()).filter((node) => nodeSums[node]! > LIGHTEST_NODE);
  const keptTotal = kept.reduce((sum, node) => sum + nodeSums[node]!, 0);
  const states = new Float64Array(parts * kept.length * PART);
  for (let part = 0, target = 0; part < parts; part++) {
    for (const node of kept) {
      const from = (part * joint.length + node) * PART;
      for (let component = 0; component < PART; component += STATE, target += STATE) {
        mergeStates(all, joint, node, nodes, from + component, states, target);
        states[target + WEIGHT]! /= nodeSums[node]!;
      }
    }
  }
  return {
    parts,
    nodes: kept.length,
    weights: Float64Array.from(kept, (node) => nodeSums[node]! / keptTotal),
    rates: Float64Array.from(kept, (node) => Math.exp(grid[node]!)),
    states,
    wanderVariance,
    changes: { perMm, sd: Math.sqrt(jumpVariance) },
  };
}

/** Weights of the draws and nodes together; they sum to one. */
function jointWeights(draws: readonly Draw<WearParameters>[], logWeights: Float64Array): Float64Array {
  const nodes = logWeights.length / draws.length;
  const top = greatest(logWeights);
  const joint = new Float64Array(logWeights.length);
  let total = 0;
  for (let lane = 0; lane < joint.length; lane++) {
    joint[lane] = draws[Math.floor(lane / nodes)]!.weight * Math.exp(logWeights[lane]! - top);
    total += joint[lane]!;
  }
  for (let lane = 0; lane < joint.length; lane++) joint[lane]! /= total;
  return joint;
}

/**
 * Moments of one component's state over the draws at one node; the merged weight is left unnormalised.
 *
 * @param first where the first draw's state lies; those of the others follow `nodes` lanes apart
 */
function mergeStates(
  all: Float64Array,
  joint: Float64Array,
  node: number,
  nodes: number,
  first: number,
  states: Float64Array,
  target: number,
): void {
  const apart = nodes * PART;
  let weight = 0;
  let mm = 0;
  let rate = 0;
  for (let lane = node, from = first; lane < joint.length; lane += nodes, from += apart) {
    const share = joint[lane]! * all[from + WEIGHT]!;
    weight += share;
    mm += share * all[from + MM]!;
    rate += share * all[from + RATE]!;
  }
  if (weight <= 0) {
    // No draw gives this component any weight here; keep a harmless state of variance one.
    write(states, target, 0, all[first + MM]!, all[first + RATE]!, 1, 0, 1);
    return;
  }
  mm /= weight;
  rate /= weight;
  let varMm = 0;
  let cov = 0;
  let varRate = 0;
  for (let lane = node, from = first; lane < joint.length; lane += nodes, from += apart) {
    const share = (joint[lane]! * all[from + WEIGHT]!) / weight;
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
  const models = [filterModel(parameters)];
  ratioShares.forEach((ratioShare, part) => {
    beginPart(newTrack(startMm), ratioShare, models, rates, partStates(states, part, nodes));
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

/** A limit this many standard deviations away is reached, or not, for certain. */
const CERTAIN_SDS = 8.5;
/** Nodes at which less than this chance is left are done with. */
const LEAST_CHANCE = 1e-12;

/**
 * Chance, at each node, that a part is still thicker than a limit after a further `ahead`.
 *
 * @param product is multiplied by it, that of the first node at `first`
 */
export function multiplyChanceAbove(
  posterior: WearPosterior,
  part: number,
  limitMm: number,
  ahead: number,
  product: Float64Array,
  first: number,
): void {
  const { nodes, states, wanderVariance } = posterior;
  for (let node = 0, at = part * nodes * PART; node < nodes; node++, at += PART) {
    if (product[first + node]! < LEAST_CHANCE) continue;
    let chance = 0;
    for (let from = at; from < at + PART; from += STATE) {
      const weight = states[from + WEIGHT]!;
      if (weight < LIGHTEST_COMPONENT) continue;
      const above = states[from + MM]! - ahead * states[from + RATE]! - limitMm;
      const variance = thicknessVariance(states, from, ahead, wanderVariance);
      if (above * above < CERTAIN_SDS * CERTAIN_SDS * variance) {
        chance += weight * normalCdf(above / Math.sqrt(variance));
      } else if (above > 0) chance += weight;
    }
    product[first + node]! *= chance;
  }
}

type Quantity = 'thickness' | 'rate';
const HERE: readonly number[] = [0];

/**
 * Distribution of a part's rate, or of its thickness further on: a mixture over nodes and components, those of no
 * weight left out.
 *
 * @param aheads distances, 1000 km, at each of which the thickness may be asked for with the same chance
 */
export function partMixture(
  posterior: WearPosterior,
  part: number,
  quantity: Quantity,
  aheads: readonly number[] = HERE,
): NormalMixture {
  const { nodes, states, weights, wanderVariance } = posterior;
  const count = aheads.length * countComponents(posterior, part);
  const mixture = {
    weights: new Float64Array(count),
    means: new Float64Array(count),
    sds: new Float64Array(count),
  };
  let index = 0;
  for (const ahead of aheads) {
    for (let at = 0, from = part * nodes * PART; at < nodes * COMPONENTS; at++, from += STATE) {
      if (states[from + WEIGHT]! <= 0) continue;
      mixture.weights[index] = (weights[(at / COMPONENTS) | 0]! * states[from + WEIGHT]!) / aheads.length;
      if (quantity === 'rate') {
        mixture.means[index] = states[from + RATE]!;
        mixture.sds[index] = Math.sqrt(states[from + VAR_RATE]!);
      } else {
        mixture.means[index] = states[from + MM]! - ahead * states[from + RATE]!;
        mixture.sds[index] = Math.sqrt(thicknessVariance(states, from, ahead, wanderVariance));
      }
      index += 1;
    }
  }
  return mixture;
}

/** Components of a part that have any weight, over all nodes. */
function countComponents({ nodes, states }: WearPosterior, part: number): number {
  let count = 0;
  for (let from = part * nodes * PART; from < (part + 1) * nodes * PART; from += STATE) {
    if (states[from + WEIGHT]! > 0) count += 1;
  }
  return count;
}

/** Mean and standard deviation of a part's thickness. */
export function thicknessMoments(
  { nodes, states, weights }: WearPosterior,
  part: number,
): { mean: number; sd: number } {
  let mean = 0;
  let square = 0;
  for (let at = 0, from = part * nodes * PART; at < nodes * COMPONENTS; at++, from += STATE) {
    const weight = weights[(at / COMPONENTS) | 0]! * states[from + WEIGHT]!;
    const mm = states[from + MM]!;
    if (weight === 0) continue;
    mean += weight * mm;
    square += weight * (mm * mm + states[from + VAR_MM]!);
  }
  return { mean, sd: Math.sqrt(Math.max(0, square - mean * mean)) };
}

/** Chance that a part is under a limit after a further `ahead`. */
export function chanceUnder(posterior: WearPosterior, part: number, limitMm: number, ahead: number): number {
  const { nodes, weights } = posterior;
  const above = new Float64Array(nodes).fill(1);
  multiplyChanceAbove(posterior, part, limitMm, ahead, above, 0);
  return weights.reduce((sum, weight, node) => sum + weight * (1 - above[node]!), 0);
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
