/** Parameters of wear by distance; rates in mm per 1000 km, lengths in mm. */
export interface WearParameters {
  /** Mean of the log base rate over the vehicles of the group. */
  logRateMean: number;
  /** Standard deviation of the log base rate over the vehicles, including the uncertainty of the mean. */
  logRateSd: number;
  /** Standard deviation of the log base rate of one set of parts about its vehicle's (τs). */
  setSpread: number;
  /** Relative standard deviation of one pad's rate about its axle's (τp). */
  partSpread: number;
  /** Standard deviation of the wander of wear over 1000 km, mm (σw). */
  wander: number;
  /** Log of the inner pad's rate over the outer's (ρ). */
  logInnerOuter: number;
  /** Chance that a part wears fast, as on a sticking slide (ε), and by what factor (φ). */
  fastChance: number;
  fastFactor: number;
  /** Chance that a reading is a gross misreading (η). */
  misreadChance: number;
  /** Chance that a part suddenly lost thickness between two readings, as on a seized slide, and how much, mm. */
  suddenChance: number;
  suddenMm: number;
  suddenSd: number;
  /** Chance per mm worn that the axle's rate changes, as with a new driver, and the relative size of the change. */
  jumpPerMm: number;
  jumpSd: number;
  /** Standard deviation of a new part's thickness about its specification, mm (s₀). */
  startSd: number;
  /** Standard deviation due to the exact placement of the gauge, mm. */
  placementSd: number;
  /** Standard deviation of the error shared by a visit's readings (same person, gauge and zero), mm. */
  visitSd: number;
  /**
   * Chance per 1000 km that a part of an axle starts to drag, the factor on its rate, and the relative spread of the
   * factor.
   */
  dragsPer1000Km: number;
  dragFactor: number;
  dragSpread: number;
  /** Chance that a worn set was replaced between two visits without a record. */
  replacedWornChance: number;
}

/** Parameters of use over time; pace in km a day. */
export interface UsageParameters {
  logPaceMean: number;
  logPaceSd: number;
  /** Standard deviation of one day's distance as a multiple of the daily pace (c, √day). */
  dayToDay: number;
  /** Amplitude of the yearly season, as a share of the pace. */
  season: number;
  /** Permanent changes of pace per year. */
  changesPerYear: number;
  /** Standstills per year of a vehicle in use, and their mean length in days. */
  spellsPerYear: number;
  spellDays: number;
}

export interface Group {
  steeredOrFront: boolean;
  regenerative: boolean;
  /** Shoes and drums, which have their own wear rates. */
  drum?: boolean;
}
