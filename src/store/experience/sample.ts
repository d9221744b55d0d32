import { and, count, exists, eq, isNull, sql, type SQL } from 'drizzle-orm';
import type { Database } from '../engine/sqlite/connection.js';
import { vehicles, visits } from '../engine/sqlite/schema.js';

/**
 * Which vehicles stand for all where all would be too many. A shop of a few thousand vehicles is looked at whole.
 */

/** A fit looks at no more of a model's vehicles, and no more in all, than add to what it finds. */
const MOST_OF_MODEL = 300;
const MOST_TO_LEARN_FROM = 3000;

/** The vehicles that an experience is fitted to: of every model as many as of any other, taken evenly by age of record. */
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
  // Bound as an integer: numbers are bound as reals, whose division has no remainder.
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

/** As many of each model as leave the whole within bounds; one at least. */
function mostOfEach(counts: readonly number[]): number {
  const taken = (most: number): number => counts.reduce((sum, each) => sum + Math.min(each, most), 0);
  let most = MOST_OF_MODEL;
  while (most > 1 && taken(most) > MOST_TO_LEARN_FROM) most -= 1;
  return most;
}

/** Vehicles whose past forecasts are scored for one report. */
const MOST_TO_SCORE = 2000;
const HASHES = 2 ** 32;

/**
 * The condition that picks some 2000 of many vehicles, the same ones each time, and undefined where all are to be
 * taken. A larger share contains every smaller one.
 */
export function scoringSample(of: number): SQL | undefined {
  if (of <= MOST_TO_SCORE) return undefined;
  const below = Math.round((HASHES * MOST_TO_SCORE) / of);
  // Multiplicative hashing with the odd number next to 2^32 / the golden ratio; Knuth, The Art of Computer Programming 3, 6.4.
  return sql`(${vehicles.seq} * 2654435761) & ${HASHES - 1} < ${below}`;
}
