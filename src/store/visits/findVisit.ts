import { eq, sql } from 'drizzle-orm';
import { notFound } from '../../core/refusal.js';
import type { VisitBody } from '../../core/vocabulary/visit.js';
import type { Database } from '../engine/sqlite/connection.js';
import type { VisitRow } from './history.js';
import { vehicles, visits } from '../engine/sqlite/schema.js';
import { selector } from '../engine/sqlite/selects.js';
import { maySee, type Caller } from '../contract/caller.js';

/** Finds visits, by id or by work order. */
export function visitFinder(database: Database) {
  const byId = database
    .select({
      visit: visits,
      vehicle: {
        seq: vehicles.seq,
        id: vehicles.id,
        fleet: vehicles.fleet,
        body: vehicles.body,
        erasedAt: vehicles.erasedAt,
      },
    })
    .from(visits)
    .innerJoin(vehicles, eq(vehicles.seq, visits.vehicleSeq))
    .where(eq(visits.id, sql.placeholder('id')))
    .prepare();
  const byWorkOrder = selector(
    database,
    visits,
    "vehicle_seq = ? and (case when shop is null then '' else shop end) = ? and work_order = ? and voided is null",
  );

  return {
    /**
     * A visit, voided or not, with its vehicle.
     *
     * @throws Refusal of kind not-found
     */
    visit(caller: Caller, id: string) {
      const found = byId.get({ id });
      if (!found || !maySee(caller, found.vehicle.fleet)) throw notFound('visit');
      return found;
    },
    /** The current visit of a work order of one shop; null if there is none, or no work order is given. */
    byWorkOrder(
      vehicleSeq: number,
      { workOrder, shop }: Pick<VisitBody, 'workOrder' | 'shop'>,
    ): VisitRow | null {
      if (workOrder == null) return null;
      return byWorkOrder(vehicleSeq, shop ?? '', workOrder)[0] ?? null;
    },
  };
}
