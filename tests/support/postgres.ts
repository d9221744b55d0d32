import { PGlite, types } from '@electric-sql/pglite';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { ownLocks } from '../../src/store/engine/ownLocks.js';
import {
  openConnections,
  type Connections,
  type Query,
} from '../../src/store/engine/postgres/connections.js';
import { bringUpToDate, programName } from '../../src/store/engine/postgres/migrate.js';

const SERVERS = process.env['TEST_POSTGRES_URL']?.split(' ') ?? [];
/** The server that this worker's tests use; null if this machine has none. */
export const SERVER: string | null =
  SERVERS[Number(process.env['VITEST_POOL_ID'] ?? 0) % SERVERS.length] ?? null;

export async function onServer(statement: string, database = 'postgres'): Promise<void> {
  const client = new pg.Client({ connectionString: urlOf(database) });
  await client.connect();
  try {
    await client.query(statement);
  } finally {
    await client.end();
  }
}

function urlOf(database: string): string {
  const url = new URL(SERVER!);
  url.pathname = `/${database}`;
  return url.href;
}

export interface TestDatabase {
  name: string;
  url: string;
  drop(): Promise<void>;
}

/** Creates an empty database on the server. */
export async function createDatabase(template = 'template1'): Promise<TestDatabase> {
  const name = `test_${randomUUID().replaceAll('-', '')}`;
  await onServer(`create database ${name} template ${template}`);
  return { name, url: urlOf(name), drop: () => onServer(`drop database if exists ${name} with (force)`) };
}

type Row = Record<string, unknown>;

/** Runs a query on a database over one connection. */
export type RunQuery = (text: string, values?: string[]) => Promise<Row[]>;

/** Keeps one connection to a database, opened at the first query. */
export function keepConnection({ url }: TestDatabase): { query: RunQuery; close(): Promise<void> } {
  let client: Promise<pg.Client> | null = null;
  const connect = async (): Promise<pg.Client> => {
    const opened = new pg.Client({ connectionString: url });
    await opened.connect();
    return opened;
  };
  return {
    query: async (text, values = []) => (await (await (client ??= connect())).query<Row>(text, values)).rows,
    close: async () => void (await (await client)?.end()),
  };
}

/** The number of rows in every table. */
export const countRowsOf = (query: RunQuery): Promise<Record<string, number>> => countEach(query, 'true');

/** The number of rows that have a text anywhere. */
export async function countRowsWith(query: RunQuery, text: string): Promise<number> {
  const counts = await countEach(query, 'position($1 in t::text) > 0', [text]);
  return Object.values(counts).reduce((sum, rows) => sum + rows, 0);
}

async function countEach(
  query: RunQuery,
  condition: string,
  values: string[] = [],
): Promise<Record<string, number>> {
  const tables = await query(
    "select tablename as name from pg_tables where schemaname = 'public' order by 1",
  );
  const each = tables.map(
    ({ name }) =>
      `select '${String(name)}' as name, count(*)::int as rows from "${String(name)}" t where ${condition}`,
  );
  const counts = await query(each.join(' union all '), values);
  return Object.fromEntries(counts.map(({ name, rows }) => [String(name), rows])) as Record<string, number>;
}

const EMPTY_SHOP = 'brake_wear_empty_shop';
let emptyShop: Promise<void> | null = null;

/** Creates a database with all tables and no rows, as a copy of one that each process creates once. */
export async function copyOfEmptyShop(): Promise<TestDatabase> {
  emptyShop ??= makeEmptyShop();
  await emptyShop;
  return createDatabase(`${EMPTY_SHOP}_${process.pid}`);
}

async function makeEmptyShop(): Promise<void> {
  const name = `${EMPTY_SHOP}_${process.pid}`;
  await onServer(`drop database if exists ${name} with (force)`);
  await onServer(`create database ${name}`);
  const connections = openConnections([urlOf(name)], programName());
  await bringUpToDate(connections, name);
  await connections.close();
}

const NUMBERS = { [types.INT8]: Number, [types.NUMERIC]: Number };

/** The WASM build of the server, which has one connection only: its holder makes everyone else wait. */
export async function embeddedConnections(): Promise<Connections> {
  const server = await PGlite.create();
  const query: Query = async (text, values) => {
    const { rows } = await server.query<unknown[]>(text, values, { rowMode: 'array', parsers: NUMBERS });
    return rows;
  };
  let last: Promise<unknown> = Promise.resolve();
  const inTurn = <Result>(work: () => Promise<Result>): Promise<Result> => {
    const mine = last.then(work);
    last = mine.catch(() => undefined);
    return mine;
  };
  return {
    query: (text, values) => inTurn(() => query(text, values)),
    hold: (work) => inTurn(() => work(query)),
    tryHold: ownLocks(),
    close: () => server.close(),
  };
}
