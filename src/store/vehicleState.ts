import { eq, sql } from 'drizzle-orm';
import type { StoreParts } from './parts.js';
import { vehicles, visits } from './schema.js';

/**
 * Reads a vehicle with a text that changes whenever something changes that its outlook follows from: what is worked out
 * outside of a transaction stands only where the text is the same when it is written.
 */
export function vehicleStateReader({
  database,
  history,
  experience,
  settings,
}: Pick<StoreParts, 'database' | 'history' | 'experience' | 'settings'>) {
  const vehicleSeq = sql.placeholder('vehicleSeq');
  const vehicle = database.select().from(vehicles).where(eq(vehicles.seq, vehicleSeq)).prepare();
  const versions = database
    .select({
      count: sql<number>`count(*)`,
      sum: sql<number>`sum(${visits.version})`,
      last: sql<number>`max(${visits.seq})`,
    })
    .from(visits)
    .where(eq(visits.vehicleSeq, vehicleSeq))
    .prepare();

  return (seq: number) => {
    const row = vehicle.get({ vehicleSeq: seq })!;
    const { count, sum, last } = versions.get({ vehicleSeq: seq })!;
    return {
      seq,
      row,
      fingerprint: JSON.stringify([row.version, count, sum, last, experience().version, settings().revision]),
      visits: () => history.visitsOf(seq, row.id),
    };
  };
}

export type VehicleState = ReturnType<ReturnType<typeof vehicleStateReader>>;
