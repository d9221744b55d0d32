import type { Database } from './database.js';

/**
 * The indexes are named, since SQLite would rather read every vehicle once it has counted how many have no VIN or no
 * registration.
 */
const BEARERS = `
  select seq from vehicles indexed by vehicles_external_id where external_id = @name and merged_into is null
  union
  select seq from vehicles indexed by vehicles_registration where registration = @name and merged_into is null
  union
  select seq from vehicles indexed by vehicles_vin where vin = @name and merged_into is null
  order by seq`;

/**
 * Finds the vehicles that a name in a spreadsheet may mean, in the order in which they were recorded: by externalId,
 * registration or VIN.
 */
export function vehicleNames({ $client }: Database): (name: string) => number[] {
  const select = $client.prepare(BEARERS).pluck();
  return (name) => select.all({ name }) as number[];
}
