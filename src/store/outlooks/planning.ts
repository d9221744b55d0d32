import { experienceOf } from '../../core/assessment/whichExperience.js';
import { replacementPlan } from '../../core/planning/replacementPlan.js';
import { workOut } from './outlooks.js';
import type { StoreParts } from '../parts.js';
import type { PlanningStore } from '../contract/outlooks.js';

export function planningStore({ findVehicle, history, settings, experience }: StoreParts): PlanningStore {
  return {
    async replacement(caller, vehicleId, question) {
      const { seq, id, body: vehicle } = findVehicle.standing(caller, vehicleId);
      const inForce = settings();
      const known = { vehicle, visits: history.visitsOf(seq, id), gauges: inForce.gauges };
      // A stored outlook says when the limit is reached, but not how much is left before that.
      const { outlook } = workOut(known, experience(), inForce);
      const experienceFor = experienceOf(vehicle, experience());
      return replacementPlan(id, known, outlook, experienceFor, inForce.policy, question);
    },
  };
}
