import type { YearlyUse } from './seasons.js';

/** What is known of a vehicle's use on the day of its last odometer reading. */
export interface UsagePosterior {
  /** Daily pace in use, km a day, rising. */
  paces: Float64Array;
  /** Each pace stands for paces within half this step of the logarithm, or within half the way to the next. */
  logStep: number;
  /** Weight of each pace over all ways; sums to one. */
  weights: Float64Array;
  /** The same weights by what the vehicle is doing. */
  ways: UsageWay[];
  /** Standard deviation of one day's distance over the pace, √day. */
  dayToDay: number;
  /** Amplitude of a season of unknown phase, as a share of the pace. */
  season: number;
  /** How often a year a vehicle in use begins to stand still, and for how many days on average. */
  spellsPerYear: number;
  spellDays: number;
}

/** One way in which the vehicle may be in use on that day. */
export interface UsageWay {
  /** Weight of each pace, not normalised. */
  weights: Float64Array;
  isStanding: boolean;
  /** Its year where it is used in one season only; `null` where it is used all year. */
  year: YearlyUse | null;
  /** The day that the forecast counts from. */
  fromDay: number;
}
