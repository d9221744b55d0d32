/** Parameters of wear by distance; rates in mm per 1000 km, lengths in mm. */
export interface WearParameters {
  /** Mean of the log base rate over the vehicles of the group. */
  logRateMean: number;
  /** Standard deviation of the log base rate over the vehicles, with what is unknown of the mean added. */
  logRateSd: number;
  /** Relative standard deviation of one pad's rate about its axle's (τp). */
  partSpread: number;
  /** Standard deviation of the wander of wear over 1000 km, mm (σw). */
  wander: number;
  /** Log of the inner pad's rate over the outer's (ρ). */
  logInnerOuter: number;
  /** Chance that a part wears fast, as a pad on a sticking slide does (ε), and how many times as fast (φ). */
  fastChance: number;
  fastFactor: number;
  /** Chance that a reading is a gross misreading (η). */
  misreadChance: number;
  /** Chance that between two readings a part lost extra thickness at once, as on a slide that seized, and how much, mm. */
  suddenChance: number;
  suddenMm: number;
  suddenSd: number;
  /** Chance per mm worn that the rate of the part changes, as with another driver or route, and its relative size. */
  jumpPerMm: number;
  jumpSd: number;
  /** Standard deviation of a new part's thickness about its specification, mm (s₀). */
  startSd: number;
  /** Standard deviation from where exactly the gauge was put, mm. */
  placementSd: number;
  /** Standard deviation of the error that all readings of a visit share: one person, one gauge, one zero; mm. */
  visitSd: number;
  /** Chance per 1000 km that a part of an axle begins to drag, how many times as fast it then wears, and its relative spread. */
  dragsPer1000Km: number;
  dragFactor: number;
  dragSpread: number;
  /** Chance that a worn set was replaced between two visits and nobody wrote it down. */
  replacedWornChance: number;
}

/** Parameters of use by calendar; pace in km a day. */
export interface UsageParameters {
  logPaceMean: number;
  logPaceSd: number;
  /** Standard deviation of distance over one day, as a multiple of the daily pace (c, √day). */
  dayToDay: number;
  /** Amplitude of the yearly season, as a share of the pace. */
  season: number;
  /** How often a year the pace changes for good. */
  changesPerYear: number;
  /** How often a year a vehicle in use begins to stand still, and for how many days on average. */
  spellsPerYear: number;
  spellDays: number;
}

export interface Group {
  steeredOrFront: boolean;
  regenerative: boolean;
  /** Shoes and drums, which wear at rates of their own. */
  drum?: boolean;
}
