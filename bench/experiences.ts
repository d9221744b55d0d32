import { recordOf } from '../src/core/assessment/record.js';
import { startingExperience, type Experience, type Group } from '../src/core/forecast/experience.js';
import { experienceFrom, fitExperience } from '../src/core/forecast/fit.js';
import { idealExperience } from './ideal.js';
import { MODEL, simulate, type World } from './worlds.js';

/** A shop that knows nothing, one that knows its fleet's true parameters, and shops that learned from a few vehicles. */
export const EXPERIENCES = ['starting', 'ideal', '3', '10', '30', '100'] as const;
export type ExperienceName = (typeof EXPERIENCES)[number];

export const groupOf = ({ regenerative }: World): Group => ({ steeredOrFront: true, regenerative });

/** @param seed of the vehicles that are learned from; other ones than those forecast */
export function experienceOf(world: World, name: ExperienceName, seed: number): Experience {
  const axleClass = groupOf(world);
  if (name === 'starting') return startingExperience(axleClass);
  if (name === 'ideal') return idealExperience(world);
  const learned = simulate(world, Number(name), seed).map(({ history }) =>
    recordOf(history, () => axleClass),
  );
  return experienceFrom(fitExperience(learned), { axleClass, model: MODEL, version: 1 });
}
