import { drizzle } from 'drizzle-orm/better-sqlite3';
import { StorageFull } from '../../contract/faults.js';
import { openConnection, type Database } from './connection.js';
import { openDatabase } from './database.js';
import { asStoreFault, isDiskFull } from './faults.js';
import { freeReserve } from './files.js';
import { writeTurns } from './turns.js';

export interface EngineOptions {
  /** A path, or `:memory:`. */
  file: string;
  /**
   * How long a write waits for another process's write lock: short in a server, in a command longer than a server's
   * import.
   */
  patienceMs?: number;
  /** Called after every write, with its waiting time. */
  onWrite?: (waitSeconds: number) => void;
  /** Whether opening may use the reserved disk space if the disk is full. */
  mayOpenFromReserve?: boolean;
}

/** Runs a write in one transaction that takes the write lock immediately, once it is its turn. */
export type Write = <Result>(work: () => Result) => Promise<Result>;

/** A separate connection for imports, whose transaction other requests can neither see nor join. */
export interface LongWriter {
  database: Database;
  /** Writes in one long transaction, while other requests are answered. */
  transaction(work: () => Promise<void>): Promise<void>;
  close(): void;
}

/**
 * Opens a SQLite file and migrates it.
 *
 * @throws DatabaseUnusable
 */
export function openEngine({ file, patienceMs = 5000, onWrite, mayOpenFromReserve = false }: EngineOptions) {
  const { database, connection, close } = opened(file, patienceMs, mayOpenFromReserve);
  const turns = writeTurns(patienceMs, onWrite);

  /** Runs a write on one of the connections to the file. */
  const writeTo =
    (own: Database): Write =>
    async (work) => {
      try {
        return await turns.take(() => own.transaction(work, { behavior: 'immediate' }));
      } catch (fault) {
        throw asStoreFault(fault);
      }
    };

  /** {@link Write} that uses the reserved disk space if the disk is full. */
  const writeFromReserveTo = (own: Database): Write => {
    const write = writeTo(own);
    return async (work) => {
      try {
        return await write(work);
      } catch (fault) {
        if (!(fault instanceof StorageFull)) throw fault;
        return write(() => {
          // Holding the lock keeps other writers from taking the freed space.
          freeReserve(file);
          return work();
        });
      }
    };
  };

  function openLongWriter(): LongWriter {
    const own = openConnection(file);
    return {
      database: drizzle(own),
      transaction: (work) =>
        turns.hold(
          () => void own.exec('begin immediate'),
          async () => {
            try {
              await work();
              own.exec('commit');
            } finally {
              if (own.inTransaction) own.exec('rollback');
            }
          },
        ),
      close: () => void own.close(),
    };
  }

  return {
    database,
    writeTo,
    writeFromReserveTo,
    openLongWriter,
    /** @throws the fault if the database cannot be read */
    check: (): void => void connection.prepare('select 1 from vehicles limit 1').get(),
    close,
  };
}

export type Engine = ReturnType<typeof openEngine>;

function opened(file: string, patienceMs: number, mayOpenFromReserve: boolean) {
  try {
    return openDatabase(file, patienceMs);
  } catch (fault) {
    if (!mayOpenFromReserve || !isDiskFull((fault as Error).cause) || !freeReserve(file)) throw fault;
    return openDatabase(file, patienceMs);
  }
}
