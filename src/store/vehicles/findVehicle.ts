import { required } from '../../core/items.js';
import { notFound, Refusal } from '../../core/refusal.js';
import { maySee, type Caller } from '../contract/caller.js';
import type { ReadingComponents } from '../engine/contract/engine.js';
import type { VehicleRow } from '../engine/contract/vehicles.js';

/** Finds vehicles that a caller may see. Callers who see a vehicle also see the records merged into it. */
export function vehicleFinder({ vehicles }: Pick<ReadingComponents, 'vehicles'>) {
  async function mergedInto(row: VehicleRow): Promise<VehicleRow> {
    return row.mergedInto === null
      ? row
      : mergedInto(required(await vehicles.byId(row.mergedInto), 'vehicle'));
  }

  async function visible(
    caller: Caller,
    id: string,
  ): Promise<{ row: VehicleRow; current: VehicleRow } | null> {
    const row = await vehicles.byId(id);
    if (!row) return null;
    const into = await mergedInto(row);
    return maySee(caller, into.fleet) ? { row, current: into } : null;
  }

  const asMissing = (found: Awaited<ReturnType<typeof visible>>): Refusal => {
    if (!found) return notFound('vehicle');
    const detail = `this record was merged into vehicle ${found.current.id}; use that id`;
    return notFound('vehicle', detail, { vehicleId: found.current.id });
  };

  async function current(caller: Caller, id: string): Promise<VehicleRow> {
    const found = await visible(caller, id);
    if (!found || found.row.mergedInto !== null) throw asMissing(found);
    return found.row;
  }

  return {
    /** Why an id has no current vehicle: it is unknown, or its record was merged into another. */
    missing: async (caller: Caller, id: string): Promise<Refusal> => asMissing(await visible(caller, id)),
    /**
     * A record, possibly merged into another.
     *
     * @throws Refusal of kind not-found
     */
    async record(caller: Caller, id: string): Promise<VehicleRow> {
      const found = await visible(caller, id);
      if (!found) throw notFound('vehicle');
      return found.row;
    },
    /**
     * A vehicle that was not merged into another.
     *
     * @throws Refusal of kind not-found, naming the vehicle that a merged record went into
     */
    current,
    /**
     * A vehicle that accepts new records.
     *
     * @throws Refusal of kind not-found as for `current`, of kind conflict if its personal data was erased
     */
    async open(caller: Caller, id: string): Promise<VehicleRow> {
      const row = await current(caller, id);
      refuseErased(row);
      return row;
    },
  };
}

/** New records could identify a person again. */
export function refuseErased({ id, erasedAt }: Pick<VehicleRow, 'id' | 'erasedAt'>): void {
  if (erasedAt === null) return;
  const detail = `the personal data of vehicle ${id} was erased on ${erasedAt.slice(0, 10)}, and no further visits can be recorded; if the vehicle comes back, record it as a new vehicle`;
  throw new Refusal('conflict', 'vehicle-erased', detail, [], { vehicleId: id });
}

export type VehicleFinder = ReturnType<typeof vehicleFinder>;
