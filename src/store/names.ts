import { and, asc, eq, isNull, or, sql } from 'drizzle-orm';
import type { Database } from './database.js';
import { vehicles } from './schema.js';

/**
 * Finds the vehicles that a name in a spreadsheet may mean, in the order in which they were recorded: by externalId,
 * registration or VIN.
 */
export function vehicleNames(database: Database): (name: string) => number[] {
  const name = sql.placeholder('name');
  const select = database
    .select({ seq: vehicles.seq })
    .from(vehicles)
    .where(
      and(
        or(eq(vehicles.externalId, name), eq(vehicles.registration, name), eq(vehicles.vin, name)),
        isNull(vehicles.mergedInto),
      ),
    )
    .orderBy(asc(vehicles.seq))
    .prepare();
  return (wanted) => select.all({ name: wanted }).map(({ seq }) => seq);
}
