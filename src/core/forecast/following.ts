import type { FilterModel, PartTracks, Track } from './filter.js';
import type { Hypothesis } from './hypothesis.js';

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
