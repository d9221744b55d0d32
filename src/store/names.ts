import { and, asc, eq, isNull, sql } from 'drizzle-orm';
import { union } from 'drizzle-orm/sqlite-core';
import type { Database } from './database.js';
import { vehicles } from './schema.js';

/**
 * Finds the vehicles that a name in a spreadsheet may mean, in the order in which they were recorded: by externalId,
 * registration or VIN.
 */
export function vehicleNames(database: Database): (name: string) => number[] {
  const named = (column: typeof vehicles.externalId | typeof vehicles.registration | typeof vehicles.vin) =>
    database
      .select({ seq: vehicles.seq })
      .from(vehicles)
      .where(and(eq(column, sql.placeholder('name')), isNull(vehicles.mergedInto)));
  // One query each, for an index each: one condition for all three would read every vehicle.
  const select = union(named(vehicles.externalId), named(vehicles.registration), named(vehicles.vin))
    .orderBy(asc(sql`seq`))
    .prepare();
  return (wanted) => select.all({ name: wanted }).map(({ seq }) => seq);
}
