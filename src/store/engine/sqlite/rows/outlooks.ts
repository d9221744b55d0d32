import { and, count, eq, gt, lt, or, sql, type Placeholder } from 'drizzle-orm';
import { REPORTED_COLUMNS, type InForce, type OutlookRows } from '../../contract/outlooks.js';
import type { Database } from '../connection.js';
import { upserter } from '../inserts.js';
import { axleOutlooks, outlooks, vehicles, wearAnswers } from '../schema.js';
import { otherAxlesRemover, readyAnswerReader, scoresExpirer } from '../statements.js';

/** Keeps the time of the last change if no reported column has changed. */
const CHANGED_AT = `case when ${REPORTED_COLUMNS.map((name) => `${axleOutlooks[name].name} is excluded.${axleOutlooks[name].name}`).join(' and ')} then changed_at else excluded.changed_at end`;

export function outlookRows(database: Database): OutlookRows {
  const find = database
    .select({ body: outlooks.body })
    .from(outlooks)
    .where(eq(outlooks.vehicleSeq, sql.placeholder('vehicleSeq')))
    .prepare();
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
    .prepare();
  const ready = readyAnswerReader(database);
  const write = upserter(database, outlooks, ['vehicleSeq']);
  const writeAnswer = upserter(database, wearAnswers, ['vehicleSeq']);
  const writeAxle = upserter(database, axleOutlooks, ['vehicleSeq', 'axle'], { changedAt: CHANGED_AT });
  const removeOtherAxles = otherAxlesRemover(database);
  const expireScores = scoresExpirer(database);
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
    .prepare();

  return {
    find: async (vehicleSeq) => find.get({ vehicleSeq })?.body ?? null,
    ofVehicle: async (id) => ofVehicle.get({ id }) ?? null,
    ready: async (vehicleId, program) => ready(vehicleId, program) ?? null,

    async put({ vehicleSeq, answer, axles, expiresScores, ...outlook }) {
      const { settingsRevision, program } = outlook;
      write({ vehicleSeq, ...outlook });
      writeAnswer({ vehicleSeq, settingsRevision, program, ...answer });
      if (expiresScores) expireScores(vehicleSeq);
      removeOtherAxles(
        vehicleSeq,
        axles.map(({ axle }) => axle),
      );
      for (const axle of axles) writeAxle({ vehicleSeq, ...axle });
    },

    async remove(vehicleSeq) {
      for (const table of [axleOutlooks, wearAnswers, outlooks])
        database.delete(table).where(eq(table.vehicleSeq, vehicleSeq)).run();
    },

    stale: async (inForce, share, limit) => stale.all({ ...inForce, ...share, limit }),
    countStale: async (inForce) =>
      database.select({ rows: count() }).from(outlooks).where(isStale(inForce)).get()!.rows,
  };
}

/** Selects outlooks from another experience, other settings or another program. */
function isStale({ version, revision, program }: InForce | Record<keyof InForce, Placeholder>) {
  const { experienceVersion, settingsRevision, program: source } = outlooks;
  return or(
    lt(experienceVersion, version),
    lt(settingsRevision, revision),
    // Not `<>`, which cannot use an index.
    lt(source, program),
    gt(source, program),
  );
}
