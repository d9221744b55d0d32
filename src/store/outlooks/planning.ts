import { experienceOf } from '../../core/assessment/whichExperience.js';
import { replacementPlan } from '../../core/planning/replacementPlan.js';
import type { PlanningStore } from '../contract/outlooks.js';
import type { StoreParts } from '../parts.js';
import { computeOutlook } from './outlooks.js';

export const planningStore = ({ consistently }: StoreParts): PlanningStore => ({
  replacement: (caller, vehicleId, question) =>
    consistently(async ({ findVehicle, history, settings, experience }) => {
      const { seq, id, body: vehicle } = await findVehicle.current(caller, vehicleId);
      const inForce = await settings();
      const current = await experience();
      const known = { vehicle, visits: await history.visitsOf(seq, id), gauges: inForce.gauges };
      // A stored outlook says when the limit is reached, but not how much is left before that.
      const { outlook } = computeOutlook(known, current, inForce);
      const experienceFor = experienceOf(vehicle, current);
      return replacementPlan(id, known, outlook, experienceFor, inForce.policy, question);
    }),
});
