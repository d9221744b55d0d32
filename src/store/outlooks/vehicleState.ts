import type { CurrentExperience } from '../../core/assessment/whichExperience.js';
import { required } from '../../core/items.js';
import type { ReadingComponents } from '../engine/contract/engine.js';
import type { VehicleRow } from '../engine/contract/vehicles.js';
import type { Settings } from '../settings/inForce.js';
import type { HistoryReader, StoredVisit } from '../visits/history.js';

export type Fingerprinter = (vehicle: Pick<VehicleRow, 'seq' | 'version'>) => Promise<string>;

/**
 * Builds a text that changes with every input of a vehicle's outlook. A result computed outside a transaction is valid
 * only if the text is the same when it is written; take it before you read any of the inputs.
 */
export function fingerprinter(
  { visits }: Pick<ReadingComponents, 'visits'>,
  experience: () => Promise<CurrentExperience>,
  settings: () => Promise<Settings>,
): Fingerprinter {
  return async ({ seq, version }) =>
    JSON.stringify([
      version,
      await visits.stateOf(seq),
      (await experience()).version,
      (await settings()).revision,
    ]);
}

/** A vehicle and the fingerprint of its state. */
export interface VehicleState {
  seq: number;
  row: VehicleRow;
  fingerprint: string;
  visits: () => Promise<StoredVisit[]>;
}

/** Reads a vehicle and the fingerprint of its state. */
export function vehicleStateReader(
  { vehicles }: Pick<ReadingComponents, 'vehicles'>,
  fingerprintOf: Fingerprinter,
  history: HistoryReader,
) {
  return async (seq: number): Promise<VehicleState> => {
    const row = required(await vehicles.bySeq(seq), 'vehicle');
    return {
      seq,
      row,
      fingerprint: await fingerprintOf(row),
      visits: () => history.visitsOf(seq, row.id),
    };
  };
}

export type VehicleStateReader = ReturnType<typeof vehicleStateReader>;
