import { TYPICAL_KM_PER_DAY, type Road } from '../odometer.js';
import type { Draw, Experience, UsageParameters, WearParameters } from './experience.js';
import { momentsOf } from './link.js';
import { steadyUse, usagePosterior } from './usage.js';
import type { UsagePosterior } from './usagePosterior.js';

/**
 * Wear by days, for vehicles whose odometer is not read. A vehicle is taken to drive the typical distance every day; what
 * it really drives becomes part of its rate, which is then as widely spread as rate and pace together, and of the wander.
 */

const DAYS_A_YEAR = 365.25;
const madeBefore = new WeakMap<Experience, Experience>();

/** What is known of the use of a vehicle with such a road. */
export const usageOn = (road: Road, { usage }: Experience): UsagePosterior =>
  road.isByDistance ? usagePosterior(road.stretches, usage) : steadyUse(TYPICAL_KM_PER_DAY);

/** The experience of a group as it counts along such a road. */
export const experienceOn = (road: Road, experience: Experience): Experience =>
  road.isByDistance ? experience : experienceByDays(experience);

function experienceByDays(experience: Experience): Experience {
  const known = madeBefore.get(experience);
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
      // Changes of use are in the wander already; what the rate by distance changes besides cannot be told from them.
      return { weight, parameters: { ...parameters, logRateMean, logRateSd, wander, jumpPerMm: 0 } };
    });
  const made = {
    ...experience,
    pads: byDays(experience.pads),
    rotors: byDays(experience.rotors),
    correlation: 0,
  };
  madeBefore.set(experience, made);
  return made;
}

/** Changes of pace count by how far they lead astray over so many days, about the time between two sets of pads. */
const HORIZON_DAYS = 500;

/**
 * Variance of the distance that is driven while 1000 km would be at the typical pace, in (1000 km)²: from day to day, by
 * standstills, each of which has a mean square length of twice the square of its mean, and by changes of pace, each of
 * which leads astray for a third of the square of the horizon on average.
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
