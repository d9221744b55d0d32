import { notFound, type Refusal } from '../../core/refusal.js';
import type { Database } from '../engine/sqlite/connection.js';
import { vehicles } from '../engine/sqlite/schema.js';
import { selector } from '../engine/sqlite/selects.js';
import { maySee, type Caller } from '../contract/caller.js';

export type VehicleRow = typeof vehicles.$inferSelect;

/** Finds vehicles that a caller may see. A record that was merged into another is seen by whoever sees that one. */
export function vehicleFinder(database: Database) {
  const byId = selector(database, vehicles, 'id = ?');

  function standingFor(row: VehicleRow): VehicleRow {
    return row.mergedInto === null ? row : standingFor(byId(row.mergedInto)[0]!);
  }

  function visible(caller: Caller, id: string): { row: VehicleRow; standing: VehicleRow } | null {
    const [row] = byId(id);
    if (!row) return null;
    const standing = standingFor(row);
    return maySee(caller, standing.fleet) ? { row, standing } : null;
  }

  /** Why there is no standing vehicle under an id: none is known, or the record was merged into the one it names. */
  function missing(caller: Caller, id: string): Refusal {
    const found = visible(caller, id);
    if (!found) return notFound('vehicle');
    const detail = `this record was merged into vehicle ${found.standing.id}; ask for that one`;
    return notFound('vehicle', detail, { vehicleId: found.standing.id });
  }

  return {
    missing,
    /**
     * A record, be it merged into another.
     *
     * @throws Refusal of kind not-found
     */
    record(caller: Caller, id: string): VehicleRow {
      const found = visible(caller, id);
      if (!found) throw notFound('vehicle');
      return found.row;
    },
    /**
     * A vehicle that stands for itself.
     *
     * @throws Refusal of kind not-found, naming the vehicle that a merged record went into
     */
    standing(caller: Caller, id: string): VehicleRow {
      const found = visible(caller, id);
      if (!found || found.row.mergedInto !== null) throw missing(caller, id);
      return found.row;
    },
  };
}

export type VehicleFinder = ReturnType<typeof vehicleFinder>;
