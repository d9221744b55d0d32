import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import { openServerStore, openStore, type OpenStore, type ServerStoreOptions } from '../../src/store/open.js';
import { putEmptyDatabase } from './emptyDatabase.js';
import { copyOfEmptyShop, countRowsOf, countRowsWith, keepConnection } from './postgres.js';

/** Whether the tests of this run store their data in SQLite files; otherwise they use a PostgreSQL server. */
export const onSqlite = process.env['TEST_ENGINE'] !== 'postgres';

export type OpenOptions = Omit<ServerStoreOptions, 'url'>;
export type Row = Record<string, unknown>;

/** A test's own database, on the engine of the run. */
export interface OwnDatabase {
  /** The SQLite file; empty on a PostgreSQL server. */
  file: string;
  /** The environment variables that name it to a command. */
  environment: Record<string, string>;
  /** Opens a store on it, as every process does. */
  open(options: OpenOptions): Promise<OpenStore>;
  /** Runs a query that both engines understand, with literal values, over a connection of its own. */
  query(text: string): Promise<Row[]>;
  /** The number of rows in every table. */
  rowCounts(): Promise<Record<string, number>>;
  /** How often a text occurs in a database file and its log, or in how many rows of a server's database. */
  occurrencesOf(text: string): Promise<number>;
  remove(): Promise<void>;
}

/** Creates an empty database of the present schema. */
export const makeOwnDatabase = (): Promise<OwnDatabase> => (onSqlite ? inFile() : onServer());

/** A store on its own database, which is removed when the store is closed. */
export async function openOwnStore(options: OpenOptions): Promise<OpenStore> {
  const database = await makeOwnDatabase();
  const store = await database.open(options);
  const close = async (): Promise<void> => {
    await store.close();
    await database.remove();
  };
  return { ...store, close };
}

async function inFile(): Promise<OwnDatabase> {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-'));
  const file = join(folder, 'brakes.sqlite');
  await putEmptyDatabase(file);
  return {
    file,
    environment: { DATABASE_FILE: file },
    open: (options) => openStore({ file, ...options }),
    query: async (text) => rowsIn(file, text),
    rowCounts: async () => countRows(file),
    occurrencesOf: async (text) => occurrencesIn(file, text),
    remove: async () => rmSync(folder, { recursive: true, force: true }),
  };
}

async function onServer(): Promise<OwnDatabase> {
  const database = await copyOfEmptyShop();
  const { query, close } = keepConnection(database);
  return {
    file: 'none',
    environment: { DATABASE_URL: database.url },
    open: (options) => openServerStore({ url: database.url, ...options }),
    query,
    rowCounts: () => countRowsOf(query),
    occurrencesOf: (text) => countRowsWith(query, text),
    async remove() {
      await close();
      await database.drop();
    },
  };
}

function rowsIn(file: string, text: string): Row[] {
  const connection = new BetterSqlite(file);
  try {
    const statement = connection.prepare(text);
    if (statement.reader) return statement.all() as Row[];
    statement.run();
    return [];
  } finally {
    connection.close();
  }
}

function occurrencesIn(file: string, text: string): number {
  const files = [file, `${file}-wal`].filter((path) => existsSync(path));
  return files.reduce((sum, path) => sum + readFileSync(path, 'latin1').split(text).length - 1, 0);
}

function countRows(file: string): Record<string, number> {
  const tables = rowsIn(file, "select name from sqlite_master where type = 'table' order by name");
  const counts = tables.map(({ name }) => `(select count(*) from "${name}") as "${name}"`);
  return rowsIn(file, `select ${counts.join(', ')}`)[0] as Record<string, number>;
}
