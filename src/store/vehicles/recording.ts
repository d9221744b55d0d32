import { v7 as uuid } from 'uuid';
import { Refusal } from '../../core/refusal.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { Caller } from '../contract/caller.js';
import type { Components } from '../engine/contract/engine.js';
import type { VehicleRow } from '../engine/contract/vehicles.js';
import { nameKeys } from './names.js';
import type { VersionKeeper } from './versions.js';

/** Writes new vehicles, within a transaction. */
export function vehicleRecorder(
  { vehicles }: Pick<Components, 'vehicles'>,
  versions: VersionKeeper,
  clock: () => Date,
) {
  return {
    /** @throws Refusal if another vehicle than `self` has the same externalId or VIN */
    async refuseDuplicate({ externalId, vin }: VehicleBody, self: number | null): Promise<void> {
      const same = [
        { name: 'externalId', row: externalId == null ? null : await vehicles.byExternalId(externalId) },
        { name: 'VIN', row: vin == null ? null : await vehicles.byVin(vin) },
      ].find(({ row }) => row && row.seq !== self);
      if (!same) return;
      const detail = `vehicle ${same.row!.id} already has this ${same.name}`;
      throw new Refusal('conflict', 'duplicate-vehicle', detail, [], { vehicleId: same.row!.id });
    },

    async insert(caller: Caller, body: VehicleBody): Promise<VehicleRow> {
      const now = clock().toISOString();
      const row = await vehicles.insert({
        id: uuid(),
        version: 1,
        body,
        ...nameKeys(body),
        createdAt: now,
        updatedAt: now,
      });
      await versions.vehicle(caller, {
        id: row.id,
        vehicleSeq: row.seq,
        version: 1,
        kind: 'recorded',
        at: row.createdAt,
        body,
      });
      return row;
    },
  };
}

export type VehicleRecorder = ReturnType<typeof vehicleRecorder>;
