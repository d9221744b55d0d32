import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import request from 'supertest';
import { buildApp } from '../../src/app.js';
import { createKey } from '../../src/commands/keys.js';
import type { Role } from '../../src/core/vocabulary/terms.js';
import { openServerStore, openStore, type OpenStore, type ServerStoreOptions } from '../../src/store/open.js';
import { putEmptyDatabase } from './emptyDatabase.js';
import { copyOfEmptyShop, countRowsOf, countRowsWith } from './postgres.js';
import { contractFrom, type Contract } from './openapi.js';

/** The service on a database file of its own, with a key for every role and a clock that a test can set. */

export type Method = 'get' | 'post' | 'put' | 'patch' | 'delete';

/** The fleet that the fleet-manager's key is for. */
export const FLEET = 'north-depot';
/** Whether the services of this run keep their data in a SQLite file, or else on a PostgreSQL server. */
export const onSqlite = process.env['TEST_ENGINE'] !== 'postgres';
const START = '2026-03-10T12:00:00Z';

export interface ServiceOptions {
  now?: string;
  /** How far the clock advances whenever it is read. */
  advancesMs?: number;
  timeZone?: string;
  rateLimitPerMinute?: number;
  failedKeysPerMinute?: number;
  webhookAllowPrivate?: boolean;
  trustProxy?: string[];
}

let contract: Contract | null = null;

export async function startService(options: ServiceOptions = {}) {
  const { now = START, timeZone = 'UTC', rateLimitPerMinute = 0, failedKeysPerMinute = 0 } = options;
  const { webhookAllowPrivate = false, trustProxy = [], advancesMs = 0 } = options;
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-'));
  const file = join(folder, 'brakes.sqlite');
  let instant = new Date(now);
  const clock = (): Date => {
    const read = instant;
    instant = new Date(read.getTime() + advancesMs);
    return read;
  };
  const database = onSqlite ? null : await copyOfEmptyShop();
  if (!database) await putEmptyDatabase(file);
  const store = await (database
    ? openServerStore({ url: database.url, timeZone, clock })
    : openStore({ file, timeZone, clock }));
  const config = { timeZone, rateLimitPerMinute, failedKeysPerMinute, webhookAllowPrivate, trustProxy };
  const app = await buildApp({ store, config, clock });
  // Listening once saves a start for every request.
  await app.listen({ host: '127.0.0.1', port: 0 });
  const make = (role: Role, name: string = role, fleets: string[] = [], expiresAt: string | null = null) =>
    createKey(store.keys, { role, name, fleets, expiresAt });
  const keys: Record<Role, string> = {
    'front-desk': await make('front-desk'),
    technician: await make('technician'),
    'fleet-manager': await make('fleet-manager', 'fleet-manager', [FLEET]),
    owner: await make('owner'),
  };
  const unchecked = request(app.server);
  // The document is the same for every service (tests/http/document.test.ts): generate and compile it once.
  contract ??= contractFrom((await unchecked.get('/openapi.json')).text);
  const { check } = contract;
  /** A request without a key. As with all requests here, the answer is validated against the OpenAPI document. */
  const anonymous = (method: Method, path: string) => unchecked[method](path).expect(check);
  const withKey = (key: string, method: Method, path: string) =>
    anonymous(method, path).set('Authorization', `Bearer ${key}`);

  return {
    app,
    store,
    file,
    keys,
    /** Requests whose answers are not validated against the document. */
    unchecked,
    contract,
    anonymous,
    withKey,
    makeKey: make,
    clock,
    setClock: (to: string): void => {
      instant = new Date(to);
    },
    as: (role: Role, method: Method, path: string) => withKey(keys[role], method, path),
    /** The number of rows in every table, read over a connection of its own. */
    rowCounts: async (): Promise<Record<string, number>> =>
      database ? countRowsOf(database) : countRows(file),
    /** How often a text occurs in a database file and its log, or in how many rows of a server's database. */
    occurrencesOf: async (text: string): Promise<number> =>
      database ? countRowsWith(database, text) : occurrencesIn(file, text),
    /** Another store on the same database, as another process would open it. */
    openAnother: async (more: Partial<ServerStoreOptions> = {}): Promise<OpenStore> =>
      database
        ? openServerStore({ url: database.url, timeZone, clock, ...more })
        : openStore({ file, timeZone, clock, ...more }),
    close: async (): Promise<void> => {
      await app.close();
      await store.close();
      await database?.drop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export type Service = Awaited<ReturnType<typeof startService>>;

function occurrencesIn(file: string, text: string): number {
  const files = [file, `${file}-wal`].filter((path) => existsSync(path));
  return files.reduce((sum, path) => sum + readFileSync(path, 'latin1').split(text).length - 1, 0);
}

function countRows(file: string): Record<string, number> {
  const connection = new BetterSqlite(file, { readonly: true });
  try {
    const tables = connection
      .prepare("select name from sqlite_master where type = 'table' order by name")
      .pluck()
      .all() as string[];
    const count = (table: string): number =>
      connection.prepare(`select count(*) from "${table}"`).pluck().get() as number;
    return Object.fromEntries(tables.map((table) => [table, count(table)]));
  } finally {
    connection.close();
  }
}
