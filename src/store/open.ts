import type { Policy } from '../core/assessment/outlook.js';
import { dateIn } from '../core/calendar.js';
import { accuracyStore } from './accuracy.js';
import { answerKeeper } from './answers.js';
import { openDatabase } from './database.js';
import { experienceReader, experienceStore } from './experience.js';
import { historyReader } from './history.js';
import { keyStore } from './keys.js';
import { outlookStore } from './outlookStore.js';
import { outlookWriter } from './outlooks.js';
import type { StoreParts } from './parts.js';
import { reportStore } from './reports.js';
import type { Store } from './store.js';
import { vehicleStore } from './vehicles.js';
import { visitStore } from './visits.js';

/** Half a year: what is assumed of a vehicle that has no rhythm of visits. */
export const DEFAULT_POLICY: Policy = { visitIntervalDays: 182 };

export interface StoreOptions {
  file: string;
  timeZone: string;
  clock?: () => Date;
  policy?: Policy;
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
}: StoreOptions): Store & { close(): void } {
  const { database, connection, close } = openDatabase(file);
  const answers = answerKeeper(database, clock);
  const parts: StoreParts = {
    database,
    clock,
    today: () => dateIn(clock(), timeZone),
    policy,
    write: (work) => database.transaction(work, { behavior: 'immediate' }),
    history: historyReader(database),
    writeOutlook: outlookWriter(database, policy, experienceReader(database)),
    keepAnswer: (keep, result) => {
      if (keep) answers.write(keep.slot, keep.answer(result));
    },
  };
  return {
    keys: keyStore(parts),
    vehicles: vehicleStore(parts),
    visits: visitStore(parts),
    outlooks: outlookStore(parts),
    reports: reportStore(parts),
    experience: experienceStore(parts),
    accuracy: accuracyStore(parts),
    answers,
    policy,
    check: async () => {
      connection.prepare('select 1 from vehicles limit 1').get();
    },
    close,
  };
}
