import type { Draw, WearParameters } from './experience.js';
import { stopsOf } from './events.js';
import {
  addByMoments,
  beginPart,
  COMPONENTS,
  COV,
  filterModel,
  MM,
  PART,
  RATE,
  STATE,
  VAR_MM,
  VAR_RATE,
  WEIGHT,
  type PartTracks,
} from './filter.js';
import { copyOf, driveTo, followOn, modelsOf, startFollowing, type Following, type Told } from './follow.js';
import { normalCdf, type NormalMixture } from './normal.js';

export { filterComponent, type PartTracks, type SetFacts, type Track } from './filter.js';
export type { Told } from './follow.js';

/**
 * Wear of the parts of one axle by distance: the posterior of its base rate, of each part's state and of which set is
 * fitted, from all that was read of them. Distances are in 1000 km, thickness in mm, rates in mm per 1000 km.
 */

/** What is known of an axle's parts, at one point of the road. */
export interface WearPosterior {
  parts: number;
  nodes: number;
  /** Weight of each node, which is a base rate by one hypothesis; they sum to one. */
  weights: Float64Array;
  /** Base rate at each node. */
  rates: Float64Array;
  /** States: part by part, in each node by node, then component. */
  states: Float64Array;
  /** Variance of the wander per 1000 km, averaged over the draws. */
  wanderVariance: number;
  /** How the rate may yet change, averaged over the draws. */
  changes: { perMm: number; sd: number };
  /** How parts may yet begin to drag, of the whole axle, averaged over the draws. */
  drags: { per1000Km: number; factor: number };
  /** What the hypotheses say beside the records, the likeliest first; the weights sum to one. */
  hypotheses: { told: Told; weight: number }[];
}

/** Standard deviations of log b that the nodes reach to either side. */
const REACH = 4;
/** Nodes of log b lie so far apart; each stands for all rates about it. */
const SPACING = 0.12;
/** Nodes of less weight than this are dropped once all readings are in. */
const LIGHTEST_NODE = 1e-5;
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
  return posteriorOf(followTo(-Infinity, parts, draws), parts, now);
}

/** An axle followed up to some distance, so that what comes from there on can be taken in one way and another. */
export interface Followed {
  until: number;
  draws: readonly Draw<WearParameters>[];
  following: Following;
}

/** @param until no reading at or beyond it is taken in yet */
export function followTo(
  until: number,
  parts: readonly PartTracks[],
  draws: readonly Draw<WearParameters>[],
): Followed {
  const logRates = placeNodes(draws);
  const following = startFollowing(parts, modelsOf(draws), logRates, priorOf(draws, logRates));
  followOn(
    following,
    stopsOf(parts).filter(({ at }) => at < until),
  );
  return { until, draws, following };
}

/**
 * The posterior once all readings are taken in.
 *
 * @param parts one of the ways that the road may go on; the same as the others up to where they were followed
 */
export function posteriorOf({ until, draws, following }: Followed, parts: readonly PartTracks[], now: number): WearPosterior {
  const end = { ...copyOf(following), parts };
  followOn(
    end,
    stopsOf(parts).filter(({ at }) => at >= until),
  );
  driveTo(end, Math.max(now, end.here ?? now));
  return collapse(end, draws);
}

/** Evenly spaced nodes of log b over all of the prior's reach. */
function placeNodes(draws: readonly Draw<WearParameters>[]): Float64Array {
  const reach = Math.max(...draws.map(({ parameters: { logRateMean, logRateSd } }) => logRateMean + REACH * logRateSd));
  const from = Math.min(...draws.map(({ parameters: { logRateMean, logRateSd } }) => logRateMean - REACH * logRateSd));
  const narrowest = Math.min(...draws.map(({ parameters: { logRateSd } }) => logRateSd));
  const spacing = Math.min(SPACING, narrowest / 2);
  const count = Math.max(2, Math.ceil((reach - from) / spacing) + 1);
  return Float64Array.from({ length: count }, (_, node) => from + (node * (reach - from)) / (count - 1));
}

/** Weight of each node of each draw before anything is read. */
function priorOf(draws: readonly Draw<WearParameters>[], logRates: Float64Array): Float64Array {
  const prior = new Float64Array(draws.length * logRates.length);
  draws.forEach(({ weight, parameters: { logRateMean, logRateSd } }, draw) => {
    const own = logRates.map((logRate) => Math.exp(-0.5 * ((logRate - logRateMean) / logRateSd) ** 2));
    const total = own.reduce((sum, each) => sum + each, 0);
    prior.set(
      own.map((each) => (weight * each) / total),
      draw * logRates.length,
    );
  });
  return prior;
}

/** The draws' mean parameters. */
function centre(draws: readonly Draw<WearParameters>[]): WearParameters {
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

/** Merges the draws at each node by moments: what they differ in given b is small beside the spread over b. */
function collapse(following: Following, draws: readonly Draw<WearParameters>[]): WearPosterior {
  const { rates, parts } = following;
  const nodes = rates.length;
  const kept = following.hypotheses.flatMap((hypothesis) => {
    const { weights } = hypothesis;
    return Array.from(rates, (_, node) => {
      let weight = 0;
      for (let lane = node; lane < weights.length; lane += nodes) weight += weights[lane]!;
      return { hypothesis, node, weight };
    }).filter(({ weight }) => weight > LIGHTEST_NODE);
  });
  const total = kept.reduce((sum, { weight }) => sum + weight, 0);
  const states = new Float64Array(parts.length * kept.length * PART);
  parts.forEach((_, part) => {
    kept.forEach(({ hypothesis, node, weight }, index) => {
      const target = (part * kept.length + index) * PART;
      mergeDraws(hypothesis, part, node, nodes, weight, states, target);
    });
  });
  return {
    parts: parts.length,
    nodes: kept.length,
    weights: Float64Array.from(kept, ({ weight }) => weight / total),
    rates: Float64Array.from(kept, ({ node }) => rates[node]!),
    states,
    ...outlookOf(following, draws),
    hypotheses: following.hypotheses
      .map(({ told, weights }) => ({ told, weight: weights.reduce((sum, weight) => sum + weight, 0) / total }))
      .sort((a, b) => b.weight - a.weight),
  };
}

/** What the draws say of the way ahead, each by its weight now. */
function outlookOf(
  { hypotheses, rates }: Following,
  draws: readonly Draw<WearParameters>[],
): Pick<WearPosterior, 'wanderVariance' | 'changes' | 'drags'> {
  const nodes = rates.length;
  const shares = draws.map((_, draw) =>
    hypotheses.reduce(
      (sum, { weights }) =>
        sum + weights.subarray(draw * nodes, (draw + 1) * nodes).reduce((own, weight) => own + weight, 0),
      0,
    ),
  );
  const total = shares.reduce((sum, share) => sum + share, 0);
  const mean = (value: (parameters: WearParameters) => number): number =>
    draws.reduce((sum, { parameters }, draw) => sum + (shares[draw]! / total) * value(parameters), 0);
  return {
    wanderVariance: mean(({ wander }) => wander ** 2),
    changes: { perMm: mean(({ jumpPerMm }) => jumpPerMm), sd: Math.sqrt(mean(({ jumpSd }) => jumpSd ** 2)) },
    drags: {
      per1000Km: mean(({ dragsPer1000Km }) => dragsPer1000Km),
      factor: mean(({ dragFactor }) => dragFactor),
    },
  };
}

/** Moments of a part's components over the draws at one node of a hypothesis. */
function mergeDraws(
  { weights, states: all }: Following['hypotheses'][number],
  part: number,
  node: number,
  nodes: number,
  total: number,
  states: Float64Array,
  target: number,
): void {
  const one = new Float64Array(STATE);
  for (let component = 0; component < PART; component += STATE) {
    for (let lane = node; lane < weights.length; lane += nodes) {
      const from = (part * weights.length + lane) * PART + component;
      if (!(weights[lane]! > 0)) continue;
      one.set(all.subarray(from, from + STATE));
      one[WEIGHT]! *= weights[lane]! / total;
      addByMoments(states, target + component, one, 0);
    }
    // A component without weight keeps a harmless state.
    if (!(states[target + component + WEIGHT]! > 0)) {
      states[target + component + WEIGHT] = 0;
      states[target + component + VAR_MM] = 1;
      states[target + component + VAR_RATE] = 1;
    }
  }
}

/**
 * The same axle with a new set of parts fitted: the belief about the base rate is kept, the parts start anew.
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
  const model = filterModel(centre(draws));
  const states = new Float64Array(nodes * ratioShares.length * PART);
  ratioShares.forEach((ratioShare, part) => {
    const ratio = Math.exp(ratioShare * model.logInnerOuter);
    rates.forEach((base, node) => {
      const rate = base * ratio;
      const at = (part * nodes + node) * PART;
      beginPart(states, at, model, rate, rate * rate * model.partVariance, startMm, model.startVariance);
    });
  });
  return { ...posterior, parts: ratioShares.length, states };
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
