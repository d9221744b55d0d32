import { eq, lt, or, sql } from 'drizzle-orm';
import { setImmediate } from 'node:timers/promises';
import type { Cause } from '../core/events/news.js';
import type { Database } from './database.js';
import type { CurrentExperience } from './experience.js';
import type { HistoryReader } from './history.js';
import type { OutlookWriter } from './outlooks.js';
import { outlooks, vehicles } from './schema.js';
import type { Settings } from './settings.js';

/** Outlooks looked up at a time. */
const BATCH = 100;
/** No batch of outlooks holds the writer for longer than about this. */
const BATCH_MS = 25;

interface Parts {
  database: Database;
  write: <Result>(work: () => Result) => Promise<Result>;
  history: HistoryReader;
  writeOutlook: OutlookWriter;
  settings: () => Settings;
  experience: () => CurrentExperience;
}

/**
 * Works out every outlook that another experience or other settings stand behind, in short batches. A run that is
 * asked for while one is under way begins when that one ends.
 */
export function outlookRefresher(parts: Parts): () => Promise<void> {
  const { database, write, history, writeOutlook, settings, experience } = parts;
  const staleOnes = database
    .select({ seq: vehicles.seq, id: vehicles.id, settingsRevision: outlooks.settingsRevision })
    .from(outlooks)
    .innerJoin(vehicles, eq(vehicles.seq, outlooks.vehicleSeq))
    .where(
      or(
        lt(outlooks.experienceVersion, sql.placeholder('version')),
        lt(outlooks.settingsRevision, sql.placeholder('revision')),
      ),
    )
    .limit(BATCH)
    .prepare();
  const bySeq = database
    .select()
    .from(vehicles)
    .where(eq(vehicles.seq, sql.placeholder('seq')))
    .prepare();
  const findStale = () => staleOnes.all({ version: experience().version, revision: settings().revision });

  async function refresh(): Promise<void> {
    for (let stale = findStale(); stale.length > 0; stale = findStale()) {
      while (stale.length > 0) {
        await write(() => {
          const began = performance.now();
          do {
            const { seq, id, settingsRevision } = stale.pop()!;
            const known = { vehicle: bySeq.get({ seq })!.body, visits: history.visitsOf(seq, id) };
            writeOutlook(seq, known, causeOf(settingsRevision, settings()));
          } while (stale.length > 0 && performance.now() - began < BATCH_MS);
        });
        await setImmediate();
      }
    }
  }

  let running: Promise<void> = Promise.resolve();
  return () => {
    running = running.catch(() => undefined).then(refresh);
    return running;
  };
}

/** Why an outlook worked out under an earlier revision of the settings is worked out anew. */
function causeOf(settingsRevision: number, { revision }: Settings): Cause {
  if (settingsRevision < 0) return 'program';
  return settingsRevision < revision ? 'settings' : 'experience';
}
