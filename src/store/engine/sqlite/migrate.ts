import { existsSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type BetterSqlite from 'better-sqlite3';
import { readMigrationFiles, type MigrationMeta } from 'drizzle-orm/migrator';
import { identifierKey } from '../../../core/identifiers.js';
import { identifyingText } from '../../../core/vocabulary/quantities.js';
import { DatabaseUnusable } from '../../contract/faults.js';
import { firstLine } from './faults.js';
import { createOwnFile, finishFile, UNFINISHED } from './files.js';

/** The migrations folder is at the top of the package, two or three levels up from here. */
function migrationsFolder(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'migrations', 'meta', '_journal.json'))) {
    const above = dirname(folder);
    if (above === folder) throw new DatabaseUnusable('the migrations folder is missing');
    folder = above;
  }
  return join(folder, 'migrations');
}

/** Applies missing migrations in one transaction, so that an interrupted start leaves the database unchanged. */
export function bringUpToDate(connection: BetterSqlite.Database, file: string): void {
  const migrations = readMigrationFiles({ migrationsFolder: migrationsFolder() });
  const known = migrations.length;
  const applied = appliedMigrations(connection);
  if (applied > known) {
    throw new DatabaseUnusable(
      `${file}: has schema ${applied}, newer than this program's ${known}; run a newer program`,
    );
  }
  if (applied === known) return;
  if (applied > 0) keepCopy(connection, `${file}.before-${known}`);
  // Inside the transaction the pragma would be a no-op, and rebuilding a table would delete its children.
  connection.pragma('foreign_keys = OFF');
  addTextFunctions(connection);
  connection.exec('begin immediate');
  try {
    // Another process may have migrated it meanwhile.
    for (const migration of migrations.slice(appliedMigrations(connection))) apply(connection, migration);
    refuseOrphans(connection);
    connection.exec('commit');
  } catch (error) {
    if (connection.inTransaction) connection.exec('rollback');
    throw new DatabaseUnusable(
      `${file}: could not be migrated from schema ${applied} to ${known} and is unchanged: ${firstLine((error as Error).message)}`,
    );
  }
  connection.pragma('foreign_keys = ON');
}

/**
 * Functions with which migrations normalize names as the program does; a name of invisible characters only is left
 * unchanged.
 */
export function addTextFunctions(connection: BetterSqlite.Database): void {
  connection.function('identifier_key', { deterministic: true }, (text) => identifierKey(String(text ?? '')));
  connection.function('identifying_text', { deterministic: true }, (text: unknown) =>
    typeof text === 'string' ? identifyingText(text) || text : text,
  );
}

/** Uses the table of drizzle-orm's own migrator, which does not check foreign keys within its transaction. */
function apply(connection: BetterSqlite.Database, { sql, hash, folderMillis }: MigrationMeta): void {
  connection.exec(
    'create table if not exists __drizzle_migrations (id serial primary key, hash text not null, created_at numeric)',
  );
  for (const statement of sql) connection.exec(statement);
  connection
    .prepare('insert into __drizzle_migrations (hash, created_at) values (?, ?)')
    .run(hash, folderMillis);
}

function refuseOrphans(connection: BetterSqlite.Database): void {
  const orphans = connection.pragma('foreign_key_check') as unknown[];
  if (orphans.length > 0) throw new Error(`${orphans.length} rows would refer to rows that are missing`);
}

function appliedMigrations(connection: BetterSqlite.Database): number {
  const table = connection.prepare("select 1 from sqlite_master where name = '__drizzle_migrations'").get();
  if (!table) return 0;
  return connection.prepare('select count(*) from __drizzle_migrations').pluck().get() as number;
}

/** Replaces the copy of an earlier start, since the database may have been written since. */
function keepCopy(connection: BetterSqlite.Database, copy: string): void {
  const unfinished = `${copy}${UNFINISHED}`;
  rmSync(unfinished, { force: true });
  // SQLite also writes into an existing empty file.
  createOwnFile(unfinished);
  connection.prepare('vacuum into ?').run(unfinished);
  finishFile(unfinished);
}
