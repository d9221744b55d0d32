import { and, gt, lt, or, sql, type Placeholder } from 'drizzle-orm';
import { setImmediate } from 'node:timers/promises';
import type { Cause } from '../../core/events/news.js';
import { workOut } from './outlooks.js';
import { programDigest } from './program.js';
import type { StoreParts } from '../parts.js';
import { outlooks } from '../engine/sqlite/schema.js';
import { vehicleStateReader } from './vehicleState.js';

/** Outlooks worked out before they are written together. */
const BATCH = 50;

/** Which of several processes that share the work this one is, counted from 0. */
export interface Share {
  index: number;
  of: number;
}

/**
 * Works out every outlook that another experience, other settings or another program stand behind. Each is worked out while others may
 * write, and written in a short batch unless its vehicle has changed meanwhile, which has made it anew already. A run
 * that is asked for while one is under way begins when that one ends.
 */
export function outlookRefresher(
  parts: Pick<StoreParts, 'database' | 'write' | 'history' | 'settings' | 'experience' | 'recordOutlook'>,
  { index, of }: Share = { index: 0, of: 1 },
): () => Promise<void> {
  const { database, write, settings, experience, recordOutlook } = parts;
  const stateOf = vehicleStateReader(parts);
  const staleOnes = database
    .select({
      seq: outlooks.vehicleSeq,
      settingsRevision: outlooks.settingsRevision,
      program: outlooks.program,
    })
    .from(outlooks)
    .where(
      and(
        isStale({ version: sql.placeholder('version'), revision: sql.placeholder('revision') }),
        sql`${outlooks.vehicleSeq} % ${of} = ${index}`,
      ),
    )
    .limit(BATCH)
    .prepare();
  const findStale = () => staleOnes.all({ version: experience().version, revision: settings().revision });

  async function workedOut({ seq, ...former }: ReturnType<typeof findStale>[number]) {
    const { row, fingerprint, visits } = stateOf(seq);
    const worked = workOut({ vehicle: row.body, visits: visits() }, experience(), settings());
    await setImmediate();
    const cause = causeOf(former, worked.settingsRevision);
    return { seq, vehicle: row.body, fingerprint, worked, cause };
  }

  async function refresh(): Promise<void> {
    for (let stale = findStale(); stale.length > 0; stale = findStale()) {
      const batch: Awaited<ReturnType<typeof workedOut>>[] = [];
      for (const one of stale) batch.push(await workedOut(one));
      await write(() => {
        for (const { seq, vehicle, fingerprint, worked, cause } of batch) {
          if (stateOf(seq).fingerprint === fingerprint) recordOutlook(seq, vehicle, worked, cause);
        }
      });
    }
  }

  let running: Promise<void> = Promise.resolve();
  return () => {
    running = running.catch(() => undefined).then(refresh);
    return running;
  };
}

/** Outlooks that another experience, other settings or another program stand behind. */
export function isStale({ version, revision }: Record<'version' | 'revision', number | Placeholder>) {
  const { experienceVersion, settingsRevision, program } = outlooks;
  return or(
    lt(experienceVersion, version),
    lt(settingsRevision, revision),
    // Not `<>`, for which no index can be used.
    lt(program, programDigest()),
    gt(program, programDigest()),
  );
}

/** Why an outlook worked out by an earlier program, or under an earlier revision of the settings, is worked out anew. */
function causeOf(
  { settingsRevision, program }: Pick<typeof outlooks.$inferSelect, 'settingsRevision' | 'program'>,
  revision: number,
): Cause {
  if (settingsRevision < 0 || program !== programDigest()) return 'program';
  return settingsRevision < revision ? 'settings' : 'experience';
}
