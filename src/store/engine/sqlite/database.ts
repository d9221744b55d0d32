import type BetterSqlite from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { MOMENT_MS, openConnection, type Database } from './connection.js';
import { refuseDamaged } from './damage.js';
import { unusable } from './faults.js';
import { bringUpToDate } from './migrate.js';

export interface OpenDatabase {
  database: Database;
  connection: BetterSqlite.Database;
  close(): void;
}

/**
 * Opens a database and migrates it.
 *
 * @param file a path, or `:memory:`
 * @param maxWaitMs how long to wait for another process's write lock
 * @throws DatabaseUnusable if it is damaged, newer than the program, or cannot be opened for writing
 */
export function openDatabase(file: string, maxWaitMs = 5000): OpenDatabase {
  const connection = openConnection(file);
  try {
    connection.pragma(`busy_timeout = ${maxWaitMs}`);
    refuseDamaged(connection, file);
    bringUpToDate(connection, file);
    connection.pragma(`busy_timeout = ${MOMENT_MS}`);
  } catch (error) {
    connection.close();
    throw unusable(file, error);
  }
  return {
    database: drizzle(connection),
    connection,
    close: () => {
      try {
        connection.pragma('optimize');
      } catch {
        // `optimize` only speeds up later queries: a full or locked disk must not prevent closing.
      }
      connection.close();
    },
  };
}
