import type { WorkElsewhere } from '../core/assessment/sharedOutlook.js';
import { dateIn } from '../core/calendar.js';
import { calendarStore } from './access/calendars.js';
import { keyStore } from './access/keys.js';
import { keyUses } from './access/keyUses.js';
import { sessionStore } from './access/sessions.js';
import type { Store } from './contract/store.js';
import type { Components, Engine, ReadingComponents } from './engine/contract/engine.js';
import type { Share } from './engine/contract/outlooks.js';
import type { PostgresOptions } from './engine/postgres/engine.js';
import { openEngine, type EngineOptions } from './engine/sqlite/engine.js';
import { outboxStore } from './events/outbox.js';
import { webhookStore } from './events/webhooks.js';
import { accuracyStore } from './experience/accuracy.js';
import { experienceReader, experienceStore } from './experience/experience.js';
import { exportStore } from './imports/exports.js';
import { importStore } from './imports/imports.js';
import { figuresOf } from './operation/figures.js';
import { outcomeStore } from './operation/outcomeStore.js';
import { retentionStore } from './operation/retention.js';
import { secretOf } from './operation/secrets.js';
import { outlookStore } from './outlooks/outlookStore.js';
import { sharedWork } from './outlooks/outlooks.js';
import { planningStore } from './outlooks/planning.js';
import { outlookRefresher } from './outlooks/refresh.js';
import type { OnView, Rules, StoreParts } from './parts.js';
import { reportStore } from './reports/reports.js';
import { readingRules, writingRules } from './rules.js';
import { withStoreFaults } from './storeFaults.js';
import { settingsReader } from './settings/inForce.js';
import { settingsStore } from './settings/settings.js';
import { historyStore } from './vehicles/histories.js';
import { mergeStore } from './vehicles/merging.js';
import { vehicleStore } from './vehicles/vehicles.js';
import { correctionStore } from './visits/corrections.js';
import { openPointStore } from './visits/openPoints.js';
import { visitStore } from './visits/visits.js';

interface SharedOptions {
  timeZone: string;
  clock?: () => Date;
  /** The share of outlooks that this process recomputes, if several work together. */
  share?: Share;
  /** Offloads the computation of axles, so that this process can do other work. */
  elsewhere?: WorkElsewhere;
}

export type StoreOptions = SharedOptions & EngineOptions;
export type ServerStoreOptions = SharedOptions & PostgresOptions;
export interface OpenStore extends Store {
  close(): Promise<void>;
}

/**
 * Opens the store on a SQLite file and migrates it.
 *
 * @throws DatabaseUnusable
 */
export async function openStore(options: StoreOptions): Promise<OpenStore> {
  return storeOn(await openEngine(options), options);
}

/**
 * Opens the store on a PostgreSQL database and migrates it.
 *
 * @throws DatabaseUnusable
 */
export async function openServerStore(options: ServerStoreOptions): Promise<OpenStore> {
  // A service on a file does not need the driver, whose modules take a tenth of the startup time.
  const { openPostgres } = await import('./engine/postgres/engine.js');
  return storeOn(await openPostgres(options), options);
}

function storeOn(engine: Engine, options: SharedOptions): OpenStore {
  const store = operations(partsOn(engine, options), engine);
  return { ...withStoreFaults(store, engine.asStoreFault), counts: engine.counts, close: engine.close };
}

function partsOn(
  engine: Engine,
  { timeZone, clock = () => new Date(), share, elsewhere = () => null }: SharedOptions,
): StoreParts {
  const shared = {
    clock,
    today: () => dateIn(clock(), timeZone),
    settingsOn: settingsReader(),
    experienceOn: experienceReader(),
  };
  const readingOn = makeOnce((rows: ReadingComponents) => readingRules(rows, shared));
  const writingOn = makeOnce((rows: Components) => writingRules(rows, shared));
  const reading = readingOn(engine.reading);
  const writeWith =
    (run: Engine['write']): OnView<Rules> =>
    (work) =>
      run((rows) => work(writingOn(rows)));
  const write = writeWith(engine.write);
  const alone: StoreParts['alone'] = async (name, work) => {
    const release = await engine.tryHold(name);
    if (!release) return;
    try {
      await work();
    } finally {
      await release();
    }
  };
  return {
    clock,
    today: shared.today,
    reading,
    consistently: (work) => engine.consistently((rows) => work(readingOn(rows))),
    write,
    writeFromReserve: writeWith(engine.writeFromReserve),
    changeHistory: writeWith(engine.changeHistory),
    rewrite: engine.rewrite,
    whileUnchanged: engine.whileUnchanged,
    openStage: engine.openStage,
    tryHold: engine.tryHold,
    alone,
    keyCaller: keyUses(engine.write, clock),
    shareWork: sharedWork(elsewhere),
    refreshOutlooks: outlookRefresher({ reading, write, alone }, share),
  };
}

/** Makes each result once, because an engine may pass the same components repeatedly. */
function makeOnce<Rows extends object, Made>(make: (rows: Rows) => Made): (rows: Rows) => Made {
  const made = new WeakMap<Rows, Made>();
  return (rows) => {
    const known = made.get(rows) ?? make(rows);
    made.set(rows, known);
    return known;
  };
}

function operations(parts: StoreParts, engine: Engine): Omit<Store, 'counts'> {
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
    imports: importStore(parts),
    exports: exportStore(parts),
    outcomes: outcomeStore(parts),
    settings: settingsStore(parts),
    retention: retentionStore(parts),
    webhooks: webhookStore(parts),
    outbox: outboxStore(parts),
    figures: () => figuresOf(parts),
    secret: (name) => secretOf(parts, name),
    check: engine.check,
  };
}
