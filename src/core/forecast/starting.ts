import { COUNTERPART_PLACEMENT_SD_MM, PLACEMENT_SD_MM } from '../placement.js';
import type { Group, UsageParameters, WearParameters } from './parameters.js';

/**
 * Prior beliefs about every parameter, typical of the trade (common practice, no source). They give the starting
 * values, and they regularise fits to few vehicles.
 */

/** A value with the standard deviation of its logarithm; of the value itself if `scale` is `plain`. */
export interface Belief {
  value: number;
  sd: number;
  scale: 'log' | 'plain';
}

const about = (value: number, sd: number): Belief => ({ value, sd, scale: 'log' });
const plainly = (value: number, sd: number): Belief => ({ value, sd, scale: 'plain' });

/** The value `z` standard deviations away from the belief's. */
export const along = ({ value, sd, scale }: Belief, z: number): number =>
  scale === 'log' ? value * Math.exp(sd * z) : value + sd * z;

/** Beliefs about the learned parameters, and the values of the fixed ones. */
export interface Beliefs<Learned extends string, Parameters> {
  learned: Record<Learned, Belief>;
  given: Parameters;
}

/** Learned parameters of wear; `modelSd` is the spread of the models' mean log rates about the class's. */
export type WearLearned =
  | 'logRateMean'
  | 'modelSd'
  | 'logRateSd'
  | 'partSpread'
  | 'wander'
  | 'placementSd'
  | 'logInnerOuter'
  | 'fastChance'
  | 'fastFactor'
  | 'visitSd'
  | 'dragsPer1000Km'
  | 'replacedWornChance'
  | 'jumpPerMm'
  | 'jumpSd';

export type UsageLearned =
  | 'logPaceMean'
  | 'modelSd'
  | 'logPaceSd'
  | 'dayToDay'
  | 'season'
  | 'changesPerYear'
  | 'spellsPerYear';

/** Rear and regenerative axles start with a lower mean rate and a wider spread. */
function rateOf({ steeredOrFront, regenerative }: Group): { rate: number; uncertainty: number } {
  const axle = steeredOrFront ? { rate: 0.13, uncertainty: 0.7 } : { rate: 0.09, uncertainty: 0.8 };
  return regenerative ? { rate: axle.rate * 0.4, uncertainty: axle.uncertainty + 0.2 } : axle;
}

const ANY_WEAR = {
  misreadChance: 0.0075,
  suddenChance: 0.001,
  dragFactor: 3,
  dragSpread: 0.8,
  jumpPerMm: 0,
  jumpSd: 0,
};

/** A change of driver or route in mid-life, if a fit supports it. */
const JUMP = { jumpPerMm: about(0.05, 0.7), jumpSd: about(0.4, 0.4) };

export type WearBeliefs = Beliefs<WearLearned, WearParameters>;

export function padBeliefs(group: Group): WearBeliefs {
  const { rate, uncertainty } = rateOf(group);
  const learned = {
    logRateMean: plainly(Math.log(rate), uncertainty),
    modelSd: about(0.25, 0.5),
    logRateSd: about(0.45, 0.4),
    partSpread: about(0.13, 0.4),
    wander: about(0.03, 0.7),
    placementSd: about(PLACEMENT_SD_MM, 0.3),
    logInnerOuter: plainly(0.05, 0.1),
    fastChance: about(0.03, 0.8),
    fastFactor: about(1.5, 0.15),
    visitSd: about(0.1, 0.5),
    dragsPer1000Km: about(0.002, 0.9),
    replacedWornChance: about(0.15, 0.8),
    ...JUMP,
  };
  // Until learned, changes of rate are rare and the chance of dragging is the prior mean.
  const rare = { jumpPerMm: 0.02, jumpSd: 0.4, dragsPer1000Km: 0.0025 };
  const given = { ...ANY_WEAR, ...rare, suddenMm: 2.5, suddenSd: 2, startSd: 0.15, setSpread: 0.1 };
  return { learned, given: { ...valuesOf(learned), ...given } };
}

/** A rotor loses about a tenth of what its pads lose (from memory, no source); no fast rotors are modelled. */
export function rotorBeliefs(group: Group): WearBeliefs {
  const { rate, uncertainty } = rateOf(group);
  const learned = {
    logRateMean: plainly(Math.log(rate * 0.12), uncertainty - 0.2),
    modelSd: about(0.25, 0.5),
    logRateSd: about(0.45, 0.4),
    partSpread: about(0.13, 0.4),
    wander: about(0.012, 0.7),
    placementSd: about(COUNTERPART_PLACEMENT_SD_MM, 0.3),
    logInnerOuter: plainly(0, 0.1),
    fastChance: about(0, 0),
    fastFactor: about(1, 0),
    visitSd: about(0, 0),
    dragsPer1000Km: about(0, 0),
    replacedWornChance: about(0.15, 0),
    ...JUMP,
  };
  const given = { ...ANY_WEAR, suddenMm: 0.4, suddenSd: 0.3, startSd: 0.1, setSpread: 0 };
  return { learned, given: { ...valuesOf(learned), ...given } };
}

export const USAGE_BELIEFS: Beliefs<UsageLearned, UsageParameters> = {
  learned: {
    logPaceMean: plainly(Math.log(40), 0.7),
    modelSd: about(0.25, 0.5),
    logPaceSd: about(0.5, 0.35),
    dayToDay: about(1.5, 0.5),
    season: about(0.12, 0.6),
    changesPerYear: about(0.08, 0.7),
    spellsPerYear: about(0.1, 1.2),
  },
  given: {
    logPaceMean: Math.log(40),
    logPaceSd: 0.5,
    dayToDay: 1.5,
    season: 0.12,
    changesPerYear: 0.08,
    spellsPerYear: 0.1,
    spellDays: 110,
  },
};

function valuesOf<Learned extends string>(learned: Record<Learned, Belief>): Record<Learned, number> {
  return Object.fromEntries(
    Object.entries<Belief>(learned).map(([name, { value }]) => [name, value]),
  ) as Record<Learned, number>;
}
