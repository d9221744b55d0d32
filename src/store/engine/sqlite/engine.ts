import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { StorageFull } from '../../contract/faults.js';
import type { Components, Engine, ReadingComponents, Work } from '../contract/engine.js';
import { ownLocks } from '../ownLocks.js';
import { openStage } from '../stage.js';
import { changingHistory, overwriteDeleted, rewriteFile } from './appendOnly.js';
import { componentsCaching, componentsOn } from './components.js';
import { openConnection, type Database } from './connection.js';
import { openDatabase } from './database.js';
import { asStoreFault, isDiskFull } from './faults.js';
import { freeReserve } from './files.js';
import { cachedRows } from './cachedRows.js';
import { oneByOne, writeTurns } from './turns.js';
import { whileUnchanged } from './whileUnchanged.js';

export interface EngineOptions {
  /** A path, or `:memory:`. */
  file: string;
  /**
   * How long a write waits for another process's write lock: short in a server, in a command longer than a server's
   * import.
   */
  maxWaitMs?: number;
  /** Called after every write, with its waiting time. */
  onWrite?: (waitSeconds: number) => void;
  /** Whether opening may use the reserved disk space if the disk is full. */
  mayOpenFromReserve?: boolean;
}

/** Tables to which rows are only added. */
const HISTORY = ['visit_versions', 'vehicle_versions', 'audit'];

/**
 * Opens a SQLite file and migrates it. One connection writes, another reads committed data, and a third reads
 * snapshots, so that uncommitted writes stay invisible.
 *
 * @throws DatabaseUnusable
 */
export async function openEngine(options: EngineOptions): Promise<Engine> {
  const { maxWaitMs = 5000, onWrite, mayOpenFromReserve = false } = options;
  const { file, remove } = placeOf(options.file);
  const { database: writing, close } = openWriting(file, maxWaitMs, mayOpenFromReserve);
  const reading = openReading(file, close);
  const own = componentsOn(writing);
  const kept = cachedRows(writing);
  const inTurn = writeTurns(maxWaitMs, onWrite);
  const snapshots = snapshotReader(() => openReading(file));
  let commits = 0;

  const begin = (): void => void writing.$client.exec('begin immediate');

  async function transaction<Result>(work: Work<Components, Result>): Promise<Result> {
    try {
      const result = await work(own);
      writing.$client.exec('commit');
      commits += 1;
      return result;
    } finally {
      if (writing.$client.inTransaction) writing.$client.exec('rollback');
      kept.forgetWritten();
    }
  }

  async function write<Result>(work: Work<Components, Result>): Promise<Result> {
    try {
      return await inTurn(begin, () => transaction(work));
    } catch (fault) {
      throw asStoreFault(fault);
    }
  }

  return {
    reading: componentsCaching(reading, kept),
    consistently: snapshots.consistently,
    write,

    async writeFromReserve(work) {
      try {
        return await write(work);
      } catch (fault) {
        if (!(fault instanceof StorageFull)) throw fault;
        return write((rows) => {
          // Holding the lock keeps other writers from taking the freed space.
          freeReserve(file);
          return work(rows);
        });
      }
    },

    async changeHistory(work) {
      overwriteDeleted(writing);
      return write((rows) => changingHistory(writing, HISTORY, () => work(rows)));
    },

    rewrite: () =>
      inTurn(
        () => undefined,
        async () => rewriteFile(writing),
      ),
    whileUnchanged: whileUnchanged(reading, () => commits),
    // One server at a time serves a file.
    tryHold: ownLocks(),
    counts: null,
    openStage,
    asStoreFault,
    check: async () => void reading.$client.prepare('select 1 from vehicles limit 1').get(),

    async close() {
      reading.$client.close();
      snapshots.close();
      // Last, so that it can empty the write-ahead log.
      close();
      remove();
    },
  };
}

/** @param onFault called if it cannot be opened */
function openReading(file: string, onFault?: () => void): Database {
  try {
    const database = drizzle(openConnection(file));
    // A write on this connection would not be part of the transaction.
    database.$client.pragma('query_only = ON');
    // Half of the default: every commit by another connection empties it anyway.
    database.$client.pragma('cache_size = -8000');
    return database;
  } catch (fault) {
    onFault?.();
    throw fault;
  }
}

/** Reads snapshots, one after the other, over a connection that is opened when it is first needed. */
function snapshotReader(open: () => Database) {
  const inTurn = oneByOne();
  let opened: { database: Database; rows: Components } | null = null;

  function connected() {
    if (opened) return opened;
    const database = open();
    opened = { database, rows: componentsOn(database) };
    return opened;
  }

  return {
    consistently: <Result>(work: Work<ReadingComponents, Result>): Promise<Result> =>
      inTurn(async () => {
        const { database, rows } = connected();
        database.$client.exec('begin');
        try {
          return await work(rows);
        } finally {
          database.$client.exec('rollback');
        }
      }),
    close: (): void => void opened?.database.$client.close(),
  };
}

/** An in-memory database would belong to one connection alone, so it is a file in a folder that closing removes. */
function placeOf(file: string): { file: string; remove: () => void } {
  if (file !== ':memory:') return { file, remove: () => undefined };
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-'));
  return {
    file: join(folder, 'memory.sqlite'),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

function openWriting(file: string, maxWaitMs: number, mayOpenFromReserve: boolean) {
  try {
    return openDatabase(file, maxWaitMs);
  } catch (fault) {
    if (!mayOpenFromReserve || !isDiskFull((fault as Error).cause) || !freeReserve(file)) throw fault;
    return openDatabase(file, maxWaitMs);
  }
}
