import { eq, sql } from 'drizzle-orm';
import { openPointsOf } from '../core/assessment/openPoints.js';
import { outlookFor } from '../core/assessment/outlook.js';
import { notFound } from '../core/refusal.js';
import { experienceOf } from './experience.js';
import type { StoreParts } from './parts.js';
import { vehicles, visits } from './schema.js';
import type { OpenPointStore, Scope } from './store.js';
import { isInScope } from './vehicles.js';

export function openPointStore({ database, history, settings, experience }: StoreParts): OpenPointStore {
  const byVisit = database
    .select({ vehicle: vehicles })
    .from(visits)
    .innerJoin(vehicles, eq(vehicles.seq, visits.vehicleSeq))
    .where(eq(visits.id, sql.placeholder('id')))
    .prepare();

  return {
    async ofVisit(scope: Scope, visitId: string) {
      const { vehicle } = byVisit.get({ id: visitId }) ?? {};
      if (!vehicle || !isInScope(vehicle, scope)) throw notFound('visit');
      const { policy, gauges } = settings();
      const all = history.visitsOf(vehicle.seq, vehicle.id);
      const until = all.slice(0, all.findIndex(({ id }) => id === visitId) + 1);
      const known = { vehicle: vehicle.body, visits: until, gauges };
      const outlook = outlookFor(known, experienceOf(vehicle.body, experience()), policy);
      const items = openPointsOf(
        known,
        outlook.axles.flatMap(({ findings }) => findings),
      );
      return { visitId, complete: items.length === 0, items };
    },
  };
}
