import { dateIn } from '../core/calendar.js';
import { Refusal } from '../core/refusal.js';
import { accuracyStore } from './accuracy.js';
import { answerKeeper } from './answers.js';
import { correctionStore } from './corrections.js';
import { openDatabase } from './database.js';
import { experienceReader, experienceStore } from './experience.js';
import { vehicleFinder } from './findVehicle.js';
import { historyStore } from './histories.js';
import { historyReader } from './history.js';
import { keyStore } from './keys.js';
import { openPointStore } from './openPoints.js';
import { mergeStore } from './merging.js';
import { outlookStore } from './outlookStore.js';
import { outlookWriter } from './outlooks.js';
import type { StoreParts } from './parts.js';
import { outlookRefresher } from './refresh.js';
import { reportStore } from './reports.js';
import { settingsReader, settingsStore } from './settings.js';
import type { Store } from './store.js';
import { vehicleStore } from './vehicles.js';
import { versionKeeper } from './versions.js';
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
    findVehicle: vehicleFinder(database),
    history,
    versions: versionKeeper(database, clock),
    writeOutlook,
    experience,
    refreshOutlooks: outlookRefresher({ database, write, history, writeOutlook, settings, experience }),
    keepAnswer: (keep, result) => {
      if (!keep || answers.write(keep.slot, keep.answer(result))) return;
      // Another process has answered this key since it was looked up: what was done here must not stand too.
      throw new Refusal('conflict', 'request-under-way', 'a request with this Idempotency-Key came first');
    },
  };
  return {
    keys: keyStore(parts),
    vehicles: vehicleStore(parts),
    visits: visitStore(parts),
    corrections: correctionStore(parts),
    merging: mergeStore(parts),
    histories: historyStore(parts),
    outlooks: outlookStore(parts),
    openPoints: openPointStore(parts),
    reports: reportStore(parts),
    experience: experienceStore(parts),
    accuracy: accuracyStore(parts),
    answers,
    settings: settingsStore(parts),
    check: async () => {
      connection.prepare('select 1 from vehicles limit 1').get();
    },
    close,
  };
}
