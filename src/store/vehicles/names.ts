import { identifierKey } from '../../core/identifiers.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { ReadingComponents } from '../engine/contract/engine.js';

/** Normalized columns for finding a vehicle regardless of case, spaces and hyphens. */
export function nameKeys({
  registration,
  vin,
  externalId,
}: Pick<VehicleBody, 'registration' | 'vin' | 'externalId'>) {
  const key = (name: string | null | undefined) => identifierKey(name ?? '');
  return {
    registrationKey: key(registration) || null,
    searchKey: [registration, vin, externalId].map(key).join(' '),
  };
}

/**
 * Finds the vehicles that a name in a spreadsheet may mean, by externalId, registration or VIN, in order of recording.
 */
export const vehicleNames =
  ({ vehicles }: Pick<ReadingComponents, 'vehicles'>) =>
  (name: string): Promise<number[]> =>
    vehicles.bearersOf(name, identifierKey(name));
