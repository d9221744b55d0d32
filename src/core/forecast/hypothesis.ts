import { addByMoments, PART, STATE, WEIGHT } from './filter.js';
import { copied } from './floats.js';

/** A hypothesis about the fitted set, and how hypotheses are copied, weighted and merged. */

/** Origin of a part's current set, under one hypothesis. */
export type SetKind = 'recorded' | 'original' | 'unknown' | 'unseen';

/** What a hypothesis assumes beyond the records. */
export interface Assumptions {
  /** By part. */
  sets: SetKind[];
  /** Unrecorded replacement between two distances, 1000 km; null if none since the last recorded set. */
  unseen: { from: number; to: number; parts: number[] } | null;
  /** The parts were new at another thickness than specified. */
  otherNew: boolean;
  /** Distance of the visit whose readings were copied from the one before, 1000 km; null if none of the present set. */
  copiedAt: number | null;
}

export interface Hypothesis {
  told: Assumptions;
  /** Weight of each node; these sum to one over all hypotheses. */
  weights: Float64Array;
  /** Ordered by part, then node, then component. */
  states: Float64Array;
  /** Weight of each node by initial node, node-major; null if not tracked. */
  origins: Float64Array | null;
}

/** A hypothesis drops nodes with less weight than this. */
export const MIN_NODE_WEIGHT = 1e-5;

export const copyHypothesis = ({ told, weights, states, origins }: Hypothesis): Hypothesis => ({
  told,
  weights: copied(weights),
  states: copied(states),
  origins: origins && copied(origins),
});

export function scale({ weights, origins }: Hypothesis, by: number): void {
  for (let lane = 0; lane < weights.length; lane++) weights[lane]! *= by;
  if (origins) for (let index = 0; index < origins.length; index++) origins[index]! *= by;
}

/** Multiplies the weight of each node. */
export function multiply({ weights, origins }: Hypothesis, by: Float64Array): void {
  for (let lane = 0; lane < weights.length; lane++) weights[lane]! *= by[lane]!;
  if (!origins) return;
  const nodes = weights.length;
  for (let index = 0; index < origins.length; index++) origins[index]! *= by[(index / nodes) | 0]!;
}

/** Merges a hypothesis into another, node by node. */
export function mergeInto(into: Hypothesis, from: Hypothesis): void {
  const lanes = into.weights.length;
  for (let lane = 0; lane < lanes; lane++) {
    const total = into.weights[lane]! + from.weights[lane]!;
    if (from.weights[lane] === 0) continue;
    const share = from.weights[lane]! / total;
    for (let at = lane * PART; at < into.states.length; at += lanes * PART) {
      for (let component = at; component < at + PART; component += STATE) {
        into.states[component + WEIGHT]! *= 1 - share;
        from.states[component + WEIGHT]! *= share;
        addByMoments(into.states, component, from.states, component);
      }
    }
    into.weights[lane] = total;
  }
  from.origins?.forEach((weight, index) => (into.origins![index]! += weight));
}
