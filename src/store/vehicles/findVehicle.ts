import { notFound, Refusal } from '../../core/refusal.js';
import type { Database } from '../engine/sqlite/connection.js';
import { vehicles } from '../engine/sqlite/schema.js';
import { selector } from '../engine/sqlite/selects.js';
import { maySee, type Caller } from '../contract/caller.js';

export type VehicleRow = typeof vehicles.$inferSelect;

/** Finds vehicles that a caller may see. Callers who see a vehicle also see the records merged into it. */
export function vehicleFinder(database: Database) {
  const byId = selector(database, vehicles, 'id = ?');

  function mergedInto(row: VehicleRow): VehicleRow {
    return row.mergedInto === null ? row : mergedInto(byId(row.mergedInto)[0]!);
  }

  function visible(caller: Caller, id: string): { row: VehicleRow; standing: VehicleRow } | null {
    const [row] = byId(id);
    if (!row) return null;
    const into = mergedInto(row);
    return maySee(caller, into.fleet) ? { row, standing: into } : null;
  }

  /** Why an id has no current vehicle: it is unknown, or its record was merged into another. */
  function missing(caller: Caller, id: string): Refusal {
    const found = visible(caller, id);
    if (!found) return notFound('vehicle');
    const detail = `this record was merged into vehicle ${found.standing.id}; use that id`;
    return notFound('vehicle', detail, { vehicleId: found.standing.id });
  }

  function standing(caller: Caller, id: string): VehicleRow {
    const found = visible(caller, id);
    if (!found || found.row.mergedInto !== null) throw missing(caller, id);
    return found.row;
  }

  return {
    missing,
    /**
     * A record, possibly merged into another.
     *
     * @throws Refusal of kind not-found
     */
    record(caller: Caller, id: string): VehicleRow {
      const found = visible(caller, id);
      if (!found) throw notFound('vehicle');
      return found.row;
    },
    /**
     * A vehicle that was not merged into another.
     *
     * @throws Refusal of kind not-found, naming the vehicle that a merged record went into
     */
    standing,
    /**
     * A vehicle that accepts new records.
     *
     * @throws Refusal of kind not-found as for `standing`, of kind conflict if its personal data was erased
     */
    open(caller: Caller, id: string): VehicleRow {
      const row = standing(caller, id);
      refuseErased(row);
      return row;
    },
  };
}

/** New records would again be about a person, whom nothing here may identify. */
export function refuseErased({ id, erasedAt }: Pick<VehicleRow, 'id' | 'erasedAt'>): void {
  if (erasedAt === null) return;
  const detail = `the personal data of vehicle ${id} was erased on ${erasedAt.slice(0, 10)}, and no further visits can be recorded; if the vehicle comes back, record it as a new vehicle`;
  throw new Refusal('conflict', 'vehicle-erased', detail, [], { vehicleId: id });
}

export type VehicleFinder = ReturnType<typeof vehicleFinder>;
