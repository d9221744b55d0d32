import { notFound } from '../../core/refusal.js';
import type { VisitBody } from '../../core/vocabulary/visit.js';
import { maySee, type Caller } from '../contract/caller.js';
import type { ReadingComponents } from '../engine/contract/engine.js';
import type { VisitOfVehicle, VisitRow } from '../engine/contract/visits.js';

/** Finds visits, by id or by work order. */
export function visitFinder({ visits }: Pick<ReadingComponents, 'visits'>) {
  return {
    /**
     * A visit, voided or not, with its vehicle.
     *
     * @throws Refusal of kind not-found
     */
    async visit(caller: Caller, id: string): Promise<VisitOfVehicle> {
      const found = await visits.byId(id);
      if (!found || !maySee(caller, found.vehicle.fleet)) throw notFound('visit');
      return found;
    },
    /** The current visit of a work order of one shop; null if there is none, or no work order is given. */
    async byWorkOrder(
      vehicleSeq: number,
      { workOrder, shop }: Pick<VisitBody, 'workOrder' | 'shop'>,
    ): Promise<VisitRow | null> {
      return workOrder == null ? null : visits.byWorkOrder(vehicleSeq, shop ?? null, workOrder);
    },
  };
}

export type VisitFinder = ReturnType<typeof visitFinder>;
