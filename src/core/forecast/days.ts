import { TYPICAL_KM_PER_DAY, type Road } from '../odometer.js';
import type { Draw, Experience, UsageParameters, WearParameters } from './experience.js';
import { momentsOf } from './link.js';
import { steadyUse, usagePosterior } from './usage.js';
import type { UsagePosterior } from './usagePosterior.js';

/**
 * Wear by days, for vehicles without odometer readings. Assumes the typical distance every day. The deviation of the
 * actual distance becomes part of the wear rate, whose spread then combines rate and pace, and of its wander.
 */

const DAYS_A_YEAR = 365.25;
const cache = new WeakMap<Experience, Experience>();

/** The posterior of use of a vehicle with this road. */
export const usageOn = (road: Road, { usage }: Experience): UsagePosterior =>
  road.isByDistance ? usagePosterior(road.stretches, usage) : steadyUse(TYPICAL_KM_PER_DAY);

/** The experience of a group, converted to days if the road has no odometer readings. */
export const experienceOn = (road: Road, experience: Experience): Experience =>
  road.isByDistance ? experience : experienceByDays(experience);

function experienceByDays(experience: Experience): Experience {
  const known = cache.get(experience);
  if (known) return known;
  const { usage, correlation } = experience;
  const pace = momentsOf(usage, ({ logPaceMean, logPaceSd }) => [logPaceMean, logPaceSd]);
  const scatter = scatterVariance(usage);
  const byDays = (draws: readonly Draw<WearParameters>[]): Draw<WearParameters>[] =>
    draws.map(({ weight, parameters }) => {
      const logRateMean = parameters.logRateMean + pace.mean - Math.log(TYPICAL_KM_PER_DAY);
      const together = 2 * correlation * parameters.logRateSd * pace.sd;
      const logRateSd = Math.sqrt(parameters.logRateSd ** 2 + pace.sd ** 2 + together);
      const wander = Math.hypot(parameters.wander, Math.exp(logRateMean) * Math.sqrt(scatter));
      // The wander already includes changes of use, and changes of the wear rate look the same.
      return { weight, parameters: { ...parameters, logRateMean, logRateSd, wander, jumpPerMm: 0 } };
    });
  const made = {
    ...experience,
    pads: byDays(experience.pads),
    rotors: byDays(experience.rotors),
    correlation: 0,
  };
  cache.set(experience, made);
  return made;
}

/** Changes of pace are weighted by their effect over this many days, about the life of a set of pads. */
const HORIZON_DAYS = 500;

/**
 * Variance of the distance driven per 1000 km at the typical pace, (1000 km)². It sums the day-to-day scatter;
 * standstills, whose mean square length is twice the square of their mean; and changes of pace, whose mean effect is a
 * third of the square of the horizon.
 */
function scatterVariance(usage: readonly Draw<UsageParameters>[]): number {
  const perDay = usage.reduce((sum, { weight, parameters }) => {
    const { dayToDay, spellsPerYear, spellDays, changesPerYear, logPaceSd } = parameters;
    const standstills = (spellsPerYear / DAYS_A_YEAR) * 2 * spellDays * spellDays;
    const changes =
      (changesPerYear / DAYS_A_YEAR) * Math.min(1, logPaceSd * logPaceSd) * (HORIZON_DAYS ** 2 / 3);
    return sum + weight * (dayToDay * dayToDay + standstills + changes);
  }, 0);
  return (perDay * TYPICAL_KM_PER_DAY) / 1000;
}
