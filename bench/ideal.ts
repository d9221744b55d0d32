import {
  startingExperience,
  type Experience,
  type UsageParameters,
  type WearParameters,
} from '../src/core/forecast/experience.js';
import { LIMIT_MM, NEW_MM, type World } from './worlds.js';

/** The experience of a shop that knows the true parameters of a world: no fit can do better. */
export function idealExperience(world: World): Experience {
  const starting = startingExperience({ steeredOrFront: true, regenerative: world.regenerative });
  return {
    ...starting,
    name: 'ideal',
    words: 'the true parameters of the simulated fleet',
    pads: [{ weight: 1, parameters: wearOf(world, starting.pads[0]!.parameters) }],
    usage: [{ weight: 1, parameters: usageOf(world, starting.usage[0]!.parameters) }],
    correlation: world.correlation,
  };
}

/** Parameters that no world varies keep their starting value. */
function wearOf(world: World, starting: WearParameters): WearParameters {
  return {
    ...starting,
    logRateMean: Math.log(world.rate),
    logRateSd: world.rateSpread,
    partSpread: world.partSpread,
    wander: world.wander,
    logInnerOuter: Math.log(world.innerOuter),
    // One of four pads is the fast one.
    fastChance: world.fastAxles / 4,
    fastFactor: world.fastFactor,
    // At most one change in the thickness to wear.
    jumpPerMm: world.changes / (NEW_MM - LIMIT_MM),
    jumpSd: world.changeSize,
    misreadChance: Math.max(starting.misreadChance, world.misreadings),
    startSd: world.startSd,
    placementSd: world.placement,
  };
}

function usageOf(world: World, starting: UsageParameters): UsageParameters {
  return {
    ...starting,
    logPaceMean: Math.log(world.pace),
    logPaceSd: world.paceSpread,
    dayToDay: world.dayToDay,
    season: world.season,
    changesPerYear: 0,
  };
}
