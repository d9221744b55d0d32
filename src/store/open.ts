import { drizzle } from 'drizzle-orm/better-sqlite3';
import type { WorkElsewhere } from '../core/assessment/sharedOutlook.js';
import { dateIn } from '../core/calendar.js';
import { Refusal } from '../core/refusal.js';
import { accuracyStore } from './experience/accuracy.js';
import { answerKeeper } from './operation/answers.js';
import { sightReader } from './vehicles/beforeTransfer.js';
import { calendarStore } from './access/calendars.js';
import { correctionStore } from './visits/corrections.js';
import { openConnection, openDatabase, type Database } from './engine/sqlite/database.js';
import { eventLog } from './events/events.js';
import { figuresReader } from './operation/figures.js';
import { experienceReader, experienceStore } from './experience/experience.js';
import { freeReserve, isDiskFull } from './engine/sqlite/files.js';
import { vehicleFinder } from './vehicles/findVehicle.js';
import { historyStore } from './vehicles/histories.js';
import { exportStore } from './imports/exports.js';
import { historyReader } from './visits/history.js';
import { importStore } from './imports/imports.js';
import { keyStore, keyUses } from './access/keys.js';
import { openPointStore } from './visits/openPoints.js';
import { mergeStore } from './vehicles/merging.js';
import { outlookStore } from './outlooks/outlookStore.js';
import { outlookRecorder, outlookWriter, sharedWork } from './outlooks/outlooks.js';
import { outboxStore } from './events/outbox.js';
import type { StoreParts } from './parts.js';
import { planningStore } from './outlooks/planning.js';
import { outlookRefresher, type Share } from './outlooks/refresh.js';
import { reportStore } from './reports/reports.js';
import { retentionStore } from './operation/retention.js';
import { secretOf } from './operation/secrets.js';
import { sessionStore } from './access/sessions.js';
import { settingsReader, settingsStore } from './settings/settings.js';
import type { Store } from './contract/store.js';
import { writeTurns } from './engine/sqlite/turns.js';
import { vehicleStore } from './vehicles/vehicles.js';
import { versionKeeper } from './vehicles/versions.js';
import { visitStore } from './visits/visits.js';
import { webhookStore } from './events/webhooks.js';
import { whileUnchanged } from './engine/sqlite/whileUnchanged.js';

export interface StoreOptions {
  file: string;
  timeZone: string;
  clock?: () => Date;
  /**
   * How long a write waits for a writer in another process: short in a server, long enough to outlast a server's
   * import elsewhere.
   */
  patienceMs?: number;
  /** Which share of the outlooks this process works out anew, where several do it together. */
  share?: Share;
  /** Works axles out elsewhere, so that this process can do other things meanwhile. */
  elsewhere?: WorkElsewhere;
  /** Told of every write, and how long it waited. */
  onWrite?: (waitSeconds: number) => void;
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
  patienceMs = 5000,
  share,
  elsewhere = () => null,
  onWrite,
}: StoreOptions): Store & { close(): void } {
  const { database, connection, close } = openDatabase(file, patienceMs);
  const turns = writeTurns(patienceMs, onWrite);
  const shareWork = sharedWork(elsewhere);
  const partsOf = (own: Database): StoreParts => {
    const settings = settingsReader(own);
    const experience = experienceReader(own);
    const write: StoreParts['write'] = (work) =>
      turns.take(() => own.transaction(work, { behavior: 'immediate' }));
    const writeFromReserve: StoreParts['write'] = async (work) => {
      try {
        return await write(work);
      } catch (fault) {
        if (!isDiskFull(fault)) throw fault;
        return write(() => {
          // No other writer can take the room now.
          freeReserve(file);
          return work();
        });
      }
    };
    const history = historyReader(own);
    const today = () => dateIn(clock(), timeZone);
    const events = eventLog({ database: own, clock, today, settings });
    const recordOutlook = outlookRecorder(own, clock, events.listen);
    const writeOutlook = outlookWriter(recordOutlook, settings, experience);
    const answers = answerKeeper(own, clock);
    return {
      database: own,
      clock,
      today,
      settings,
      write,
      keyCaller: keyUses({ database: own, clock, write }),
      writeFromReserve,
      findVehicle: vehicleFinder(own),
      sightOf: sightReader(own, settings),
      history,
      versions: versionKeeper(own, clock),
      recordOutlook,
      writeOutlook,
      events,
      experience,
      whileUnchanged: whileUnchanged(own),
      shareWork,
      refreshOutlooks: outlookRefresher(
        { database: own, write, history, settings, experience, recordOutlook },
        share,
      ),
      keepAnswer: (keep, result) => {
        if (!keep || answers.write(keep.slot, keep.answer(result))) return;
        // Another process has answered this key since it was looked up: what was done here must not stand too.
        throw new Refusal('conflict', 'request-under-way', 'a request with this Idempotency-Key came first');
      },
    };
  };
  const parts = partsOf(database);
  const kept = answerKeeper(database, clock);
  const imports = importStore(parts, {
    turns,
    openOwn: () => {
      const own = openConnection(file);
      return { connection: own, parts: partsOf(drizzle(own)) };
    },
  });
  return {
    keys: keyStore(parts),
    sessions: sessionStore(parts),
    vehicles: vehicleStore(parts),
    visits: visitStore(parts),
    corrections: correctionStore(parts),
    merging: mergeStore(parts),
    histories: historyStore(parts),
    outlooks: outlookStore(parts),
    openPoints: openPointStore(parts),
    planning: planningStore(parts),
    reports: reportStore(parts),
    calendars: calendarStore(parts),
    experience: experienceStore(parts),
    accuracy: accuracyStore(parts),
    imports,
    exports: exportStore(parts),
    answers: {
      find: kept.find,
      keep: async (slot, answer) => void (await parts.write(() => kept.write(slot, answer))),
      forget: (slot) => parts.write(() => kept.remove(slot)),
    },
    settings: settingsStore(parts),
    retention: retentionStore(parts),
    webhooks: webhookStore(parts),
    outbox: outboxStore(parts),
    figures: figuresReader(parts),
    secret: async (name) => secretOf(parts, name),
    check: async () => {
      connection.prepare('select 1 from vehicles limit 1').get();
    },
    close: () => {
      imports.close();
      close();
    },
  };
}
