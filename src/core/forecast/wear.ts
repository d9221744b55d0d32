import type { Draw, WearParameters } from './experience.js';
import { stopsOf } from './events.js';
import {
  beginPart,
  COMPONENTS,
  COV,
  DRAGGING,
  filterModel,
  MM,
  PART,
  RATE,
  STATE,
  VAR_MM,
  VAR_RATE,
  WEIGHT,
  type FilterModel,
  type PartTracks,
} from './filter.js';
import { copied, filled, mapped, zeros } from './floats.js';
import { beginNeverSeen, copyFollowing, driveTo, followOn, startFollowing } from './follow.js';
import type { Following } from './following.js';
import type { Assumptions } from './hypothesis.js';
import { normalCdf, type NormalMixture } from './normal.js';

export { filterComponent, misreadRangeMm, type PartTracks, type SetFacts, type Track } from './filter.js';
export type { Assumptions } from './hypothesis.js';

/**
 * Wear of one axle's parts by distance: the posterior of the base rate, of each part's state and of the fitted set,
 * given all readings. Distances are in 1000 km, thickness in mm, rates in mm per 1000 km.
 */

/** Posterior of an axle's parts at one distance. */
export interface WearPosterior {
  parts: number;
  nodes: number;
  /** Weight of each node, a base rate under one hypothesis; they sum to one. */
  weights: Float64Array;
  /** Base rate at each node. */
  rates: Float64Array;
  /** States, ordered by part, then node, then component. */
  states: Float64Array;
  /** Variance of the wander per 1000 km. */
  wanderVariance: number;
  /** Future changes of the rate. */
  changes: { perMm: number; sd: number };
  /** Future dragging of any part of the axle. */
  drags: { per1000Km: number; factor: number };
  /** What the hypotheses assume beyond the records, most likely first; the weights sum to one. */
  hypotheses: { told: Assumptions; weight: number }[];
}

/** Reach of the nodes on either side of the mean, in standard deviations of log b. */
const REACH = 4;
/** Maximum spacing of the nodes of log b; each represents the rates around it. */
const SPACING = 0.12;
/** Nodes with less weight than this are dropped after the last reading. */
const MIN_NODE_WEIGHT = 1e-4;
/** Components with less weight than this are ignored at their node. */
const MIN_COMPONENT_WEIGHT = 1e-5;

/**
 * Posterior of an axle's base rate and of each part's state at distance `now`.
 *
 * @param draws the experience; weights sum to one
 * @param now distance to which the states are moved; at or beyond the last reading
 */
export function wearPosterior(
  parts: readonly PartTracks[],
  draws: readonly Draw<WearParameters>[],
  now: number,
): WearPosterior {
  return posteriorOf(followTo(-Infinity, parts, draws), parts, now);
}

/** An axle tracked up to a distance, from which several alternative records can continue. */
export interface Followed {
  until: number;
  /** Mean of the draws; each draw keeps its own prior of the base rate. */
  parameters: WearParameters;
  following: Following;
}

/** @param until only readings before this distance are processed */
export function followTo(
  until: number,
  parts: readonly PartTracks[],
  draws: readonly Draw<WearParameters>[],
): Followed {
  const { parameters, model, logRates, prior } = priorFrom(draws);
  const following = startFollowing(parts, model, logRates, copied(prior));
  followOn(
    following,
    stopsOf(parts).filter(({ at }) => at < until),
  );
  return { until, parameters, following };
}

/**
 * The posterior after all readings.
 *
 * @param parts one alternative; identical to the others up to the tracked distance
 */
export function posteriorOf(
  { until, parameters, following }: Followed,
  parts: readonly PartTracks[],
  now: number,
): WearPosterior {
  const end = { ...copyFollowing(following), parts };
  followOn(
    end,
    stopsOf(parts).filter(({ at }) => at >= until),
  );
  driveTo(end, Math.max(now, end.here ?? now));
  beginNeverSeen(end);
  return collapse(end, parameters);
}

/** Values that depend on the draws alone, cached because many axles share their draws. */
interface Prior {
  parameters: WearParameters;
  model: FilterModel;
  logRates: Float64Array;
  prior: Float64Array;
}

const priors = new WeakMap<readonly Draw<WearParameters>[], Prior>();

function priorFrom(draws: readonly Draw<WearParameters>[]): Prior {
  const known = priors.get(draws);
  if (known) return known;
  const parameters = meanOf(draws);
  const logRates = placeNodes(draws);
  const made = {
    parameters,
    model: filterModel(parameters),
    logRates,
    prior: priorOf(draws, logRates),
  };
  priors.set(draws, made);
  return made;
}

/** Evenly spaced nodes of log b over the prior's reach. */
function placeNodes(draws: readonly Draw<WearParameters>[]): Float64Array {
  const reach = Math.max(
    ...draws.map(({ parameters: { logRateMean, logRateSd } }) => logRateMean + REACH * logRateSd),
  );
  const from = Math.min(
    ...draws.map(({ parameters: { logRateMean, logRateSd } }) => logRateMean - REACH * logRateSd),
  );
  const narrowest = Math.min(...draws.map(({ parameters: { logRateSd } }) => logRateSd));
  const spacing = Math.min(SPACING, narrowest / 2);
  const count = Math.max(2, Math.ceil((reach - from) / spacing) + 1);
  return filled(count, (node) => from + (node * (reach - from)) / (count - 1));
}

/** Prior weight of each node, summed over draws. */
function priorOf(draws: readonly Draw<WearParameters>[], logRates: Float64Array): Float64Array {
  const prior = zeros(logRates.length);
  for (const { weight, parameters } of draws) {
    const { logRateMean, logRateSd } = parameters;
    const own = mapped(logRates, (logRate) => Math.exp(-0.5 * ((logRate - logRateMean) / logRateSd) ** 2));
    const total = own.reduce((sum, each) => sum + each, 0);
    own.forEach((each, node) => (prior[node]! += (weight * each) / total));
  }
  return prior;
}

/** Mean parameters of the draws; the uncertainty of the filter's parameters matters little beside that of the rate. */
function meanOf(draws: readonly Draw<WearParameters>[]): WearParameters {
  const mean = { ...draws[0]!.parameters };
  let total = 0;
  for (const { weight } of draws) total += weight;
  for (const key of Object.keys(mean) as (keyof WearParameters)[]) {
    let sum = 0;
    for (const { weight, parameters } of draws) sum += weight * parameters[key];
    mean[key] = sum / total;
  }
  return mean;
}

/** Puts all nodes of all hypotheses side by side, without negligible ones. */
function collapse({ rates, parts, hypotheses }: Following, parameters: WearParameters): WearPosterior {
  const { wander, jumpPerMm, jumpSd, dragsPer1000Km, dragFactor } = parameters;
  const lanes = rates.length;
  const kept = hypotheses.map(({ weights }) =>
    Array.from(rates.keys()).filter((node) => weights[node]! > MIN_NODE_WEIGHT),
  );
  const nodes = kept.reduce((sum, { length }) => sum + length, 0);
  const weights = zeros(nodes);
  const base = zeros(nodes);
  const states = zeros(parts.length * nodes * PART);
  let index = 0;
  let total = 0;
  hypotheses.forEach((hypothesis, which) => {
    for (const node of kept[which]!) {
      total += weights[index] = hypothesis.weights[node]!;
      base[index] = rates[node]!;
      for (let part = 0; part < parts.length; part++) {
        const from = (part * lanes + node) * PART;
        const to = (part * nodes + index) * PART;
        for (let at = 0; at < PART; at++) states[to + at] = hypothesis.states[from + at]!;
      }
      index += 1;
    }
  });
  return {
    parts: parts.length,
    nodes,
    weights: mapped(weights, (weight) => weight / total),
    rates: base,
    states,
    wanderVariance: wander * wander,
    changes: { perMm: jumpPerMm, sd: jumpSd },
    drags: { per1000Km: dragsPer1000Km, factor: dragFactor },
    hypotheses: hypotheses
      .map(({ told, weights }) => ({ told, weight: weights.reduce((sum, weight) => sum + weight, 0) }))
      .sort((a, b) => b.weight - a.weight),
  };
}

/**
 * The same axle with new parts: keeps the belief about the base rate and resets the parts.
 *
 * @param startMm thickness of a new part
 */
export function freshParts(
  posterior: WearPosterior,
  ratioShares: readonly number[],
  draws: readonly Draw<WearParameters>[],
  startMm: number,
): WearPosterior {
  const { rates, nodes } = posterior;
  const { model } = priorFrom(draws);
  const states = zeros(nodes * ratioShares.length * PART);
  ratioShares.forEach((ratioShare, part) => {
    const ratio = Math.exp(ratioShare * model.logInnerOuter);
    rates.forEach((base, node) => {
      const rate = base * ratio;
      const at = (part * nodes + node) * PART;
      const variance = rate * rate * (model.partVariance + model.setSpread ** 2);
      beginPart(states, at, model, rate, variance, startMm, model.startVariance);
    });
  });
  return { ...posterior, parts: ratioShares.length, states };
}

/** Beyond this many standard deviations, being above or below the limit is certain. */
const CERTAIN_SDS = 8.5;
/** Nodes with less remaining chance than this are skipped. */
const MIN_CHANCE = 1e-12;

/**
 * Multiplies `product` by the chance, at each node, that a part is still above its limit after a further `ahead`.
 *
 * @param product one value per node, starting at index `first`
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
    if (product[first + node]! < MIN_CHANCE) continue;
    let chance = 0;
    for (let from = at; from < at + PART; from += STATE) {
      const weight = states[from + WEIGHT]!;
      if (weight < MIN_COMPONENT_WEIGHT) continue;
      const above = states[from + MM]! - ahead * states[from + RATE]! - limitMm;
      const variance = thicknessVariance(states, from, ahead, wanderVariance);
      if (above * above < CERTAIN_SDS * CERTAIN_SDS * variance) {
        chance += weight * normalCdf(above / sdOf(variance));
      } else if (above > 0) chance += weight;
    }
    product[first + node]! *= chance;
  }
}

type Quantity = 'thickness' | 'rate';
const HERE: readonly number[] = [0];

/** After merging by moments, rounding may leave a variance slightly negative. */
const sdOf = (variance: number): number => (variance > 0 ? Math.sqrt(variance) : 1e-6);

/**
 * Distribution of a part's rate, or of its thickness further on: a mixture over nodes and components with weight.
 *
 * @param aheads equally likely distances, 1000 km, at which to evaluate the thickness
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
    weights: zeros(count),
    means: zeros(count),
    sds: zeros(count),
  };
  let index = 0;
  for (const ahead of aheads) {
    for (let at = 0, from = part * nodes * PART; at < nodes * COMPONENTS; at++, from += STATE) {
      if (states[from + WEIGHT]! <= 0) continue;
      mixture.weights[index] = (weights[(at / COMPONENTS) | 0]! * states[from + WEIGHT]!) / aheads.length;
      if (quantity === 'rate') {
        mixture.means[index] = states[from + RATE]!;
        mixture.sds[index] = sdOf(states[from + VAR_RATE]!);
      } else {
        mixture.means[index] = states[from + MM]! - ahead * states[from + RATE]!;
        mixture.sds[index] = sdOf(thicknessVariance(states, from, ahead, wanderVariance));
      }
      index += 1;
    }
  }
  return mixture;
}

/** Number of a part's components with weight, over all nodes. */
function countComponents({ nodes, states }: WearPosterior, part: number): number {
  let count = 0;
  for (let from = part * nodes * PART; from < (part + 1) * nodes * PART; from += STATE) {
    if (states[from + WEIGHT]! > 0) count += 1;
  }
  return count;
}

/** Chance that a part drags. */
export function draggingChance({ nodes, states, weights }: WearPosterior, part: number): number {
  let sum = 0;
  for (let node = 0; node < nodes; node++) {
    sum += weights[node]! * states[(part * nodes + node) * PART + DRAGGING + WEIGHT]!;
  }
  return sum;
}

/** Total weight of the hypotheses for which `holds` is true. */
export const chanceOf = ({ hypotheses }: WearPosterior, holds: (told: Assumptions) => boolean): number =>
  hypotheses.reduce((sum, { told, weight }) => sum + (holds(told) ? weight : 0), 0);

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

/** Chance that a part is below a limit after a further `ahead`. */
export function chanceUnder(posterior: WearPosterior, part: number, limitMm: number, ahead: number): number {
  const { nodes, weights } = posterior;
  const above = zeros(nodes).fill(1);
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
