import { DRAWS, netScore, USAGE_DRAWS } from './net.js';
import { along, padBeliefs, rotorBeliefs, USAGE_BELIEFS, type WearBeliefs } from './starting.js';

/**
 * What is known of a group of vehicles before one of them is looked at: the parameters of the wear and usage
 * models, not as one value each but as a handful of weighted draws that carry their own uncertainty into every
 * forecast. See docs/forecast.md.
 */

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

/** A larger share of fast parts than this is no share of odd ones any more. */
export const LIKELIEST_FAST = 0.3;

export interface Draw<Parameters> {
  weight: number;
  parameters: Parameters;
}

/** The experience one axle's forecast draws on. */
export interface Experience {
  /** Its stable name, `starting-values` where no fit stands behind it. */
  name: string;
  /** In plain words, to end the sentence "2 readings on this axle, and …". */
  words: string;
  pads: Draw<WearParameters>[];
  rotors: Draw<WearParameters>[];
  usage: Draw<UsageParameters>[];
  /** Correlation of the log rate of the pads with the log pace over the vehicles of the group. */
  correlation: number;
}

export interface Group {
  steeredOrFront: boolean;
  regenerative: boolean;
  /** Shoes and drums, which wear at rates of their own. */
  drum?: boolean;
}

function spread<Parameters>(
  make: (score: (dimension: number) => number) => Parameters,
  draws = DRAWS,
): Draw<Parameters>[] {
  return Array.from({ length: draws }, (_, index) => ({
    weight: 1 / draws,
    parameters: make((dimension) => netScore(index, dimension, draws)),
  }));
}

/** The draws of a class that nothing is known of; what is unknown of its mean is added to the spread. */
function startingWear({ learned, given }: WearBeliefs): Draw<WearParameters>[] {
  return spread((z) => ({
    ...given,
    logRateSd: Math.hypot(along(learned.logRateSd, z(0)), learned.logRateMean.sd),
    partSpread: along(learned.partSpread, z(1)),
    wander: along(learned.wander, z(2)),
    logInnerOuter: along(learned.logInnerOuter, z(3)),
    fastChance: Math.min(LIKELIEST_FAST, along(learned.fastChance, z(4))),
    fastFactor: along(learned.fastFactor, z(5)),
    visitSd: along(learned.visitSd, z(6)),
  }));
}

const STARTING_USAGE: Draw<UsageParameters>[] = spread((z) => {
  const { learned, given } = USAGE_BELIEFS;
  return {
    ...given,
    logPaceSd: Math.hypot(along(learned.logPaceSd, z(0)), learned.logPaceMean.sd),
    dayToDay: along(learned.dayToDay, z(1)),
    season: along(learned.season, z(2)),
    changesPerYear: along(learned.changesPerYear, z(3)),
    spellsPerYear: along(learned.spellsPerYear, z(4)),
  };
}, USAGE_DRAWS);

const startingExperiences = new Map<string, Experience>();

/** The experience of a shop without history: the starting values averaged over their spread. */
export function startingExperience(group: Group): Experience {
  const key = `${group.steeredOrFront} ${group.regenerative}`;
  const known = startingExperiences.get(key);
  if (known) return known;
  const made: Experience = {
    name: 'starting-values',
    words:
      'starting values typical of the trade, since nothing has been learned yet from other vehicles here',
    pads: startingWear(padBeliefs(group)),
    rotors: startingWear(rotorBeliefs(group)),
    usage: STARTING_USAGE,
    correlation: 0,
  };
  startingExperiences.set(key, made);
  return made;
}
