import { and, gt, lt, or, sql, type Placeholder } from 'drizzle-orm';
import { setImmediate } from 'node:timers/promises';
import type { Cause } from '../../core/events/news.js';
import { workOut } from './outlooks.js';
import { programDigest } from './program.js';
import type { StoreParts } from '../parts.js';
import { outlooks } from '../engine/sqlite/schema.js';
import { vehicleStateReader } from './vehicleState.js';

/** Outlooks computed before they are written together. */
const BATCH = 50;

/** The index, from 0, of this process among several that share the work. */
export interface Share {
  index: number;
  of: number;
}

/**
 * Recomputes every stale outlook: one from another experience, other settings or another program. Others may write
 * during the computation; results are written in short batches, except for vehicles that have changed meanwhile and are
 * therefore already current. A run requested during another starts when that one ends.
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

/** Selects outlooks from another experience, other settings or another program. */
export function isStale({ version, revision }: Record<'version' | 'revision', number | Placeholder>) {
  const { experienceVersion, settingsRevision, program } = outlooks;
  return or(
    lt(experienceVersion, version),
    lt(settingsRevision, revision),
    // Not `<>`, which cannot use an index.
    lt(program, programDigest()),
    gt(program, programDigest()),
  );
}

/** Why an outlook from an earlier program or settings revision is recomputed. */
function causeOf(
  { settingsRevision, program }: Pick<typeof outlooks.$inferSelect, 'settingsRevision' | 'program'>,
  revision: number,
): Cause {
  if (settingsRevision < 0 || program !== programDigest()) return 'program';
  return settingsRevision < revision ? 'settings' : 'experience';
}
