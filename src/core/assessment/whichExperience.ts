import { startingExperience, type Group } from '../forecast/experience.js';
import { experienceFrom, type FittedExperience } from '../forecast/fit.js';
import type { Axle } from '../vocabulary/terms.js';
import type { VehicleBody } from '../vocabulary/vehicle.js';
import { isRegenerative } from './cautions.js';
import type { ExperienceFor } from './outlookShape.js';

/**
 * An experience and the name a forecast gives it: its version number or, in hindsight, the date up to which it knew the
 * shop.
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

/** The experience used for each axle of a vehicle. */
export function experienceOf(vehicle: VehicleBody, { version, fitted }: KnownExperience): ExperienceFor {
  const classOf = groupOf(vehicle);
  return (axle) =>
    fitted
      ? experienceFrom(fitted, { axleClass: classOf(axle), model: vehicle.model ?? null, version })
      : startingExperience(classOf(axle));
}
