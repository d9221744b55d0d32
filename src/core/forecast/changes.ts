import type { WearParameters } from './experience.js';
import {
  beginPart,
  carry,
  COV,
  filterModel,
  hasStart,
  MM,
  PART,
  partStates,
  RATE,
  STATE,
  takeReading,
  VAR_MM,
  VAR_RATE,
  WEIGHT,
  type FilterModel,
  type PartTracks,
  type Track,
} from './filter.js';

/**
 * Wear of an axle whose base rate may change, as with another driver or route: between two looks, with a chance per
 * mm worn, log b is drawn anew about what it was. All parts of the axle change together, so they are followed
 * together, stop by stop along the road, and at every stop the nodes of log b exchange weight and states.
 */

type Event =
  | { kind: 'begin'; part: number; life: Track; at: number }
  | { kind: 'reading'; part: number; life: Track; at: number; index: number };

/** All that happens to the parts of an axle, in order of distance. */
export function eventsOf(parts: readonly PartTracks[], end: number): Event[] {
  const events = parts.flatMap(({ lives }, part) => {
    let latest = 0;
    return lives.flatMap((life): Event[] => {
      const begun = life.startMm !== null ? life.startAt : null;
      // A life that nothing is known of yet begins where the one before it was last seen.
      const from = begun ?? life.at[0] ?? Math.max(latest, end);
      latest = life.at.at(-1) ?? from;
      return [
        { kind: 'begin', part, life, at: from },
        ...Array.from(life.at, (at, index): Event => ({ kind: 'reading', part, life, at, index })).slice(
          begun === null ? 1 : 0,
        ),
      ];
    });
  });
  return events.sort((a, b) => a.at - b.at);
}

/** An axle followed along the road: weights and states at every node of log b. */
export interface Following {
  parameters: WearParameters;
  model: FilterModel;
  rates: Float64Array;
  logRates: Float64Array;
  weights: Float64Array;
  /** Where each node's weight came from, node by node at the start; a row is still to be scaled by `owed`. */
  origins: Float64Array | null;
  owed: Float64Array;
  /** Part by part, in each node by node. */
  states: Float64Array;
  /** Whether the present life of each part has begun. */
  begun: boolean[];
  /** Distance that has been reached; null before the first event. */
  here: number | null;
  logLikelihood: number;
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
  const following = startFollowing(parts, parameters, logRates, prior, states);
  if (originLogs) following.origins = identity(prior);
  followOn(following, parts, events, now);
  if (originLogs) {
    settleOrigins(following);
    sumOrigins(following.origins!, logRates.length, following.logLikelihood, originLogs);
  }
  return following.logLikelihood;
}

/** @param prior weight of each node at the start, which becomes the weights along the road */
export function startFollowing(
  parts: readonly PartTracks[],
  parameters: WearParameters,
  logRates: Float64Array,
  prior: Float64Array,
  states: Float64Array,
): Following {
  const following: Following = {
    parameters,
    model: filterModel(parameters),
    logRates,
    rates: logRates.map(Math.exp),
    weights: prior,
    origins: null,
    owed: new Float64Array(logRates.length),
    states,
    begun: parts.map(() => false),
    here: null,
    logLikelihood: 0,
  };
  following.logLikelihood = normalise(following);
  following.owed.fill(1);
  return following;
}

/** The same axle at the same place, to be followed on by itself. */
export function copyOf(following: Following): Following {
  const { weights, owed, begun, states } = following;
  return {
    ...following,
    weights: weights.slice(),
    owed: owed.slice(),
    begun: begun.slice(),
    states: states.slice(),
  };
}

/** Drives from event to event, and then on to `now`; null stays at the last event. */
export function followOn(
  following: Following,
  parts: readonly PartTracks[],
  events: readonly Event[],
  now: number | null,
): void {
  const { model, rates, states, begun } = following;
  for (const event of events) {
    if (following.here !== null && event.at > following.here) drive(following, event.at - following.here);
    following.here = event.at;
    const { life } = event;
    const part = partStates(states, event.part, rates.length);
    if (event.kind === 'begin') {
      begun[event.part] = true;
      beginPart(life, parts[event.part]!.ratioShare, [model], rates, part);
      if (!hasStart(life) && life.at.length > 0) takeReading(life, 0, 0, [model], part);
    } else {
      takeReading(life, event.index, 0, [model], part);
      weigh(following, part.first);
    }
  }
  const here = following.here ?? 0;
  if (now !== null && now > here) carryAll(following, now - here);
}

function identity(prior: Float64Array): Float64Array {
  const n = prior.length;
  const total = prior.reduce((sum, value) => sum + value, 0);
  return Float64Array.from({ length: n * n }, (_, index) =>
    Math.floor(index / n) === index % n ? prior[index % n]! / total : 0,
  );
}

function settleOrigins({ origins, owed }: Following): void {
  const nodes = owed.length;
  for (let index = 0; index < origins!.length; index++) {
    origins![index]! *= owed[Math.floor(index / nodes)]!;
  }
  owed.fill(1);
}

function sumOrigins(origins: Float64Array, nodes: number, log: number, into: Float64Array): void {
  into.fill(0);
  origins.forEach((value, index) => (into[index % nodes]! += value));
  into.forEach((value, origin) => (into[origin] = log + Math.log(value + 1e-300)));
}

function normalise({ weights, owed }: Following): number {
  let total = 0;
  for (const weight of weights) total += weight;
  for (let node = 0; node < weights.length; node++) {
    weights[node]! /= total;
    owed[node]! /= total;
  }
  return Math.log(total);
}

/** Moves what the weights of a part's two components came to with a reading to the weights of the nodes. */
function weigh(following: Following, first: number): void {
  const { states, weights, owed } = following;
  for (let node = 0, at = first; node < weights.length; node++, at += PART) {
    const density = states[at + WEIGHT]! + states[at + STATE + WEIGHT]!;
    states[at + WEIGHT]! /= density;
    states[at + STATE + WEIGHT]! /= density;
    weights[node]! *= density;
    owed[node]! *= density;
  }
  following.logLikelihood += normalise(following);
}

/** Drives a step: half of it at the old rate, half at what may be the new one. */
function drive(following: Following, step: number): void {
  carryAll(following, step / 2);
  change(following, step);
  carryAll(following, step / 2);
}

function carryAll({ begun, model, rates, states }: Following, step: number): void {
  const size = rates.length * PART;
  begun.forEach((hasBegun, part) => {
    if (hasBegun) carry(states, part * size, (part + 1) * size, step, model.wanderVariance);
  });
}

function change(following: Following, step: number): void {
  const { logRates, rates, weights } = following;
  const { jumpPerMm, jumpSd } = following.parameters;
  const nodes = weights.length;
  let mean = 0;
  let square = 0;
  let rate = 0;
  for (let node = 0; node < nodes; node++) {
    mean += weights[node]! * logRates[node]!;
    square += weights[node]! * logRates[node]! ** 2;
    rate += weights[node]! * rates[node]!;
  }
  const variance = Math.max(0, square - mean * mean) + jumpSd * jumpSd;
  const chance = 1 - Math.exp(-jumpPerMm * rate * step);
  const arriving = logRates.map((logRate) => Math.exp((-0.5 * (logRate - mean) ** 2) / variance));
  const total = arriving.reduce((sum, value) => sum + value, 0);
  for (let node = 0; node < nodes; node++) {
    const staying = (1 - chance) * weights[node]!;
    arriving[node]! *= chance / total;
    weights[node] = staying + arriving[node]!;
  }
  mergeAll(following, arriving, { rate, step });
  if (following.origins) {
    settleOrigins(following);
    moveOrigins(following.origins, chance, arriving);
  }
}

/** The weight that arrives at a node comes from wherever the whole came from. */
function moveOrigins(origins: Float64Array, chance: number, arriving: Float64Array): void {
  const nodes = arriving.length;
  const from = new Float64Array(nodes);
  origins.forEach((value, index) => (from[index % nodes]! += value));
  origins.forEach((value, index) => {
    origins[index] = (1 - chance) * value + arriving[Math.floor(index / nodes)]! * from[index % nodes]!;
  });
}

/** Moments of a component over all nodes, its rate as a multiple of the base rate. */
const whole = new Float64Array(STATE);

/** Merges into every node's states those that arrive there: a mean state of all nodes, at the new node's rate. */
function mergeAll(
  following: Following,
  arriving: Float64Array,
  { rate, step }: { rate: number; step: number },
): void {
  const { begun, rates, states, weights } = following;
  const size = weights.length * PART;
  for (let part = 0; part < begun.length; part++) {
    if (!begun[part]) continue;
    for (let first = part * size; first < part * size + PART; first += STATE) {
      meanState(following, arriving, first);
      for (let node = 0; node < weights.length; node++) {
        const share = arriving[node]! / weights[node]!;
        if (share < 1e-12) continue;
        // The change may lie anywhere within the step; half way is its mean.
        const unsure = ((rates[node]! - rate) * step) ** 2 / 12;
        mergeWhole(states, first + node * PART, share, rates[node]!, unsure);
      }
    }
  }
}

function meanState({ rates, states, weights }: Following, arriving: Float64Array, first: number): void {
  whole.fill(0);
  let total = 0;
  for (let node = 0; node < weights.length; node++) {
    const at = first + node * PART;
    // What arrives comes from the weights as they were before; those that stayed are in proportion to them.
    const before = weights[node]! - arriving[node]!;
    const share = before * states[at + WEIGHT]!;
    total += before;
    whole[WEIGHT]! += share;
    whole[MM]! += share * states[at + MM]!;
    whole[RATE]! += (share * states[at + RATE]!) / rates[node]!;
  }
  const weight = whole[WEIGHT]!;
  if (weight <= 0) return;
  whole[MM]! /= weight;
  whole[RATE]! /= weight;
  for (let node = 0; node < weights.length; node++) {
    const at = first + node * PART;
    const share = ((weights[node]! - arriving[node]!) * states[at + WEIGHT]!) / weight;
    const rate = rates[node]!;
    const apartMm = states[at + MM]! - whole[MM]!;
    const apartRate = states[at + RATE]! / rate - whole[RATE]!;
    whole[VAR_MM]! += share * (states[at + VAR_MM]! + apartMm * apartMm);
    whole[COV]! += share * (states[at + COV]! / rate + apartMm * apartRate);
    whole[VAR_RATE]! += share * (states[at + VAR_RATE]! / (rate * rate) + apartRate * apartRate);
  }
  whole[WEIGHT] = weight / total;
}

function mergeWhole(states: Float64Array, at: number, share: number, rate: number, unsure: number): void {
  const arriving = share * whole[WEIGHT]!;
  const weight = (1 - share) * states[at + WEIGHT]! + arriving;
  if (weight <= 0) return;
  const part = arriving / weight;
  const apartMm = whole[MM]! - states[at + MM]!;
  const apartRate = whole[RATE]! * rate - states[at + RATE]!;
  const between = part * (1 - part);
  states[at + WEIGHT] = weight;
  states[at + MM]! += part * apartMm;
  states[at + RATE]! += part * apartRate;
  states[at + VAR_MM]! +=
    part * (whole[VAR_MM]! + unsure - states[at + VAR_MM]!) + between * apartMm * apartMm;
  states[at + COV]! += part * (whole[COV]! * rate - states[at + COV]!) + between * apartMm * apartRate;
  states[at + VAR_RATE]! +=
    part * (whole[VAR_RATE]! * rate * rate - states[at + VAR_RATE]!) + between * apartRate * apartRate;
}
