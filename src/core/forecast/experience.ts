import { normalQuantile } from './normal.js';

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
  /** Standard deviation of a new part's thickness about its specification, mm (s₀). */
  startSd: number;
  /** Standard deviation from where exactly the gauge was put, mm. */
  placementSd: number;
  /** The range over which a gross misreading may fall, mm. */
  misreadRange: number;
}

/** Parameters of use by calendar; pace in km a day. */
export interface UsageParameters {
  logPaceMean: number;
  logPaceSd: number;
  /** Standard deviation of distance over one day, as a multiple of the daily pace (c, √day). */
  dayToDay: number;
  /** Amplitude of the yearly season, as a share of the pace. */
  season: number;
  /** Chance a year that the vehicle's use changes altogether. */
  changesPerYear: number;
}

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
}

export interface Group {
  steeredOrFront: boolean;
  regenerative: boolean;
}

const DRAWS = 8;

/**
 * How far, in standard deviations, draw `index` lies along parameter `dimension`: a balanced net of normal scores.
 * Distances follow an additive recurrence with square roots of primes (Richtmyer), for even coverage with few points;
 * signs follow a Hadamard pattern, so that parameters do not rise together; and the second half of the draws mirrors
 * the first, so that the mean of every parameter is kept.
 */
function score(index: number, dimension: number): number {
  const half = DRAWS / 2;
  const base = index % half;
  const position = (base + 1) * Math.sqrt([2, 3, 5, 7, 11, 13][dimension]!);
  const pattern = base & (dimension % half);
  const isNegative = index >= half !== (((pattern >> 1) ^ pattern) & 1) > 0;
  const distance = normalQuantile(0.5 + 0.5 * (position - Math.floor(position)));
  return isNegative ? -distance : distance;
}

function spread<Parameters>(make: (score: (dimension: number) => number) => Parameters): Draw<Parameters>[] {
  return Array.from({ length: DRAWS }, (_, index) => ({
    weight: 1 / DRAWS,
    parameters: make((dimension) => score(index, dimension)),
  }));
}

interface RateStart {
  rate: number;
  uncertainty: number;
}

/**
 * Starting values, typical of the trade (common practice, no source), each with the standard deviation of its log.
 * Rear and regenerative groups start lower and wider.
 */
function padRateStart({ steeredOrFront, regenerative }: Group): RateStart {
  const axle = steeredOrFront ? { rate: 0.13, uncertainty: 0.7 } : { rate: 0.09, uncertainty: 0.8 };
  return regenerative ? { rate: axle.rate * 0.4, uncertainty: axle.uncertainty + 0.2 } : axle;
}

function padDraws(group: Group): Draw<WearParameters>[] {
  const { rate, uncertainty } = padRateStart(group);
  return spread((z) => ({
    logRateMean: Math.log(rate),
    logRateSd: Math.hypot(0.45 * Math.exp(0.4 * z(0)), uncertainty),
    partSpread: 0.13 * Math.exp(0.4 * z(1)),
    wander: 0.03 * Math.exp(0.7 * z(2)),
    logInnerOuter: 0.05 + 0.1 * z(3),
    fastChance: Math.min(0.3, 0.03 * Math.exp(0.8 * z(4))),
    fastFactor: 1.5 * Math.exp(0.15 * z(5)),
    misreadChance: 0.0075,
    suddenChance: 0.004,
    suddenMm: 2.5,
    suddenSd: 2,
    startSd: 0.15,
    placementSd: 0.2,
    misreadRange: 12,
  }));
}

/** A rotor loses a tenth or so of what its pads lose (from memory, no source); its fast part is left out. */
function rotorDraws(group: Group): Draw<WearParameters>[] {
  const { rate, uncertainty } = padRateStart(group);
  return spread((z) => ({
    logRateMean: Math.log(rate * 0.12),
    logRateSd: Math.hypot(0.45 * Math.exp(0.4 * z(0)), uncertainty),
    partSpread: 0.13 * Math.exp(0.4 * z(1)),
    wander: 0.008 * Math.exp(0.7 * z(2)),
    logInnerOuter: 0,
    fastChance: 0,
    fastFactor: 1,
    misreadChance: 0.0075,
    suddenChance: 0.004,
    suddenMm: 0.4,
    suddenSd: 0.3,
    startSd: 0.05,
    placementSd: 0.02,
    misreadRange: 12,
  }));
}

const USAGE_DRAWS: Draw<UsageParameters>[] = spread((z) => ({
  logPaceMean: Math.log(40),
  logPaceSd: Math.hypot(0.5 * Math.exp(0.35 * z(0)), 0.7),
  dayToDay: 1.5 * Math.exp(0.5 * z(1)),
  season: 0.12 * Math.exp(0.6 * z(2)),
  changesPerYear: 0.1,
}));

const startingExperiences = new Map<string, Experience>();

/** The experience of a shop without history: the starting values averaged over their spread. */
export function startingExperience(group: Group): Experience {
  const key = `${group.steeredOrFront} ${group.regenerative}`;
  const known = startingExperiences.get(key);
  if (known) return known;
  const made: Experience = {
    name: 'starting-values',
    words:
      'starting values typical of the trade, since nothing has been learned yet from other vehicles here; the interval is wide for that reason',
    pads: padDraws(group),
    rotors: rotorDraws(group),
    usage: USAGE_DRAWS,
  };
  startingExperiences.set(key, made);
  return made;
}
