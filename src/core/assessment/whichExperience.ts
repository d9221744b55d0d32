import { LRUCache } from 'lru-cache';
import { startingExperience, type Experience, type Group } from '../forecast/experience.js';
import { experienceFrom, type FittedExperience } from '../forecast/fit.js';
import type { Axle } from '../vocabulary/terms.js';
import type { VehicleBody } from '../vocabulary/vehicle.js';
import { isRegenerative } from './cautions.js';
import type { ExperienceFor } from './outlookShape.js';

/**
 * An experience and the version by which a forecast names it: a number or, in hindsight, the date up to which its
 * data goes.
 */
export interface KnownExperience<Version extends number | string = number | string> {
  version: Version;
  fitted: FittedExperience | null;
}

/** The experience in force: the latest fit, or the starting values as version 0. */
export type CurrentExperience = KnownExperience<number>;

export const STARTING: CurrentExperience = { version: 0, fitted: null };

export function groupOf(vehicle: VehicleBody): (axle: Axle) => Group {
  const regenerative = isRegenerative(vehicle);
  return (axle) => ({
    steeredOrFront: vehicle.axles[axle]?.steered ?? (axle === 'front' || axle === 'axle-1'),
    regenerative,
    drum: vehicle.axles[axle]?.brake === 'drum',
  });
}

/** Maximum number of experiences cached per fit: one per axle class and model. */
const MAX_CACHED = 200;
const cacheOf = new WeakMap<FittedExperience, LRUCache<string, Experience>>();

/** The experience used for each axle of a vehicle; the same object for all axles of a class and model. */
export function experienceOf(vehicle: VehicleBody, { version, fitted }: KnownExperience): ExperienceFor {
  const classOf = groupOf(vehicle);
  return (axle) => {
    const axleClass = classOf(axle);
    if (!fitted) return startingExperience(axleClass);
    const model = vehicle.model ?? null;
    const cache = cacheOf.get(fitted) ?? new LRUCache<string, Experience>({ max: MAX_CACHED });
    cacheOf.set(fitted, cache);
    const name = JSON.stringify([version, axleClass, model]);
    const experience = cache.get(name) ?? experienceFrom(fitted, { axleClass, model, version });
    cache.set(name, experience);
    return experience;
  };
}
