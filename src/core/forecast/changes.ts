import type { WearParameters } from './experience.js';
import {
  beginPart,
  carry,
  COV,
  filterModel,
  hasStart,
  LEAST_DENSITY,
  MM,
  PART,
  partStates,
  RATE,
  STATE,
  takeReading,
  TOGETHER,
  VAR_MM,
  VAR_RATE,
  WEIGHT,
  type FilterModel,
  type PartTracks,
  type Track,
} from './filter.js';
import { decay } from './normal.js';
import { scratch } from './scratch.js';

/**
 * Wear of an axle whose base rate may change, as with another driver or route: between two looks, with a chance per
 * mm worn, log b is drawn anew about what it was. All parts of the axle change together, so they are followed
 * together, stop by stop along the road, and at every stop the nodes of log b exchange weight and states. All draws of
 * the parameters take every step together, as in the filter.
 */

export type Event =
  | { kind: 'begin'; part: number; life: Track; at: number }
  | { kind: 'reading'; part: number; life: Track; at: number; index: number };

/**
 * What happens to the parts of an axle, in order of distance.
 *
 * @param end where a life that nothing is known of yet begins at the earliest
 * @param from distance before which everything is left out
 */
export function eventsOf(parts: readonly PartTracks[], end: number, from = -Infinity): Event[] {
  const events: Event[] = [];
  parts.forEach(({ lives }, part) => {
    let latest = 0;
    for (const life of lives) {
      const begun = life.startMm !== null ? life.startAt : null;
      // A life that nothing is known of yet begins where the one before it was last seen.
      const at = begun ?? life.at[0] ?? Math.max(latest, end);
      latest = life.at[life.at.length - 1] ?? at;
      if (at >= from) events.push({ kind: 'begin', part, life, at });
      if (latest < from) continue;
      for (let index = begun === null ? 1 : 0; index < life.at.length; index++) {
        if (life.at[index]! >= from) events.push({ kind: 'reading', part, life, at: life.at[index]!, index });
      }
    }
  });
  return events.sort((a, b) => a.at - b.at);
}

/** An axle followed along the road: weights and states at every node of log b, for every draw of the parameters. */
export interface Following {
  models: readonly FilterModel[];
  logRates: Float64Array;
  rates: Float64Array;
  inverseRates: Float64Array;
  /** Draw by draw and in each node by node; those of a draw are in proportion until they are made to sum to one. */
  weights: Float64Array;
  /** Log likelihood of each draw, up to what its weights sum to. */
  logLikelihoods: Float64Array;
  /** Readings taken in since the weights were made to sum to one. */
  unsettled: number;
  /** Part by part, in each draw by draw and node by node. */
  states: Float64Array;
  /** Whether the present life of each part has begun. */
  begun: boolean[];
  /** Distance that has been reached; null before the first event. */
  here: number | null;
  origins: Origins | null;
}

/** Where the weight at each node came from, with one draw alone. */
interface Origins {
  /** Node by node, in each by the node at the start. */
  shares: Float64Array;
  /** The weights of the nodes that the shares sum to. */
  weights: Float64Array;
}

/**
 * @param prior weight of each node at the start
 * @param originLogs where given, takes the log likelihood by the node at the start
 * @returns the log likelihood; `prior` becomes the weights at the end
 */
export function followChanges(
  parts: readonly PartTracks[],
  events: readonly Event[],
  parameters: WearParameters,
  logRates: Float64Array,
  prior: Float64Array,
  now: number | null,
  states: Float64Array,
  originLogs: Float64Array | null = null,
): number {
  const following = startFollowing(parts, [filterModel(parameters)], logRates, prior, states);
  if (originLogs) following.origins = ownOrigins(prior);
  followOn(following, parts, events, now);
  const log = following.logLikelihoods[0]!;
  if (originLogs) sumOrigins(following, log, originLogs);
  return log;
}

/** @param prior weight of each node of each draw at the start, which becomes the weights along the road */
export function startFollowing(
  parts: readonly PartTracks[],
  models: readonly FilterModel[],
  logRates: Float64Array,
  prior: Float64Array,
  states: Float64Array,
): Following {
  const following: Following = {
    models,
    logRates,
    rates: logRates.map(Math.exp),
    inverseRates: logRates.map((logRate) => Math.exp(-logRate)),
    weights: prior,
    logLikelihoods: new Float64Array(models.length),
    unsettled: 0,
    states,
    begun: parts.map(() => false),
    here: null,
    origins: null,
  };
  normalise(following);
  return following;
}

/**
 * The first so many draws of the same axle at the same place, to be followed on by themselves.
 *
 * @param states room for their states
 */
export function copyOf(following: Following, draws: number, states: Float64Array): Following {
  const { models, logRates, weights, logLikelihoods, begun } = following;
  const all = weights.length * PART;
  const kept = draws * logRates.length * PART;
  begun.forEach((_, part) => {
    states.set(following.states.subarray(part * all, part * all + kept), part * kept);
  });
  return {
    ...following,
    models: models.slice(0, draws),
    weights: weights.slice(0, draws * logRates.length),
    logLikelihoods: logLikelihoods.slice(0, draws),
    states,
    begun: begun.slice(),
  };
}

/** Drives from event to event, and then on to `now`; null stays at the last event. */
export function followOn(
  following: Following,
  parts: readonly PartTracks[],
  events: readonly Event[],
  now: number | null,
): void {
  const { models, rates, weights, states, begun } = following;
  for (const event of events) {
    if (following.here !== null && event.at > following.here) drive(following, event.at - following.here);
    following.here = event.at;
    const { life } = event;
    const part = partStates(states, event.part, weights.length);
    if (event.kind === 'begin') {
      begun[event.part] = true;
      beginPart(life, parts[event.part]!.ratioShare, models, rates, part);
      if (!hasStart(life) && life.at.length > 0) takeReading(life, 0, 0, models, part);
    } else {
      takeReading(life, event.index, 0, models, part);
      weigh(following, part.first);
    }
  }
  normalise(following);
  const here = following.here ?? 0;
  if (now !== null && now > here) carryAll(following, now - here);
}

/** Moves what the weights of a part's two components came to with a reading to the weights of the nodes. */
function weigh(following: Following, first: number): void {
  const { states, weights } = following;
  for (let lane = 0, at = first; lane < weights.length; lane++, at += PART) {
    const density = states[at + WEIGHT]! + states[at + STATE + WEIGHT]! + LEAST_DENSITY;
    const scale = 1 / density;
    states[at + WEIGHT]! *= scale;
    states[at + STATE + WEIGHT]! *= scale;
    weights[lane]! *= density;
  }
  following.unsettled += 1;
  if (following.unsettled === TOGETHER) normalise(following);
}

function normalise(following: Following): void {
  const { weights, logLikelihoods, rates } = following;
  const nodes = rates.length;
  for (let draw = 0, first = 0; first < weights.length; draw++, first += nodes) {
    let total = 0;
    for (let lane = first; lane < first + nodes; lane++) total += weights[lane]!;
    const scale = 1 / total;
    for (let lane = first; lane < first + nodes; lane++) weights[lane]! *= scale;
    logLikelihoods[draw]! += Math.log(total);
  }
  following.unsettled = 0;
}

function carryAll({ begun, models, rates, weights, states }: Following, step: number): void {
  const size = rates.length * PART;
  begun.forEach((hasBegun, part) => {
    if (!hasBegun) return;
    const first = part * weights.length * PART;
    models.forEach(({ wanderVariance }, draw) => {
      carry(states, first + draw * size, first + (draw + 1) * size, step, wanderVariance);
    });
  });
}

/** A step of the road as one draw takes it: half of it at the old rate, half at what may be the new one. */
interface Step {
  /** 1000 km. */
  length: number;
  wanderVariance: number;
  /** The mean base rate before it. */
  rate: number;
  /** Weight of each node that stays there, and that arrives there from all nodes. */
  staying: Float64Array;
  arriving: Float64Array;
  /** One over the weight of each node after it; 0 where it has none. */
  scale: Float64Array;
}

function drive(following: Following, length: number): void {
  const { models, rates, inverseRates, weights, begun, states } = following;
  if (following.unsettled > 0) normalise(following);
  const nodes = rates.length;
  for (let draw = 0; draw < models.length; draw++) {
    const step = stepOf(following, draw, length);
    for (let part = 0; part < begun.length; part++) {
      if (!begun[part]) continue;
      const first = (part * weights.length + draw * nodes) * PART;
      for (const at of [first, first + STATE]) {
        meanHalfWay(states, at, inverseRates, step);
        driveComponent(states, at, rates, step);
      }
    }
  }
}

const roomToStay = scratch();
const roomToArrive = scratch();
const roomToScale = scratch();

/** What of the weight of one draw stays at its nodes and what arrives there; these become its weights. */
function stepOf(following: Following, draw: number, length: number): Step {
  const { logRates, rates, models, weights, origins } = following;
  const { jumpPerMm, jumpSd, wanderVariance } = models[draw]!;
  const nodes = rates.length;
  const first = draw * nodes;
  let mean = 0;
  let square = 0;
  let rate = 0;
  for (let node = 0; node < nodes; node++) {
    const weight = weights[first + node]!;
    const logRate = logRates[node]!;
    mean += weight * logRate;
    square += weight * logRate * logRate;
    rate += weight * rates[node]!;
  }
  const precision = 0.5 / (Math.max(0, square - mean * mean) + jumpSd * jumpSd);
  const chance = 1 - Math.exp(-jumpPerMm * rate * length);
  const staying = roomToStay(nodes);
  const arriving = roomToArrive(nodes);
  let total = 0;
  for (let node = 0; node < nodes; node++) {
    const apart = logRates[node]! - mean;
    arriving[node] = decay(precision * apart * apart);
    total += arriving[node]!;
  }
  // The nodes lie where the readings leave weight. A change may lead elsewhere too, and that share of it is lost.
  const spacing = nodes > 1 ? logRates[1]! - logRates[0]! : 1;
  total = Math.max(total, Math.sqrt(Math.PI / precision) / spacing);
  const scale = roomToScale(nodes);
  if (origins) settleOrigins(origins, weights);
  for (let node = 0; node < nodes; node++) {
    staying[node] = (1 - chance) * weights[first + node]!;
    arriving[node]! *= chance / total;
    const weight = staying[node]! + arriving[node]!;
    weights[first + node] = weight;
    scale[node] = weight > 0 ? 1 / weight : 0;
  }
  if (origins) moveOrigins(origins, 1 - chance, arriving, weights);
  return { length, wanderVariance, rate, staying, arriving, scale };
}

/** Moments of a component over all nodes half way along a step, its rate as a multiple of the base rate. */
const whole = new Float64Array(STATE);

/**
 * Drives one component of a part, and merges into every node's states those that arrive there half way: {@link whole}, a
 * mean state of all nodes, at the new node's rate.
 */
function driveComponent(
  states: Float64Array,
  first: number,
  rates: Float64Array,
  { length, wanderVariance, rate, staying, arriving, scale }: Step,
): void {
  const half = length / 2;
  const unsure = (length * length) / 12;
  const weight = whole[WEIGHT]!;
  const wholeMm = whole[MM]!;
  const wholeRate = whole[RATE]!;
  const wholeVarMm = whole[VAR_MM]!;
  const wholeCov = whole[COV]!;
  const wholeVarRate = whole[VAR_RATE]!;
  for (let node = 0, at = first; node < rates.length; node++, at += PART) {
    const stays = staying[node]! * states[at + WEIGHT]!;
    const arrives = arriving[node]! * weight;
    const share = arrives > 0 ? arrives / (stays + arrives) : 0;
    const between = share * (1 - share);
    // Carried over the whole of the step, by the node's own state.
    const ownRate = states[at + RATE]!;
    const ownVarRate = states[at + VAR_RATE]!;
    const ownMm = states[at + MM]! - length * ownRate;
    const ownVarMm =
      states[at + VAR_MM]! + length * (length * ownVarRate - 2 * states[at + COV]! + wanderVariance);
    const ownCov = states[at + COV]! - length * ownVarRate;
    // Carried over the second half, by what arrives. The change may lie anywhere within the step.
    const base = rates[node]!;
    const newRate = wholeRate * base;
    const newVarRate = wholeVarRate * base * base;
    const newCov = wholeCov * base - half * newVarRate;
    const apartMm = wholeMm - half * newRate - ownMm;
    const apartRate = newRate - ownRate;
    const newVarMm =
      wholeVarMm +
      (base - rate) * (base - rate) * unsure +
      half * (wanderVariance - 2 * wholeCov * base + half * newVarRate);

    states[at + WEIGHT] = (stays + arrives) * scale[node]!;
    states[at + MM] = ownMm + share * apartMm;
    states[at + RATE] = ownRate + share * apartRate;
    states[at + VAR_MM] = ownVarMm + share * (newVarMm - ownVarMm) + between * apartMm * apartMm;
    states[at + COV] = ownCov + share * (newCov - ownCov) + between * apartMm * apartRate;
    states[at + VAR_RATE] = ownVarRate + share * (newVarRate - ownVarRate) + between * apartRate * apartRate;
  }
}

function meanHalfWay(
  states: Float64Array,
  first: number,
  inverseRates: Float64Array,
  { length, wanderVariance, staying }: Step,
): void {
  const half = length / 2;
  // Thickness is taken as what it is apart from one of the nodes', so that its square keeps its digits.
  const about = states[first + MM]!;
  let total = 0;
  let weight = 0;
  let mm = 0;
  let relative = 0;
  let mmSquare = 0;
  let product = 0;
  let relativeSquare = 0;
  for (let node = 0, at = first; node < inverseRates.length; node++, at += PART) {
    const inverse = inverseRates[node]!;
    const stays = staying[node]!;
    const share = stays * states[at + WEIGHT]!;
    const varRate = states[at + VAR_RATE]!;
    const cov = states[at + COV]! - half * varRate;
    const varMm = states[at + VAR_MM]! + half * (half * varRate - 2 * states[at + COV]! + wanderVariance);
    const apartMm = states[at + MM]! - half * states[at + RATE]! - about;
    const times = states[at + RATE]! * inverse;
    total += stays;
    weight += share;
    mm += share * apartMm;
    relative += share * times;
    mmSquare += share * (varMm + apartMm * apartMm);
    product += share * (cov * inverse + apartMm * times);
    relativeSquare += share * (varRate * inverse * inverse + times * times);
  }
  if (weight <= 0) {
    whole.fill(0);
    return;
  }
  mm /= weight;
  relative /= weight;
  whole[WEIGHT] = weight / total;
  whole[MM] = about + mm;
  whole[RATE] = relative;
  whole[VAR_MM] = mmSquare / weight - mm * mm;
  whole[COV] = product / weight - mm * relative;
  whole[VAR_RATE] = relativeSquare / weight - relative * relative;
}

/** At the start the weight of every node is its own. */
function ownOrigins(weights: Float64Array): Origins {
  const nodes = weights.length;
  const shares = new Float64Array(nodes * nodes);
  weights.forEach((weight, node) => (shares[node * nodes + node] = weight));
  return { shares, weights: weights.slice() };
}

/** Scales the shares to what readings have since made of the weights. */
function settleOrigins({ shares, weights: stood }: Origins, weights: Float64Array): void {
  const nodes = weights.length;
  for (let node = 0; node < nodes; node++) {
    const scale = stood[node]! > 0 ? weights[node]! / stood[node]! : 0;
    for (let origin = node * nodes; origin < (node + 1) * nodes; origin++) shares[origin]! *= scale;
  }
}

const roomForOrigins = scratch();

/** The weight that arrives at a node comes from wherever the whole came from. */
function moveOrigins(
  { shares, weights: stood }: Origins,
  staying: number,
  arriving: Float64Array,
  weights: Float64Array,
): void {
  const nodes = stood.length;
  const from = roomForOrigins(nodes).fill(0, 0, nodes);
  addOrigins(shares, from, nodes);
  for (let node = 0; node < nodes; node++) {
    for (let origin = 0; origin < nodes; origin++) {
      const at = node * nodes + origin;
      shares[at] = staying * shares[at]! + arriving[node]! * from[origin]!;
    }
  }
  stood.set(weights);
}

/** Adds up, for each node at the start, what of it has come to be at any node. */
function addOrigins(shares: Float64Array, into: Float64Array, nodes: number): void {
  for (let first = 0; first < shares.length; first += nodes) {
    for (let origin = 0; origin < nodes; origin++) into[origin]! += shares[first + origin]!;
  }
}

function sumOrigins({ origins, weights }: Following, log: number, into: Float64Array): void {
  settleOrigins(origins!, weights);
  into.fill(0);
  addOrigins(origins!.shares, into, into.length);
  into.forEach((value, origin) => (into[origin] = log + Math.log(value + 1e-300)));
}
