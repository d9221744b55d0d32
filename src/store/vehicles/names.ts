import { identifierKey } from '../../core/identifiers.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { Database } from '../engine/sqlite/connection.js';

/** The columns by which a vehicle is found whatever the case, blanks and hyphens of its registration. */
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
 * The indexes are named, since SQLite would rather read every vehicle once it has counted how many have no VIN or no
 * registration.
 */
const BEARERS = `
  select seq from vehicles indexed by vehicles_external_id where external_id = @name and merged_into is null
  union
  select seq from vehicles indexed by vehicles_registration where registration_key = @key and merged_into is null
  union
  select seq from vehicles indexed by vehicles_vin where vin = @key and merged_into is null
  order by seq`;

/**
 * Finds the vehicles that a name in a spreadsheet may mean, in the order in which they were recorded: by externalId,
 * registration or VIN.
 */
export function vehicleNames({ $client }: Database): (name: string) => number[] {
  const select = $client.prepare(BEARERS).pluck();
  return (name) => select.all({ name, key: identifierKey(name) }) as number[];
}
