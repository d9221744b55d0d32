import { streams } from '../seed/random.js';
import { recordOf } from '../src/core/assessment/record.js';
import { startingExperience, type Experience, type Group } from '../src/core/forecast/experience.js';
import { experienceFrom, fitExperience } from '../src/core/forecast/fit.js';
import { idealExperience } from './ideal.js';
import { MODEL, simulate, type World } from './worlds.js';

/** Shops with no knowledge, with the fleet's true parameters, and with experience from a few vehicles. */
export const EXPERIENCES = ['starting', 'ideal', '3', '10', '30', '100', '300'] as const;
export type ExperienceName = (typeof EXPERIENCES)[number];

/** How far the vehicles a shop learned from have come: to the end of their pads, or to any of their visits. */
export const LIVES = ['complete', 'under-way'] as const;
export type Lives = (typeof LIVES)[number];

export const isFitted = (name: ExperienceName): boolean => Number(name) > 0;

export const groupOf = ({ regenerative }: World): Group => ({ steeredOrFront: true, regenerative });

/** @param seed of the vehicles to learn from; they differ from those forecast */
export function experienceOf(world: World, name: ExperienceName, lives: Lives, seed: number): Experience {
  const axleClass = groupOf(world);
  if (name === 'starting') return startingExperience(axleClass);
  if (name === 'ideal') return idealExperience(world);
  const vehicles = Number(name);
  const cuts = streams(seed + CUTS, vehicles);
  const learned = simulate(world, vehicles, seed).map(({ history }, index) => {
    const all = history.visits.length;
    const seen = lives === 'complete' ? all : cuts[index]!.whole(1, Math.max(1, all));
    return recordOf({ ...history, visits: history.visits.slice(0, seen) }, () => axleClass);
  });
  return experienceFrom(fitExperience(learned), { axleClass, model: MODEL, version: 1 });
}

/** Where histories are cut does not depend on how the vehicles live. */
const CUTS = 700_000;
