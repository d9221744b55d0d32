import type { FilterModel, PartTracks, Track } from './filter.js';

/** How a part's set came onto the axle, by one hypothesis. */
export type SetKind = 'recorded' | 'original' | 'unknown' | 'unseen';

/** What a hypothesis says beside the records. */
export interface Told {
  /** By part. */
  sets: SetKind[];
  /** Where new parts were fitted unseen, 1000 km; null where none were since the last recorded set. */
  unseen: { from: number; to: number; parts: number[] } | null;
  /** The parts were new at another thickness than specified. */
  otherNew: boolean;
}

export interface Hypothesis {
  told: Told;
  /** Weight of each node; over all hypotheses they sum to one. */
  weights: Float64Array;
  /** Part by part, in each node by node. */
  states: Float64Array;
  /** Where they are asked for: for each node, its weight by the node at the start. */
  origins: Float64Array | null;
}

/** An axle followed along the road. */
export interface Following {
  parts: readonly PartTracks[];
  model: FilterModel;
  logRates: Float64Array;
  rates: Float64Array;
  /** Relative variance of the rates that a node stands for. */
  cellVariance: number;
  nodesStay: boolean;
  hypotheses: Hypothesis[];
  /** Log likelihood of all readings so far. */
  logLikelihood: number;
  /** The present life of each part; null before it begins. */
  lives: (Track | null)[];
  /** Parts not measured since their present life began. */
  unmeasured: boolean[];
  here: number | null;
  /** Where parts of the axle were last measured or fitted. */
  lastSeen: number | null;
}

/** A node of less weight than this by one hypothesis is not followed any further by it. */
export const LIGHTEST_NODE = 1e-5;
