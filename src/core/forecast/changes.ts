import { COMPONENTS, COV, MM, PART, RATE, STATE, VAR_MM, VAR_RATE, WEIGHT } from './filter.js';
import { filled, zeros } from './floats.js';
import type { Following } from './following.js';
import { MIN_NODE_WEIGHT, type Hypothesis } from './hypothesis.js';
import { decay } from './normal.js';

/**
 * Changes of an axle's base rate b, for example after a change of driver or route. The rate changes with a constant
 * chance per mm worn; log b is then redrawn around its current value. All parts of the axle change together: the nodes
 * of log b exchange weight and states. A new set also draws a rate of its own.
 */

/** Some weight always stays, since the arriving states are the mean of those that stay. */
const MAX_CHANCE = 0.999;

/** A step in distance. A change of rate happens half way. */
interface Step {
  /** 1000 km. */
  length: number;
  wanderVariance: number;
  /** Mean base rate before the step, mm per 1000 km. */
  rate: number;
  /** Weight that stays at each node, and weight that arrives there by a change of rate from all nodes. */
  staying: Float64Array;
  arriving: Float64Array;
  /** 1 / weight of each node after the step; 0 if the node has no weight. */
  scale: Float64Array;
}

export function driveWithChanges(following: Following, hypothesis: Hypothesis, length: number): void {
  const { rates, parts, lives } = following;
  const whole = zeros(STATE);
  const step = splitWeights(following, hypothesis, length);
  if (!step) return;
  parts.forEach((_, part) => {
    if (!lives[part]) return;
    const first = part * rates.length * PART;
    for (let component = 0; component < COMPONENTS; component++) {
      const at = first + component * STATE;
      writeMeanHalfWay(hypothesis.states, at, rates, step, whole);
      driveComponent(hypothesis.states, at, rates, step, whole);
    }
  });
}

/** Splits each node's weight into what stays and what arrives by a change, and sets the node's weight to their sum. */
function splitWeights(following: Following, hypothesis: Hypothesis, length: number): Step | null {
  const { logRates, rates, model } = following;
  const { weights, origins } = hypothesis;
  const { jumpPerMm, jumpSd, wanderVariance } = model;
  const nodes = rates.length;
  let total = 0;
  let mean = 0;
  let square = 0;
  let rate = 0;
  for (let node = 0; node < nodes; node++) {
    const weight = weights[node]!;
    const logRate = logRates[node]!;
    total += weight;
    mean += weight * logRate;
    square += weight * logRate * logRate;
    rate += weight * rates[node]!;
  }
  if (!(total > 0)) return null;
  mean /= total;
  rate /= total;
  const precision = 0.5 / (Math.max(0, square / total - mean * mean) + jumpSd * jumpSd);
  const chance = Math.min(MAX_CHANCE, 1 - Math.exp(-jumpPerMm * rate * length));
  const staying = zeros(nodes);
  const arriving = zeros(nodes);
  let reached = 0;
  for (let node = 0; node < nodes; node++) {
    const apart = logRates[node]! - mean;
    arriving[node] = decay(precision * apart * apart);
    reached += arriving[node]!;
  }
  // The nodes cover only the rates that the readings support, so the share of changes that lands outside them is lost.
  const spacing = nodes > 1 ? logRates[1]! - logRates[0]! : 1;
  reached = Math.max(reached, Math.sqrt(Math.PI / precision) / spacing);
  const lightest = following.nodesStay ? 0 : MIN_NODE_WEIGHT;
  const scale = zeros(nodes);
  for (let node = 0; node < nodes; node++) {
    staying[node] = (1 - chance) * weights[node]!;
    arriving[node]! *= (chance * total) / reached;
    let weight = staying[node]! + arriving[node]!;
    if (weight < lightest) weight = staying[node] = arriving[node] = 0;
    weights[node] = weight;
    scale[node] = weight > 0 ? 1 / weight : 0;
  }
  if (origins) moveOrigins(origins, nodes, total, 1 - chance, arriving);
  return { length, wanderVariance, rate, staying, arriving, scale };
}

/** Moves the origins with the weights: what arrives at a node comes from all nodes in proportion to their weight. */
function moveOrigins(
  origins: Float64Array,
  nodes: number,
  total: number,
  staying: number,
  arriving: Float64Array,
): void {
  const from = zeros(nodes);
  for (let at = 0; at < origins.length; at++) from[at % nodes]! += origins[at]!;
  for (let at = 0; at < origins.length; at++) {
    origins[at] = staying * origins[at]! + (arriving[(at / nodes) | 0]! * from[at % nodes]!) / total;
  }
}

/**
 * Moves one component of a part over the step. Merges the state that stays at each node with the one that arrives half
 * way: `whole`, the mean state over all nodes, at that node's rate.
 */
function driveComponent(
  states: Float64Array,
  first: number,
  rates: Float64Array,
  { length, wanderVariance, rate, staying, arriving, scale }: Step,
  whole: Float64Array,
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
    if (scale[node] === 0) continue;
    // A node without weight may hold a state that the readings ruled out.
    const stays = staying[node]! > 0 ? staying[node]! * states[at + WEIGHT]! : 0;
    const arrives = arriving[node]! * weight;
    const share = arrives > 0 ? arrives / (stays + arrives) : 0;
    const between = share * (1 - share);
    // No change: the node's own state moves over the whole step.
    const ownRate = states[at + RATE]!;
    const ownVarRate = states[at + VAR_RATE]!;
    const ownMm = states[at + MM]! - length * ownRate;
    const ownVarMm =
      states[at + VAR_MM]! + length * (length * ownVarRate - 2 * states[at + COV]! + wanderVariance);
    const ownCov = states[at + COV]! - length * ownVarRate;
    // A change: the arriving state moves over the second half. Its variance allows for a change anywhere within the
    // step.
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

/** Writes to `whole` the mean half way of the states that do not change, with the rate relative to the node's. */
function writeMeanHalfWay(
  states: Float64Array,
  first: number,
  rates: Float64Array,
  { length, wanderVariance, staying }: Step,
  whole: Float64Array,
): void {
  const half = length / 2;
  // Use differences from one node's thickness, so that the squares keep their precision.
  const about = states[first + MM]!;
  let total = 0;
  let weight = 0;
  let mm = 0;
  let relative = 0;
  let mmSquare = 0;
  let product = 0;
  let relativeSquare = 0;
  for (let node = 0, at = first; node < rates.length; node++, at += PART) {
    const inverse = 1 / rates[node]!;
    const stays = staying[node]!;
    if (!(stays > 0)) continue;
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

/** Reach of a new set's rate on either side, in standard deviations. */
const SET_REACH = 4;

/**
 * Spreads the weights for a new set, which wears at a rate of its own about its vehicle's. In a fit, whose nodes stay,
 * a node is the rate of the first set, so this does nothing.
 */
export function drawSetRate(
  { model: { setSpread }, logRates, nodesStay }: Following,
  hypothesis: Hypothesis,
): void {
  const nodes = logRates.length;
  if (setSpread === 0 || nodesStay || nodes === 1) return;
  const spacing = logRates[1]! - logRates[0]!;
  const reach = Math.min(nodes - 1, Math.ceil((SET_REACH * setSpread) / spacing));
  const kernel = filled(reach + 1, (apart) => Math.exp(-0.5 * ((apart * spacing) / setSpread) ** 2));
  const spread = zeros(nodes);
  for (let from = 0; from < nodes; from++) {
    const weight = hypothesis.weights[from]!;
    if (weight === 0) continue;
    const first = Math.max(0, from - reach);
    const last = Math.min(nodes - 1, from + reach);
    let total = 0;
    for (let to = first; to <= last; to++) total += kernel[Math.abs(to - from)]!;
    for (let to = first; to <= last; to++) spread[to]! += (weight * kernel[Math.abs(to - from)]!) / total;
  }
  hypothesis.weights = spread;
}
