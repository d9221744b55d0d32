import type { WorkElsewhere } from '../core/assessment/sharedOutlook.js';
import { dateIn } from '../core/calendar.js';
import { accuracyStore } from './experience/accuracy.js';
import { outcomeKeeper, outcomeStore } from './operation/outcomes.js';
import { sightReader } from './vehicles/beforeTransfer.js';
import { calendarStore } from './access/calendars.js';
import { correctionStore } from './visits/corrections.js';
import type { Database } from './engine/sqlite/connection.js';
import { openEngine, type Engine, type EngineOptions } from './engine/sqlite/engine.js';
import { withStoreFaults } from './engine/sqlite/faults.js';
import { eventLog } from './events/events.js';
import { figuresReader } from './operation/figures.js';
import { experienceReader, experienceStore } from './experience/experience.js';
import { vehicleFinder } from './vehicles/findVehicle.js';
import { historyStore } from './vehicles/histories.js';
import { exportStore } from './imports/exports.js';
import { historyReader } from './visits/history.js';
import { importStore } from './imports/imports.js';
import { keyStore } from './access/keys.js';
import { keyUses } from './access/keyUses.js';
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
import { settingsReader } from './settings/inForce.js';
import { settingsStore } from './settings/settings.js';
import type { Store } from './contract/store.js';
import { vehicleStore } from './vehicles/vehicles.js';
import { versionKeeper } from './vehicles/versions.js';
import { visitStore } from './visits/visits.js';
import { webhookStore } from './events/webhooks.js';
import { whileUnchanged } from './engine/sqlite/whileUnchanged.js';

export interface StoreOptions extends EngineOptions {
  timeZone: string;
  clock?: () => Date;
  /** The share of outlooks that this process recomputes, if several work together. */
  share?: Share;
  /** Offloads the computation of axles, so that this process can do other work. */
  elsewhere?: WorkElsewhere;
}

/**
 * Opens the store and migrates its database.
 *
 * @throws DatabaseUnusable
 */
export function openStore(options: StoreOptions): Store & { close(): void } {
  const engine = openEngine(options);
  // One in-flight counter, shared by visits and imports.
  const shareWork = sharedWork(options.elsewhere ?? (() => null));
  const partsOn = (database: Database) => ({ ...sharedParts(engine, database, options), shareWork });
  const parts = partsOn(engine.database);
  const imports = importStore(parts, () => {
    const writer = engine.openLongWriter();
    return { writer, parts: partsOn(writer.database) };
  });
  return {
    ...withStoreFaults(operations(parts, imports, engine)),
    close: () => {
      imports.close();
      engine.close();
    },
  };
}

/** @param database one of the engine's connections */
function sharedParts(
  engine: Engine,
  database: Database,
  { timeZone, clock = () => new Date(), share }: StoreOptions,
): Omit<StoreParts, 'shareWork'> {
  const settings = settingsReader(database);
  const experience = experienceReader(database);
  const write = engine.writeTo(database);
  const history = historyReader(database);
  const today = () => dateIn(clock(), timeZone);
  const events = eventLog({ database, clock, today, settings });
  const recordOutlook = outlookRecorder(database, clock, events.listen);
  return {
    database,
    clock,
    today,
    settings,
    write,
    keyCaller: keyUses({ database, clock, write }),
    writeFromReserve: engine.writeFromReserveTo(database),
    findVehicle: vehicleFinder(database),
    sightOf: sightReader(database, settings),
    history,
    versions: versionKeeper(database, clock),
    recordOutlook,
    writeOutlook: outlookWriter(recordOutlook, settings, experience),
    events,
    experience,
    whileUnchanged: whileUnchanged(database),
    refreshOutlooks: outlookRefresher(
      { database, write, history, settings, experience, recordOutlook },
      share,
    ),
    outcomes: outcomeKeeper(database, clock),
  };
}

function operations(parts: StoreParts, imports: Store['imports'], engine: Engine): Store {
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
    outcomes: outcomeStore(parts.outcomes, parts.write),
    settings: settingsStore(parts),
    retention: retentionStore(parts),
    webhooks: webhookStore(parts),
    outbox: outboxStore(parts),
    figures: figuresReader(parts),
    secret: async (name) => secretOf(parts, name),
    check: async () => engine.check(),
  };
}
