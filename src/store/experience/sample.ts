import { and, count, exists, eq, isNull, sql, type SQL } from 'drizzle-orm';
import type { Database } from '../engine/sqlite/connection.js';
import { vehicles, visits } from '../engine/sqlite/schema.js';

/** Samples vehicles in large shops. A shop of a few thousand vehicles is used completely. */

/** Maximum vehicles per model and in total for a fit; more would not improve its result. */
const MAX_PER_MODEL = 300;
const MAX_TO_LEARN_FROM = 3000;

/** The vehicles used for a fit: equally many of every model, spread evenly over the order of recording. */
export function learningSample(database: Database): number[] {
  const visited = and(
    isNull(vehicles.mergedInto),
    exists(
      database
        .select({ one: sql`1` })
        .from(visits)
        .where(eq(visits.vehicleSeq, vehicles.seq)),
    ),
  );
  const counts = database
    .select({ vehicles: count() })
    .from(vehicles)
    .where(visited)
    .groupBy(vehicles.model)
    .all()
    .map((row) => row.vehicles);
  // Numbers are bound as reals, whose division has no remainder.
  const max = sql`cast(${maxOfEach(counts)} as integer)`;
  const ranked = database
    .select({
      seq: vehicles.seq,
      place: sql<number>`row_number() over (partition by ${vehicles.model} order by ${vehicles.seq}) - 1`.as(
        'place',
      ),
      peers: sql<number>`count(*) over (partition by ${vehicles.model})`.as('peers'),
    })
    .from(vehicles)
    .where(visited)
    .as('ranked');
  return database
    .select({ seq: ranked.seq })
    .from(ranked)
    .where(
      sql`${ranked.peers} <= ${max} or (${ranked.place} + 1) * ${max} / ${ranked.peers} > ${ranked.place} * ${max} / ${ranked.peers}`,
    )
    .orderBy(ranked.seq)
    .all()
    .map(({ seq }) => seq);
}

/** The maximum per model that keeps the total within bounds; at least one. */
function maxOfEach(counts: readonly number[]): number {
  const taken = (max: number): number => counts.reduce((sum, each) => sum + Math.min(each, max), 0);
  let max = MAX_PER_MODEL;
  while (max > 1 && taken(max) > MAX_TO_LEARN_FROM) max -= 1;
  return max;
}

/** Maximum vehicles whose past forecasts are scored for one report. */
const MAX_TO_SCORE = 2000;
const HASHES = 2 ** 32;

/**
 * A condition that selects some 2000 of many vehicles, the same ones each time; undefined to take all. A larger share
 * contains every smaller one.
 */
export function scoringSample(of: number): SQL | undefined {
  if (of <= MAX_TO_SCORE) return undefined;
  const below = Math.round((HASHES * MAX_TO_SCORE) / of);
  // Multiplicative hashing with the odd number next to 2^32 / the golden ratio; Knuth, The Art of Computer Programming 3, 6.4.
  return sql`(${vehicles.seq} * 2654435761) & ${HASHES - 1} < ${below}`;
}
