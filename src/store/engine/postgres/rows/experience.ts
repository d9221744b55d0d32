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
import { itemAt, required } from '../../../../core/items.js';
import type { ExperienceRows, LessonRows, ScoredSelection, ScoreRows } from '../../contract/experience.js';
import type { Database } from '../connections.js';
import { experiences, forecastScores, pastExperiences, vehicles, visits } from '../schema.js';
import { isAmong } from '../visibility.js';

export function experienceRows(database: Database): ExperienceRows {
  const date = sql.placeholder('date');
  const latestVersion = database
    .select({ version: max(experiences.version) })
    .from(experiences)
    .prepare('');
  const madeBy = database
    .select({ version: experiences.version, learnedTo: experiences.learnedTo })
    .from(experiences)
    .where(lte(experiences.learnedTo, date))
    .orderBy(desc(experiences.learnedTo), desc(experiences.version))
    .limit(1)
    .prepare('');
  const pastBy = database
    .select({ learnedTo: pastExperiences.learnedTo })
    .from(pastExperiences)
    .where(lte(pastExperiences.learnedTo, date))
    .orderBy(desc(pastExperiences.learnedTo))
    .limit(1)
    .prepare('');

  return {
    latestVersion: async () => itemAt(await latestVersion.execute(), 0).version ?? 0,
    byVersion: async (version) =>
      (await database.select().from(experiences).where(eq(experiences.version, version)))[0] ?? null,
    latest: async (limit) =>
      database.select().from(experiences).orderBy(desc(experiences.version)).limit(limit),
    async insert(row) {
      const [inserted] = await database
        .insert(experiences)
        .values({ ...row, version: sql`(select coalesce(max(version), 0) + 1 from ${experiences})` })
        .returning({ version: experiences.version });
      return required(inserted, 'inserted row').version;
    },
    async madeBy(day) {
      const [found] = await madeBy.execute({ date: day });
      return found ? { version: found.version, learnedTo: found.learnedTo! } : null;
    },
    pastBy: async (day) => (await pastBy.execute({ date: day }))[0]?.learnedTo ?? null,
    past: async (learnedTo) =>
      (await database.select().from(pastExperiences).where(eq(pastExperiences.learnedTo, learnedTo)))[0] ??
      null,
    async insertPast(row) {
      await database.insert(pastExperiences).values(row).onConflictDoNothing();
    },
    async learnedTo() {
      const datesOf = (table: typeof experiences | typeof pastExperiences) =>
        database.select({ learnedTo: table.learnedTo }).from(table).where(isNotNull(table.learnedTo));
      const dates = [...(await datesOf(experiences)), ...(await datesOf(pastExperiences))];
      return dates.map(({ learnedTo }) => learnedTo!);
    },
  };
}

export function lessonRows(database: Database): LessonRows {
  const lastVisit = database
    .select({ seq: max(visits.seq) })
    .from(visits)
    .prepare('');
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
    lastVisitSeq: async () => itemAt(await lastVisit.execute(), 0).seq ?? 0,
    visitDays: async () =>
      database
        .select({ date: visits.date, visits: count() })
        .from(visits)
        .where(isNull(visits.voided))
        .groupBy(visits.date)
        .orderBy(asc(visits.date)),
    async modelSizes() {
      const rows = await database
        .select({ vehicles: count() })
        .from(vehicles)
        .where(visited)
        .groupBy(vehicles.model);
      return rows.map((row) => row.vehicles);
    },

    async sample(maxPerModel) {
      const max = sql`${maxPerModel}::bigint`;
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
      const rows = await database
        .select({ seq: ranked.seq })
        .from(ranked)
        .where(
          sql`${ranked.peers} <= ${max} or (${ranked.place} + 1) * ${max} / ${ranked.peers} > ${ranked.place} * ${max} / ${ranked.peers}`,
        )
        .orderBy(ranked.seq);
      return rows.map(({ seq }) => seq);
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
      : sql`((${vehicles.seq} * 2654435761) & ${HASHES - 1}::bigint) < ${Math.round(HASHES * share)}::bigint`,
  );
}

/** A new fit of the past makes every score stale; rows are only ever added to its table. */
const pastFitsMade = sql<number>`(select count(*)::int from ${pastExperiences})`;
const areCurrent = sql`(${forecastScores.scores} is not null and ${forecastScores.pastFits} = ${pastFitsMade})`;

export function scoreRows(database: Database): ScoreRows {
  return {
    async count(selection) {
      const [counted] = await database
        .select({ of: count() })
        .from(forecastScores)
        .innerJoin(vehicles, eq(vehicles.seq, forecastScores.vehicleSeq))
        .where(isSelected(selection));
      return required(counted, 'count').of;
    },
    async pending(selection) {
      const rows = await database
        .select({ seq: vehicles.seq })
        .from(forecastScores)
        .innerJoin(vehicles, eq(vehicles.seq, forecastScores.vehicleSeq))
        .where(and(not(areCurrent), isSelected(selection)))
        .orderBy(asc(vehicles.seq));
      return rows.map(({ seq }) => seq);
    },
    async current(selection, after, limit) {
      const rows = await database
        .select({ vehicle: vehicles, scores: forecastScores.scores })
        .from(forecastScores)
        .innerJoin(vehicles, eq(vehicles.seq, forecastScores.vehicleSeq))
        .where(and(areCurrent, gt(vehicles.seq, after), isSelected(selection)))
        .orderBy(asc(vehicles.seq))
        .limit(limit);
      return rows.map(({ vehicle, scores }) => ({ vehicle, scores: required(scores, 'scores') }));
    },
    async stateOf(vehicleSeq) {
      const [row] = await database
        .select({ revision: forecastScores.revision, pastFits: pastFitsMade })
        .from(forecastScores)
        .where(eq(forecastScores.vehicleSeq, vehicleSeq));
      return required(row, 'row');
    },
    async store(vehicleSeq, { revision, pastFits }, scores) {
      await database
        .update(forecastScores)
        .set({ scores, pastFits })
        .where(and(eq(forecastScores.vehicleSeq, vehicleSeq), eq(forecastScores.revision, revision)));
    },
  };
}
