import type { FilterModel, PartTracks, Track } from './filter.js';

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

/** The state of an axle, updated stop by stop. */
export interface Following {
  parts: readonly PartTracks[];
  model: FilterModel;
  logRates: Float64Array;
  rates: Float64Array;
  /** Relative variance of the rates within a node's cell. */
  cellVariance: number;
  nodesStay: boolean;
  hypotheses: Hypothesis[];
  /** Log likelihood of all readings so far. */
  logLikelihood: number;
  /** Current life of each part; null before it begins. */
  lives: (Track | null)[];
  /** Whether each part is still unmeasured in its current life. */
  unmeasured: boolean[];
  here: number | null;
  /** Where the axle's parts were last measured or fitted. */
  lastSeen: number | null;
}

/** A hypothesis drops nodes with less weight than this. */
export const MIN_NODE_WEIGHT = 1e-5;
