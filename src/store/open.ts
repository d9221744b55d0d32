import { drizzle } from 'drizzle-orm/better-sqlite3';
import type { Policy } from '../core/assessment/outlook.js';
import { dateIn } from '../core/calendar.js';
import { answerKeeper } from './answers.js';
import { openConnection, openDatabase, type Database } from './database.js';
import { experienceReader, experienceStore } from './experience.js';
import { exportStore } from './exports.js';
import { historyReader } from './history.js';
import { importStore } from './imports.js';
import { keyStore } from './keys.js';
import { outlookStore } from './outlookStore.js';
import { outlookWriter } from './outlooks.js';
import type { StoreParts } from './parts.js';
import { reportStore } from './reports.js';
import type { Store } from './store.js';
import { writeTurns } from './turns.js';
import { vehicleStore } from './vehicles.js';
import { visitStore } from './visits.js';

/** Half a year: what is assumed of a vehicle that has no rhythm of visits. */
export const DEFAULT_POLICY: Policy = { visitIntervalDays: 182 };

export interface StoreOptions {
  file: string;
  timeZone: string;
  clock?: () => Date;
  policy?: Policy;
  /**
   * How long a write waits, and its whole process with it, for a writer in another process: short in a server, long
   * enough to outlast a server's import elsewhere.
   */
  patienceMs?: number;
}

/**
 * Opens the SQLite store, migrating the file first.
 *
 * @throws DatabaseUnusable
 */
export function openStore({
  file,
  timeZone,
  clock = () => new Date(),
  policy = DEFAULT_POLICY,
  patienceMs = 1000,
}: StoreOptions): Store & { close(): void } {
  const { database, connection, close } = openDatabase(file, patienceMs);
  const turns = writeTurns();
  const partsOf = (own: Database): StoreParts => {
    const answers = answerKeeper(own, clock);
    return {
      database: own,
      clock,
      today: () => dateIn(clock(), timeZone),
      policy,
      write: (work) => turns.take(() => own.transaction(work, { behavior: 'immediate' })),
      history: historyReader(own),
      writeOutlook: outlookWriter(own, policy, experienceReader(own)),
      keepAnswer: (keep, result) => {
        if (keep) answers.write(keep.slot, keep.answer(result));
      },
    };
  };
  const parts = partsOf(database);
  const answers = answerKeeper(database, clock);
  const imports = importStore(parts, {
    turns,
    openOwn: () => {
      const own = openConnection(file, patienceMs);
      return { connection: own, parts: partsOf(drizzle(own)) };
    },
  });
  return {
    keys: keyStore(parts),
    vehicles: vehicleStore(parts),
    visits: visitStore(parts),
    outlooks: outlookStore(parts),
    reports: reportStore(parts),
    experience: experienceStore(parts),
    imports,
    exports: exportStore(parts),
    answers: { ...answers, keep: (slot, answer) => parts.write(() => answers.write(slot, answer)) },
    policy,
    check: async () => {
      connection.prepare('select 1 from vehicles limit 1').get();
    },
    close: () => {
      imports.close();
      close();
    },
  };
}
