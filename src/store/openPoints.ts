import { openPointsOf } from '../core/assessment/openPoints.js';
import { visitFinder } from './findVisit.js';
import { workOut } from './outlooks.js';
import type { StoreParts } from './parts.js';
import type { OpenPointStore, Scope } from './store.js';

export function openPointStore({
  database,
  history,
  settings,
  experience,
  sightOf,
}: StoreParts): OpenPointStore {
  const find = visitFinder(database);
  return {
    async ofVisit(scope: Scope, visitId: string) {
      const { visit, vehicle } = find.visit(scope, visitId);
      const sight = sightOf(scope, vehicle.seq);
      sight.refuseHidden(visit);
      // A voided visit counts for nothing, so nothing of it is left open.
      if (visit.voided) return { visitId, complete: true, items: [] };
      const all = history.visitsOf(vehicle.seq, vehicle.id).map(sight.visit);
      const until = all.slice(0, all.findIndex(({ id }) => id === visitId) + 1);
      const known = { vehicle: vehicle.body, visits: until };
      const { outlook } = workOut(known, experience(), settings());
      const items = openPointsOf(
        known,
        outlook.axles.flatMap(({ findings }) => findings),
      );
      return { visitId, complete: items.length === 0, items };
    },
  };
}
