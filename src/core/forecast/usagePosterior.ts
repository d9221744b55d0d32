import type { YearlyUse } from './seasons.js';

/** Posterior of a vehicle's use on the day of its last odometer reading. */
export interface UsagePosterior {
  /** Daily pace in use, km a day, ascending. */
  paces: Float64Array;
  /** Each pace represents the paces within half this log step, but at most half way to the next node. */
  logStep: number;
  /** Weight of each pace, summed over the ways; sums to one. */
  weights: Float64Array;
  /** The same weights, split by what the vehicle is doing. */
  ways: UsageWay[];
  /** Standard deviation of one day's distance over the pace, √day. */
  dayToDay: number;
  /** Amplitude of a season of unknown phase, as a share of the pace. */
  season: number;
  /** Standstills per year of a vehicle in use, and their mean length in days. */
  spellsPerYear: number;
  spellDays: number;
}

/** One possible state of the vehicle on that day. */
export interface UsageWay {
  /** Weight of each pace, not normalised. */
  weights: Float64Array;
  isStanding: boolean;
  /** Its seasonal use; `null` if it is used all year. */
  year: YearlyUse | null;
  /** Day from which the forecast counts. */
  fromDay: number;
}
