import { DRAWS, netScore, USAGE_DRAWS } from './net.js';
import type { Group, UsageParameters, WearParameters } from './parameters.js';
import { along, padBeliefs, rotorBeliefs, USAGE_BELIEFS, type WearBeliefs } from './starting.js';

export type { Group, UsageParameters, WearParameters } from './parameters.js';

/**
 * What is known of a group of vehicles before one of them is looked at: the parameters of the wear and usage
 * models, not as one value each but as a handful of weighted draws that carry their own uncertainty into every
 * forecast. See docs/forecast.md.
 */

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
    words: 'typical starting values, because the shop has no learned experience yet',
    pads: startingWear(padBeliefs(group)),
    rotors: startingWear(rotorBeliefs(group)),
    usage: STARTING_USAGE,
    correlation: 0,
  };
  startingExperiences.set(key, made);
  return made;
}
