import { and, lt, or, sql } from 'drizzle-orm';
import { setImmediate } from 'node:timers/promises';
import type { Cause } from '../../core/events/news.js';
import { workOut } from './outlooks.js';
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
 * Works out every outlook that another experience or other settings stand behind. Each is worked out while others may
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
    .select({ seq: outlooks.vehicleSeq, settingsRevision: outlooks.settingsRevision })
    .from(outlooks)
    .where(
      and(
        or(
          lt(outlooks.experienceVersion, sql.placeholder('version')),
          lt(outlooks.settingsRevision, sql.placeholder('revision')),
        ),
        sql`${outlooks.vehicleSeq} % ${of} = ${index}`,
      ),
    )
    .limit(BATCH)
    .prepare();
  const findStale = () => staleOnes.all({ version: experience().version, revision: settings().revision });

  async function workedOut({ seq, settingsRevision }: ReturnType<typeof findStale>[number]) {
    const { row, fingerprint, visits } = stateOf(seq);
    const worked = workOut({ vehicle: row.body, visits: visits() }, experience(), settings());
    await setImmediate();
    const cause = causeOf(settingsRevision, worked.settingsRevision);
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

/** Why an outlook worked out under an earlier revision of the settings is worked out anew. */
function causeOf(settingsRevision: number, revision: number): Cause {
  if (settingsRevision < 0) return 'program';
  return settingsRevision < revision ? 'settings' : 'experience';
}
