import { isOneJob, openPointsOf } from '../../core/assessment/openPoints.js';
import { itemAt } from '../../core/items.js';
import type { OpenPointStore } from '../contract/visits.js';
import { computeOutlook } from '../outlooks/outlooks.js';
import type { StoreParts } from '../parts.js';

export const openPointStore = ({ consistently }: StoreParts): OpenPointStore => ({
  ofVisit: (caller, visitId) =>
    consistently(async (own) => {
      const { visit, vehicle } = await own.findVisit.visit(caller, visitId);
      const sight = await own.sightOf(caller, vehicle.seq);
      sight.refuseHidden(visit);
      // A voided visit is ignored in all computations, so nothing is left open.
      if (visit.voided) return { visitId, complete: true, items: [] };
      const all = (await own.history.visitsOf(vehicle.seq, vehicle.id)).map(sight.visit);
      const index = all.findIndex(({ id }) => id === visitId);
      const known = { vehicle: vehicle.body, visits: all.slice(0, index + 1) };
      const later = all.slice(index + 1).filter((other) => isOneJob(other, itemAt(all, index)));
      const inForce = await own.settings();
      const experience = await own.experience();
      const axlesOf = (visits: typeof all) =>
        computeOutlook({ ...known, visits }, experience, inForce).outlook.axles;
      const axles = axlesOf(known.visits);
      const atEnd = later.length > 0 ? axlesOf([...known.visits, ...later]) : axles;
      const items = openPointsOf(known, axles, { visits: later, axles: atEnd });
      return { visitId, complete: items.length === 0, items };
    }),
});
