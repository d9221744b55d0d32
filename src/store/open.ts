import { dateIn } from '../core/calendar.js';
import { answerKeeper } from './answers.js';
import { openDatabase } from './database.js';
import { experienceReader, experienceStore } from './experience.js';
import { historyReader } from './history.js';
import { keyStore } from './keys.js';
import { openPointStore } from './openPoints.js';
import { outlookStore } from './outlookStore.js';
import { outlookWriter } from './outlooks.js';
import type { StoreParts } from './parts.js';
import { outlookRefresher } from './refresh.js';
import { reportStore } from './reports.js';
import { settingsReader, settingsStore } from './settings.js';
import type { Store } from './store.js';
import { vehicleStore } from './vehicles.js';
import { visitStore } from './visits.js';

export interface StoreOptions {
  file: string;
  timeZone: string;
  clock?: () => Date;
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
}: StoreOptions): Store & { close(): void } {
  const { database, connection, close } = openDatabase(file);
  const answers = answerKeeper(database, clock);
  const settings = settingsReader(database);
  const experience = experienceReader(database);
  const write: StoreParts['write'] = (work) => database.transaction(work, { behavior: 'immediate' });
  const history = historyReader(database);
  const writeOutlook = outlookWriter(database, settings, experience);
  const parts: StoreParts = {
    database,
    clock,
    today: () => dateIn(clock(), timeZone),
    settings,
    write,
    history,
    writeOutlook,
    experience,
    refreshOutlooks: outlookRefresher({ database, write, history, writeOutlook, settings, experience }),
    keepAnswer: (keep, result) => {
      if (keep) answers.write(keep.slot, keep.answer(result));
    },
  };
  return {
    keys: keyStore(parts),
    vehicles: vehicleStore(parts),
    visits: visitStore(parts),
    outlooks: outlookStore(parts),
    openPoints: openPointStore(parts),
    reports: reportStore(parts),
    experience: experienceStore(parts),
    answers,
    settings: settingsStore(parts),
    check: async () => {
      connection.prepare('select 1 from vehicles limit 1').get();
    },
    close,
  };
}
