import { DRAWS, netScore, USAGE_DRAWS } from './net.js';
import type { Group, UsageParameters, WearParameters } from './parameters.js';
import { along, padBeliefs, rotorBeliefs, USAGE_BELIEFS, type WearBeliefs } from './starting.js';

export type { Group, UsageParameters, WearParameters } from './parameters.js';

/**
 * What is known about a group of vehicles before looking at one of them: the parameters of the wear and usage models as
 * a few weighted draws, which carry their uncertainty into every forecast. See docs/forecast.md.
 */

/** Upper bound on the share of fast parts; a larger share would no longer be the exception. */
export const LIKELIEST_FAST = 0.3;

export interface Draw<Parameters> {
  weight: number;
  parameters: Parameters;
}

/** The experience used for one axle's forecast. */
export interface Experience {
  /** Stable name; `starting-values` if nothing has been fitted. */
  name: string;
  /** In plain words, as the end of the sentence "2 readings on this axle, and …". */
  words: string;
  pads: Draw<WearParameters>[];
  rotors: Draw<WearParameters>[];
  usage: Draw<UsageParameters>[];
  /** Correlation between the pads' log rate and the log pace, over the vehicles of the group. */
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

/** Draws for a class without data. The uncertainty of the mean is added to the spread. */
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

/** The experience of a shop without history: draws from the starting values and their uncertainty. */
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
