import {
  and,
  asc,
  count,
  desc,
  eq,
  exists,
  gt,
  isNotNull,
  isNull,
  lte,
  max,
  not,
  sql,
  type SQL,
} from 'drizzle-orm';
import { required } from '../../../../core/items.js';
import type { ExperienceRows, LessonRows, ScoredSelection, ScoreRows } from '../../contract/experience.js';
import type { Database } from '../connection.js';
import { experiences, forecastScores, pastExperiences, vehicles, visits } from '../schema.js';
import { latestFitReader } from '../statements.js';
import { isAmong } from '../visibility.js';

export function experienceRows(database: Database): ExperienceRows {
  const latestVersion = latestFitReader(database);
  const date = sql.placeholder('date');
  const madeBy = database
    .select({ version: experiences.version, learnedTo: experiences.learnedTo })
    .from(experiences)
    .where(lte(experiences.learnedTo, date))
    .orderBy(desc(experiences.learnedTo), desc(experiences.version))
    .limit(1)
    .prepare();
  const pastBy = database
    .select({ learnedTo: pastExperiences.learnedTo })
    .from(pastExperiences)
    .where(lte(pastExperiences.learnedTo, date))
    .orderBy(desc(pastExperiences.learnedTo))
    .limit(1)
    .prepare();

  return {
    latestVersion: async () => latestVersion(),
    byVersion: async (version) =>
      database.select().from(experiences).where(eq(experiences.version, version)).get() ?? null,
    latest: async (limit) =>
      database.select().from(experiences).orderBy(desc(experiences.version)).limit(limit).all(),
    insert: async (row) =>
      database.insert(experiences).values(row).returning({ version: experiences.version }).get().version,
    async madeBy(day) {
      const found = madeBy.get({ date: day });
      return found ? { version: found.version, learnedTo: found.learnedTo! } : null;
    },
    pastBy: async (day) => pastBy.get({ date: day })?.learnedTo ?? null,
    past: async (learnedTo) =>
      database.select().from(pastExperiences).where(eq(pastExperiences.learnedTo, learnedTo)).get() ?? null,
    async insertPast(row) {
      database.insert(pastExperiences).values(row).onConflictDoNothing().run();
    },
    learnedTo: async () =>
      [experiences, pastExperiences].flatMap((table) =>
        database
          .select({ learnedTo: table.learnedTo })
          .from(table)
          .where(isNotNull(table.learnedTo))
          .all()
          .map(({ learnedTo }) => learnedTo!),
      ),
  };
}

export function lessonRows(database: Database): LessonRows {
  const lastVisit = database
    .select({ seq: max(visits.seq) })
    .from(visits)
    .prepare();
  const visited = and(
    isNull(vehicles.mergedInto),
    exists(
      database
        .select({ one: sql`1` })
        .from(visits)
        .where(eq(visits.vehicleSeq, vehicles.seq)),
    ),
  );

  return {
    lastVisitSeq: async () => lastVisit.get()?.seq ?? 0,
    visitDays: async () =>
      database
        .select({ date: visits.date, visits: count() })
        .from(visits)
        .where(isNull(visits.voided))
        .groupBy(visits.date)
        .orderBy(asc(visits.date))
        .all(),
    modelSizes: async () =>
      database
        .select({ vehicles: count() })
        .from(vehicles)
        .where(visited)
        .groupBy(vehicles.model)
        .all()
        .map((row) => row.vehicles),

    async sample(maxPerModel) {
      // Numbers are bound as reals, whose division has no remainder.
      const max = sql`cast(${maxPerModel} as integer)`;
      const ranked = database
        .select({
          seq: vehicles.seq,
          place:
            sql<number>`row_number() over (partition by ${vehicles.model} order by ${vehicles.seq}) - 1`.as(
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
    },
  };
}

const HASHES = 2 ** 32;

function isSelected({ fleets, model, share }: ScoredSelection): SQL | undefined {
  return and(
    isNull(vehicles.mergedInto),
    isAmong(vehicles.fleet, fleets),
    model === null ? undefined : eq(vehicles.model, model),
    // Multiplicative hashing with the odd number next to 2^32 / the golden ratio; Knuth, The Art of Computer
    // Programming 3, 6.4.
    share === null
      ? undefined
      : sql`(${vehicles.seq} * 2654435761) & ${HASHES - 1} < ${Math.round(HASHES * share)}`,
  );
}

/** A new fit of the past makes every score stale; rows are only ever added to its table. */
const pastFitsMade = sql<number>`(select count(*) from ${pastExperiences})`;
const areCurrent = sql`(${forecastScores.scores} is not null and ${forecastScores.pastFits} = ${pastFitsMade})`;

export function scoreRows(database: Database): ScoreRows {
  return {
    count: async (selection) =>
      database
        .select({ of: count() })
        .from(forecastScores)
        .innerJoin(vehicles, eq(vehicles.seq, forecastScores.vehicleSeq))
        .where(isSelected(selection))
        .get()!.of,
    pending: async (selection) =>
      database
        .select({ seq: vehicles.seq })
        .from(forecastScores)
        .innerJoin(vehicles, eq(vehicles.seq, forecastScores.vehicleSeq))
        .where(and(not(areCurrent), isSelected(selection)))
        .orderBy(asc(vehicles.seq))
        .all()
        .map(({ seq }) => seq),
    current: async (selection, after, limit) =>
      database
        .select({ vehicle: vehicles, scores: forecastScores.scores })
        .from(forecastScores)
        .innerJoin(vehicles, eq(vehicles.seq, forecastScores.vehicleSeq))
        .where(and(areCurrent, gt(vehicles.seq, after), isSelected(selection)))
        .orderBy(asc(vehicles.seq))
        .limit(limit)
        .all()
        .map(({ vehicle, scores }) => ({ vehicle, scores: required(scores, 'scores') })),
    stateOf: async (vehicleSeq) =>
      database
        .select({ revision: forecastScores.revision, pastFits: pastFitsMade })
        .from(forecastScores)
        .where(eq(forecastScores.vehicleSeq, vehicleSeq))
        .get()!,
    async store(vehicleSeq, { revision, pastFits }, scores) {
      database
        .update(forecastScores)
        .set({ scores, pastFits })
        .where(and(eq(forecastScores.vehicleSeq, vehicleSeq), eq(forecastScores.revision, revision)))
        .run();
    },
  };
}
