import type { StoreParts } from '../parts.js';
import type { VehicleRow } from '../vehicles/findVehicle.js';
import { selector } from '../engine/sqlite/selects.js';
import { vehicles } from '../engine/sqlite/schema.js';
import { visitsStateReader } from '../engine/sqlite/statements.js';

type Parts = Pick<StoreParts, 'database' | 'history' | 'experience' | 'settings'>;

/**
 * Builds a text that changes with every input of a vehicle's outlook. A result computed outside a transaction is valid
 * only if the text is the same when it is written.
 */
export function fingerprinter({ database, experience, settings }: Parts): (vehicle: VehicleRow) => string {
  const visitsState = visitsStateReader(database);
  return ({ seq, version }) =>
    JSON.stringify([version, visitsState(seq), experience().version, settings().revision]);
}

/** Reads a vehicle with the text of its state. */
export function vehicleStateReader(parts: Parts) {
  const bySeq = selector(parts.database, vehicles, 'seq = ?');
  const fingerprintOf = fingerprinter(parts);
  return (seq: number) => {
    const row = bySeq(seq)[0]!;
    return {
      seq,
      row,
      fingerprint: fingerprintOf(row),
      visits: () => parts.history.visitsOf(seq, row.id),
    };
  };
}

export type VehicleState = ReturnType<ReturnType<typeof vehicleStateReader>>;
