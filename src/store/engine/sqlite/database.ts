import { accessSync, constants, existsSync, mkdirSync, rmSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { identifierKey } from '../../../core/identifiers.js';
import { identifyingText } from '../../../core/vocabulary/quantities.js';
import BetterSqlite from 'better-sqlite3';
import { drizzle, type BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import { readMigrationFiles, type MigrationMeta } from 'drizzle-orm/migrator';
import { createOwnFile, finishFile, isDiskFull, shutOutOthers, UNFINISHED } from './files.js';

export type Database = BetterSQLite3Database & { $client: BetterSqlite.Database };

/** A database that cannot be served from; the message is one clear line for whoever starts the service. */
export class DatabaseUnusable extends Error {}

export interface OpenDatabase {
  database: Database;
  connection: BetterSqlite.Database;
  close(): void;
}

/** How long anybody waits inside SQLite, and the process with it; writes wait longer, but outside (`writeTurns`). */
const MOMENT_MS = 10;

/**
 * Opens a database, bringing it up to date first.
 *
 * @param file a path, or `:memory:`
 * @param patienceMs how long this start waits for a writer in another process
 * @throws DatabaseUnusable when it is damaged, newer than the program or cannot be opened and written
 */
export function openDatabase(file: string, patienceMs = 5000): OpenDatabase {
  const connection = openConnection(file);
  try {
    connection.pragma(`busy_timeout = ${patienceMs}`);
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
        // It writes what makes later queries quicker: a full or locked disk must not keep the service from closing.
      }
      connection.close();
    },
  };
}

/** A connection with the settings that every one of them needs. */
export function openConnection(file: string): BetterSqlite.Database {
  try {
    const folder = dirname(file);
    if (file !== ':memory:' && !existsSync(folder)) mkdirSync(folder);
    refuseReadOnly(file);
    if (file !== ':memory:') prepareFile(file);
    const connection = new BetterSqlite(file, { timeout: MOMENT_MS });
    connection.pragma('journal_mode = WAL');
    // After WAL, which resets it: an answered write must outlive a power cut.
    connection.pragma('synchronous = FULL');
    connection.pragma('foreign_keys = ON');
    connection.pragma('journal_size_limit = 67108864');
    connection.pragma('trusted_schema = OFF');
    return connection;
  } catch (error) {
    throw unusable(file, error);
  }
}

/** A copy that was broken off may look like an empty shop, and would be served as one. */
function prepareFile(file: string): void {
  if (file.endsWith(UNFINISHED)) {
    throw new DatabaseUnusable(`${file}: is a copy that was never finished; name a complete one`);
  }
  if (existsSync(file)) shutOutOthers(file);
  else createOwnFile(file);
}

/** SQLite would open such a file for reading, and every write would fail. */
function refuseReadOnly(file: string): void {
  if (file === ':memory:') return;
  for (const path of [dirname(file), file]) {
    if (existsSync(path)) accessSync(path, constants.W_OK);
  }
}

/** What makes a database unusable, by the code of the fault. */
const FAULTS: [RegExp, string][] = [
  [/^SQLITE_(CORRUPT|NOTADB)/, 'is damaged; docs/backup.md says what to do'],
  [/^SQLITE_(BUSY|LOCKED)/, 'is being written by another process; try again when that has ended'],
  [
    /^(SQLITE_READONLY|EACCES|EROFS|EPERM)/,
    'cannot be written by this user; the service needs to write the file and its folder',
  ],
];
const NO_ROOM = 'has no room left on its disk';

/** A fault that SQLite or the file system met as one line; any other stays as it is. */
export function unusable(file: string, error: unknown): unknown {
  const { code } = error as { code?: unknown };
  if (typeof code !== 'string' || !/^(SQLITE_|E[A-Z]+$)/.test(code)) return error;
  const said = isDiskFull(error)
    ? NO_ROOM
    : (FAULTS.find(([pattern]) => pattern.test(code))?.[1] ?? 'cannot be used');
  return new DatabaseUnusable(`${file}: ${said} (${firstLine((error as Error).message)})`, { cause: error });
}

const firstLine = (text: string): string => text.split('\n', 1)[0]!;

/** What is wrong with a whole database, read from its first page to its last; none of it where nothing is. */
export function faultsOf(connection: BetterSqlite.Database): string[] {
  return [
    ...(connection.pragma('integrity_check') as { integrity_check: string }[])
      .map(({ integrity_check: fault }) => fault)
      .filter((fault) => fault !== 'ok'),
    ...(connection.pragma('foreign_key_check') as { table: string }[]).map(
      ({ table }) => `a row of ${table} refers to one that is missing`,
    ),
  ];
}

/** A larger file is served before it has been read through: that takes a second for some hundred of these. */
const CHECKED_WHOLE_BYTES = 16 * 2 ** 20;

/** Whether a file is so large that only its beginning is looked at when it is opened. */
export const isCheckedLater = (file: string): boolean =>
  file !== ':memory:' && existsSync(file) && statSync(file).size > CHECKED_WHOLE_BYTES;

/** Damage found now costs a restored copy; found later it costs what was recorded meanwhile too. */
function refuseDamaged(connection: BetterSqlite.Database, file: string): void {
  if (isCheckedLater(file)) refuseCutOff(connection, file);
  else refuseFaulty(connection, file);
}

/** Reads the schema, and whether the file has all its pages; where there is a log, some may be there alone. */
function refuseCutOff(connection: BetterSqlite.Database, file: string): void {
  connection.prepare('select count(*) from sqlite_master').get();
  const log = `${file}-wal`;
  if (existsSync(log) && statSync(log).size > 0) return;
  const bytes = ['page_count', 'page_size']
    .map((name) => connection.pragma(name, { simple: true }) as number)
    .reduce((product, factor) => product * factor, 1);
  const { size } = statSync(file);
  if (size < bytes) throw damaged(file, `${size} of its ${bytes} bytes are there`);
}

function refuseFaulty(connection: BetterSqlite.Database, file: string): void {
  const found = connection.pragma('quick_check(1)', { simple: true }) as string;
  if (found === 'ok') return;
  // The first line names the database within the connection, which says nothing here.
  throw damaged(file, found.split('\n').find((line) => !line.startsWith('***')) ?? found);
}

const damaged = (file: string, fault: string): DatabaseUnusable =>
  new DatabaseUnusable(`${file}: is damaged; docs/backup.md says what to do (${fault})`);

/**
 * Reads a database from its first page to its last, beside whoever serves it.
 *
 * @throws DatabaseUnusable when it is damaged
 */
export function readThrough(file: string): void {
  try {
    const connection = new BetterSqlite(file, { readonly: true, timeout: MOMENT_MS });
    try {
      refuseFaulty(connection, file);
    } finally {
      connection.close();
    }
  } catch (error) {
    throw unusable(file, error);
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

/** Applies what is missing in one transaction, so that a start that is broken off leaves the database as it was. */
function bringUpToDate(connection: BetterSqlite.Database, file: string): void {
  const migrations = readMigrationFiles({ migrationsFolder: migrationsFolder() });
  const known = migrations.length;
  const applied = appliedMigrations(connection);
  if (applied > known) {
    throw new DatabaseUnusable(
      `${file}: is of schema ${applied}, newer than this program's ${known}; run a newer program`,
    );
  }
  if (applied === known) return;
  if (applied > 0) keepCopy(connection, `${file}.before-${known}`);
  // Inside the transaction the pragma would be a no-op, and a rebuilt table would drop its children.
  connection.pragma('foreign_keys = OFF');
  addTextFunctions(connection);
  connection.exec('begin immediate');
  try {
    // Another start may have been quicker.
    for (const migration of migrations.slice(appliedMigrations(connection))) apply(connection, migration);
    refuseOrphans(connection);
    connection.exec('commit');
  } catch (error) {
    if (connection.inTransaction) connection.exec('rollback');
    throw new DatabaseUnusable(
      `${file}: stays at schema ${applied}, since bringing it to ${known} failed: ${firstLine((error as Error).message)}`,
    );
  }
  connection.pragma('foreign_keys = ON');
}

/** What migrations call to write names as the program compares them; a name that nobody can see stays as it is. */
export function addTextFunctions(connection: BetterSqlite.Database): void {
  connection.function('identifier_key', { deterministic: true }, (text) => identifierKey(String(text ?? '')));
  connection.function('identifying_text', { deterministic: true }, (text) =>
    typeof text === 'string' ? identifyingText(text) || text : text,
  );
}

/** The table is that of drizzle-orm's own migrator, which keeps no check of foreign keys within its transaction. */
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

/** One that an earlier start left is replaced, since the database may have been written since. */
function keepCopy(connection: BetterSqlite.Database, copy: string): void {
  const unfinished = `${copy}${UNFINISHED}`;
  rmSync(unfinished, { force: true });
  // SQLite also writes into a file that is empty.
  createOwnFile(unfinished);
  connection.prepare('vacuum into ?').run(unfinished);
  finishFile(unfinished);
}
