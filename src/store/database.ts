import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import BetterSqlite from 'better-sqlite3';
import { drizzle, type BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import { migrate } from 'drizzle-orm/better-sqlite3/migrator';

export type Database = BetterSQLite3Database & { $client: BetterSqlite.Database };

/** A database that cannot be served from; the message is one clear line for whoever starts the service. */
export class DatabaseUnusable extends Error {}

export interface OpenDatabase {
  database: Database;
  connection: BetterSqlite.Database;
  close(): void;
}

/**
 * Opens a database, bringing it up to date first.
 *
 * @param file a path, or `:memory:`
 * @param patienceMs how long a write waits for a writer in another process
 * @throws DatabaseUnusable when it is damaged, newer than the program or cannot be opened
 */
export function openDatabase(file: string, patienceMs = 1000): OpenDatabase {
  const connection = openConnection(file, patienceMs);
  try {
    bringUpToDate(connection, file);
  } catch (error) {
    connection.close();
    throw error instanceof DatabaseUnusable
      ? error
      : new DatabaseUnusable(`${file}: ${(error as Error).message}`);
  }
  return {
    database: drizzle(connection),
    connection,
    close: () => {
      connection.pragma('optimize');
      connection.close();
    },
  };
}

/** A connection with the settings that every one of them needs. */
export function openConnection(file: string, patienceMs = 1000): BetterSqlite.Database {
  try {
    const folder = dirname(file);
    if (file !== ':memory:' && !existsSync(folder)) mkdirSync(folder);
    const connection = new BetterSqlite(file, { timeout: patienceMs });
    connection.pragma('journal_mode = WAL');
    // After WAL, which resets it: an answered write must outlive a power cut.
    connection.pragma('synchronous = FULL');
    connection.pragma('foreign_keys = ON');
    connection.pragma('journal_size_limit = 67108864');
    connection.pragma('trusted_schema = OFF');
    return connection;
  } catch (error) {
    throw new DatabaseUnusable(`${file}: ${(error as Error).message}`);
  }
}

/** The migrations folder stands at the top of the package, two or three folders up from here. */
function migrationsFolder(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'migrations', 'meta', '_journal.json'))) {
    const above = dirname(folder);
    if (above === folder) throw new DatabaseUnusable('the migrations folder is missing');
    folder = above;
  }
  return join(folder, 'migrations');
}

function bringUpToDate(connection: BetterSqlite.Database, file: string): void {
  const folder = migrationsFolder();
  const journal = JSON.parse(readFileSync(join(folder, 'meta', '_journal.json'), 'utf8')) as {
    entries: { when: number }[];
  };
  const known = journal.entries.length;
  const applied = appliedMigrations(connection);
  if (applied > known) {
    throw new DatabaseUnusable(
      `${file}: is of schema ${applied}, newer than this program's ${known}; run a newer program`,
    );
  }
  if (applied === known) return;
  if (applied > 0) keepCopy(connection, `${file}.before-${known}`);
  // Inside the migrator's transaction the pragma would be a no-op, and a rebuilt table would drop its children.
  connection.pragma('foreign_keys = OFF');
  migrate(drizzle(connection), { migrationsFolder: folder });
  const orphans = connection.pragma('foreign_key_check') as unknown[];
  if (orphans.length > 0)
    throw new DatabaseUnusable(`${file}: ${orphans.length} rows refer to rows that are missing`);
  connection.pragma('foreign_keys = ON');
}

function appliedMigrations(connection: BetterSqlite.Database): number {
  const table = connection.prepare("select 1 from sqlite_master where name = '__drizzle_migrations'").get();
  if (!table) return 0;
  return connection.prepare('select count(*) from __drizzle_migrations').pluck().get() as number;
}

function keepCopy(connection: BetterSqlite.Database, copy: string): void {
  if (!existsSync(copy)) connection.prepare('vacuum into ?').run(copy);
}
