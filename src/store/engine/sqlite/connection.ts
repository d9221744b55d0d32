import { accessSync, constants, existsSync, mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import { DatabaseUnusable } from '../../contract/faults.js';
import { unusable } from './faults.js';
import { createOwnFile, shutOutOthers, UNFINISHED } from './files.js';

export type Database = BetterSQLite3Database & { $client: BetterSqlite.Database };

/**
 * How long SQLite itself waits for a lock, which blocks the whole process; longer waits happen outside (`writeTurns`).
 */
export const MOMENT_MS = 10;

/** Opens a connection with the settings that all of them need. */
export function openConnection(file: string): BetterSqlite.Database {
  try {
    const folder = dirname(file);
    if (file !== ':memory:' && !existsSync(folder)) mkdirSync(folder);
    refuseReadOnly(file);
    if (file !== ':memory:') prepareFile(file);
    const connection = new BetterSqlite(file, { timeout: MOMENT_MS });
    connection.pragma('journal_mode = WAL');
    // Set after WAL, which resets it: an acknowledged write must survive a power cut.
    connection.pragma('synchronous = FULL');
    connection.pragma('foreign_keys = ON');
    connection.pragma('journal_size_limit = 67108864');
    connection.pragma('trusted_schema = OFF');
    return connection;
  } catch (error) {
    throw unusable(file, error);
  }
}

/** An unfinished copy may look like an empty shop and must not be served as one. */
function prepareFile(file: string): void {
  if (file.endsWith(UNFINISHED)) {
    throw new DatabaseUnusable(`${file}: is a copy that was never finished; name a complete one`);
  }
  if (existsSync(file)) shutOutOthers(file);
  else createOwnFile(file);
}

/** SQLite would open such a file read-only, and every write would fail. */
function refuseReadOnly(file: string): void {
  if (file === ':memory:') return;
  for (const path of [dirname(file), file]) {
    if (existsSync(path)) accessSync(path, constants.W_OK);
  }
}
