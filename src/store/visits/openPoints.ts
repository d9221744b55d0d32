import { isOneJob, openPointsOf } from '../../core/assessment/openPoints.js';
import { visitFinder } from './findVisit.js';
import { workOut } from '../outlooks/outlooks.js';
import type { StoreParts } from '../parts.js';
import type { Caller } from '../contract/caller.js';
import type { OpenPointStore } from '../contract/visits.js';

export function openPointStore({
  database,
  history,
  settings,
  experience,
  sightOf,
}: StoreParts): OpenPointStore {
  const find = visitFinder(database);
  return {
    async ofVisit(caller: Caller, visitId: string) {
      const { visit, vehicle } = find.visit(caller, visitId);
      const sight = sightOf(caller, vehicle.seq);
      sight.refuseHidden(visit);
      // A voided visit is ignored in all computations, so nothing is left open.
      if (visit.voided) return { visitId, complete: true, items: [] };
      const all = history.visitsOf(vehicle.seq, vehicle.id).map(sight.visit);
      const index = all.findIndex(({ id }) => id === visitId);
      const known = { vehicle: vehicle.body, visits: all.slice(0, index + 1) };
      const later = all.slice(index + 1).filter((other) => isOneJob(other, all[index]!));
      const axlesOf = (visits: typeof all) =>
        workOut({ ...known, visits }, experience(), settings()).outlook.axles;
      const axles = axlesOf(known.visits);
      const atEnd = later.length > 0 ? axlesOf([...known.visits, ...later]) : axles;
      const items = openPointsOf(known, axles, { visits: later, axles: atEnd });
      return { visitId, complete: items.length === 0, items };
    },
  };
}
