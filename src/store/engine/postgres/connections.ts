import { createHash } from 'node:crypto';
import pg from 'pg';
import { drizzle, type PgRemoteDatabase } from 'drizzle-orm/pg-proxy';
import type { Release } from '../contract/engine.js';
import { serverLocks } from './locks.js';
import { followPrimary, type Pools } from './servers.js';

/** Runs one statement; rows are lists of values in the order of the columns. */
export type Query = (text: string, values: unknown[]) => Promise<unknown[][]>;

export type Database = PgRemoteDatabase;

/** Connections to the primary server. */
export interface Connections {
  /** Runs a statement by itself, on any connection. */
  query: Query;
  /**
   * Holds one connection for several statements, such as a transaction. The same connection always comes with the same
   * function.
   */
  hold<Result>(work: (query: Query) => Promise<Result>): Promise<Result>;
  /** Takes a named lock among all processes on the database; null if it is held. */
  tryHold(name: string): Promise<Release | null>;
  close(): Promise<void>;
}

/** OIDs of the types whose values the driver returns as text by default. */
const [INT8, NUMERIC] = [20, 1700];

const types: pg.CustomTypesConfig = {
  getTypeParser: ((oid: number, format?: 'text' | 'binary'): unknown =>
    oid === INT8 || oid === NUMERIC
      ? Number
      : pg.types.getTypeParser(oid, format)) as typeof pg.types.getTypeParser,
};

/**
 * Each statement text gets a name, so that the server parses and plans it once per connection. All texts come from the
 * program, so their number is limited.
 */
const names = new Map<string, string>();
function nameOf(text: string): string {
  const known = names.get(text);
  if (known !== undefined) return known;
  const name = createHash('sha256').update(text).digest('hex').slice(0, 32);
  names.set(text, name);
  return name;
}

/** The server refuses NUL even in a comparison. No stored text contains one, so any other character will do. */
const comparable = (value: unknown): unknown =>
  typeof value === 'string' && value.includes('\0') ? value.replaceAll('\0', '\uFFFD') : value;

const configOf = (text: string, values: readonly unknown[]): pg.QueryArrayConfig => ({
  text,
  values: values.map(comparable),
  rowMode: 'array',
  types,
  name: nameOf(text),
});

/** A pooled connection. It is discarded once one of its statements fails without an answer from the server. */
class Held {
  isBroken = false;

  constructor(
    private readonly client: pg.PoolClient,
    private readonly result: Pools['result'],
  ) {
    client.on('error', () => (this.isBroken = true));
  }

  readonly query: Query = async (text, values) => {
    try {
      const { rows } = await this.result(this.client, this.client.query(configOf(text, values)));
      return rows;
    } catch (fault) {
      if (!(fault instanceof pg.DatabaseError)) this.isBroken = true;
      throw fault;
    }
  };
}

/** @param name of the connections, as the server lists them */
export function openConnections(urls: readonly string[], name: string): Connections {
  const servers = followPrimary(urls, name);
  const held = new WeakMap<pg.PoolClient, Held>();
  const locks = serverLocks(() => servers.use(({ connect }) => connect()));
  async function withOne<Result>(
    pool: pg.Pool,
    result: Pools['result'],
    work: (query: Query) => Promise<Result>,
  ): Promise<Result> {
    const client = await pool.connect();
    const own = held.get(client) ?? new Held(client, result);
    held.set(client, own);
    try {
      return await work(own.query);
    } finally {
      client.release(own.isBroken);
    }
  }

  return {
    query: (text, values) =>
      servers.use(({ reading, result }) => withOne(reading, result, (query) => query(text, values))),
    hold: (work) => servers.use(({ writing, result }) => withOne(writing, result, work)),
    tryHold: locks.tryHold,
    async close() {
      await locks.close();
      await servers.close();
    },
  };
}

/** The query builder on a connection. */
export const databaseOn = (query: Query): Database =>
  drizzle(async (text, values) => ({ rows: await query(text, values) }));
