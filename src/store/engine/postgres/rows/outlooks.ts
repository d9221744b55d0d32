import {
  and,
  count,
  eq,
  getTableColumns,
  lt,
  ne,
  notInArray,
  or,
  sql,
  type Placeholder,
  type SQL,
} from 'drizzle-orm';
import { required } from '../../../../core/items.js';
import { REPORTED_COLUMNS, type InForce, type OutlookRows } from '../../contract/outlooks.js';
import type { Database } from '../connections.js';
import { axleOutlooks, forecastScores, outlooks, vehicles, wearAnswers } from '../schema.js';
import { SETTINGS_REVISION } from './settings.js';

const columns = getTableColumns(axleOutlooks);

/** In an upsert, the new value. */
const inserted = (name: string): SQL => sql.raw(`excluded."${name}"`);

/** Keeps the time of the last change if no reported column has changed. JSON is compared as text. */
const CHANGED_AT = sql`case when ${sql.join(
  REPORTED_COLUMNS.map(
    (name) => sql`${columns[name]}::text is not distinct from ${inserted(columns[name].name)}::text`,
  ),
  sql` and `,
)} then ${axleOutlooks.changedAt} else ${inserted('changed_at')} end`;

const AXLE_UPDATE = {
  ...Object.fromEntries(Object.entries(columns).map(([key, { name }]) => [key, inserted(name)])),
  changedAt: CHANGED_AT,
};

export function outlookRows(database: Database): OutlookRows {
  const find = database
    .select({ body: outlooks.body })
    .from(outlooks)
    .where(eq(outlooks.vehicleSeq, sql.placeholder('vehicleSeq')))
    .prepare('');
  const ofVehicle = database
    .select({
      seq: vehicles.seq,
      fleet: vehicles.fleet,
      body: outlooks.body,
      settingsRevision: outlooks.settingsRevision,
      program: outlooks.program,
    })
    .from(vehicles)
    .innerJoin(outlooks, eq(outlooks.vehicleSeq, vehicles.seq))
    .where(eq(vehicles.id, sql.placeholder('id')))
    .prepare('');
  const ready = database
    .select({ open: sql<string>`${wearAnswers.open}::text`, text: wearAnswers.text })
    .from(vehicles)
    .innerJoin(wearAnswers, eq(wearAnswers.vehicleSeq, vehicles.seq))
    .where(
      and(
        eq(vehicles.id, sql.placeholder('id')),
        eq(wearAnswers.settingsRevision, SETTINGS_REVISION),
        eq(wearAnswers.program, sql.placeholder('program')),
      ),
    )
    .prepare('');
  const stale = database
    .select({
      vehicleSeq: outlooks.vehicleSeq,
      settingsRevision: outlooks.settingsRevision,
      program: outlooks.program,
    })
    .from(outlooks)
    .where(
      and(
        isStale({
          version: sql.placeholder('version'),
          revision: sql.placeholder('revision'),
          program: sql.placeholder('program'),
        }),
        sql`${outlooks.vehicleSeq} % ${sql.placeholder('of')} = ${sql.placeholder('index')}`,
      ),
    )
    .limit(sql.placeholder('limit'))
    .prepare('');

  /** Replaces the rows of a vehicle's axles, and removes those of axles that it no longer has. */
  async function putAxles(vehicleSeq: number, axles: readonly (typeof axleOutlooks.$inferInsert)[]) {
    const isOther = notInArray(
      axleOutlooks.axle,
      axles.map(({ axle }) => axle),
    );
    await database
      .delete(axleOutlooks)
      .where(and(eq(axleOutlooks.vehicleSeq, vehicleSeq), axles.length > 0 ? isOther : undefined));
    if (axles.length === 0) return;
    await database
      .insert(axleOutlooks)
      .values([...axles])
      .onConflictDoUpdate({ target: [axleOutlooks.vehicleSeq, axleOutlooks.axle], set: AXLE_UPDATE });
  }

  return {
    find: async (vehicleSeq) => (await find.execute({ vehicleSeq }))[0]?.body ?? null,
    ofVehicle: async (id) => (await ofVehicle.execute({ id }))[0] ?? null,
    async ready(id, program) {
      const [answer] = await ready.execute({ id, program });
      return answer ? { open: answer.open, text: Buffer.from(answer.text) } : null;
    },

    async put({ vehicleSeq, answer, axles, expiresScores, ...outlook }) {
      const { settingsRevision, program } = outlook;
      await database
        .insert(outlooks)
        .values({ vehicleSeq, ...outlook })
        .onConflictDoUpdate({ target: outlooks.vehicleSeq, set: outlook });
      const ready = {
        settingsRevision,
        program,
        ...(answer as Pick<typeof wearAnswers.$inferInsert, 'open' | 'text'>),
      };
      await database
        .insert(wearAnswers)
        .values({ ...ready, vehicleSeq })
        .onConflictDoUpdate({ target: wearAnswers.vehicleSeq, set: ready });
      if (expiresScores) await expireScores(database, vehicleSeq);
      await putAxles(
        vehicleSeq,
        axles.map((axle) => ({ vehicleSeq, ...axle })),
      );
    },

    async remove(vehicleSeq) {
      for (const table of [axleOutlooks, wearAnswers, outlooks])
        await database.delete(table).where(eq(table.vehicleSeq, vehicleSeq));
    },

    stale: async (inForce, share, limit) => stale.execute({ ...inForce, ...share, limit }),
    async countStale(inForce) {
      const [counted] = await database.select({ rows: count() }).from(outlooks).where(isStale(inForce));
      return required(counted, 'count').rows;
    },
  };
}

async function expireScores(database: Database, vehicleSeq: number): Promise<void> {
  await database
    .insert(forecastScores)
    .values({ vehicleSeq, scores: null, revision: 1 })
    .onConflictDoUpdate({
      target: forecastScores.vehicleSeq,
      set: { scores: null, revision: sql`${forecastScores.revision} + 1` },
    });
}

/** Selects outlooks from another experience, other settings or another program. */
function isStale({ version, revision, program }: InForce | Record<keyof InForce, Placeholder>) {
  const { experienceVersion, settingsRevision, program: source } = outlooks;
  return or(lt(experienceVersion, version), lt(settingsRevision, revision), ne(source, program));
}
