import { and, count, exists, eq, isNull, sql, type SQL } from 'drizzle-orm';
import type { Database } from '../engine/sqlite/connection.js';
import { vehicles, visits } from '../engine/sqlite/schema.js';

/** Samples vehicles in large shops. A shop of a few thousand vehicles is used completely. */

/** Maximum vehicles per model and in total for a fit; more would not improve its result. */
const MOST_OF_MODEL = 300;
const MOST_TO_LEARN_FROM = 3000;

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
  const most = sql`cast(${mostOfEach(counts)} as integer)`;
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
      sql`${ranked.peers} <= ${most} or (${ranked.place} + 1) * ${most} / ${ranked.peers} > ${ranked.place} * ${most} / ${ranked.peers}`,
    )
    .orderBy(ranked.seq)
    .all()
    .map(({ seq }) => seq);
}

/** The maximum per model that keeps the total within bounds; at least one. */
function mostOfEach(counts: readonly number[]): number {
  const taken = (most: number): number => counts.reduce((sum, each) => sum + Math.min(each, most), 0);
  let most = MOST_OF_MODEL;
  while (most > 1 && taken(most) > MOST_TO_LEARN_FROM) most -= 1;
  return most;
}

/** Maximum vehicles whose past forecasts are scored for one report. */
const MOST_TO_SCORE = 2000;
const HASHES = 2 ** 32;

/**
 * A condition that selects some 2000 of many vehicles, the same ones each time; undefined to take all. A larger share
 * contains every smaller one.
 */
export function scoringSample(of: number): SQL | undefined {
  if (of <= MOST_TO_SCORE) return undefined;
  const below = Math.round((HASHES * MOST_TO_SCORE) / of);
  // Multiplicative hashing with the odd number next to 2^32 / the golden ratio; Knuth, The Art of Computer Programming 3, 6.4.
  return sql`(${vehicles.seq} * 2654435761) & ${HASHES - 1} < ${below}`;
}
