import request from 'supertest';
import { buildApp } from '../../src/app.js';
import { createKey } from '../../src/commands/keys.js';
import type { Role } from '../../src/core/vocabulary/terms.js';
import type { OpenStore } from '../../src/store/open.js';
import { contractFrom, type Contract } from './openapi.js';
import { makeOwnDatabase, onSqlite, type OpenOptions } from './ownDatabase.js';

/** The service on a database of its own, with a key for every role and a clock that a test can set. */

export { onSqlite };

export type Method = 'get' | 'post' | 'put' | 'patch' | 'delete';

/** The fleet that the fleet-manager's key is for. */
export const FLEET = 'north-depot';
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
  let instant = new Date(now);
  const clock = (): Date => {
    const read = instant;
    instant = new Date(read.getTime() + advancesMs);
    return read;
  };
  const database = await makeOwnDatabase();
  const store = await database.open({ timeZone, clock });
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
    /** The database file; on a PostgreSQL server there is none. */
    file: database.file,
    /** The environment variables that name the database to a command. */
    environment: database.environment,
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
    rowCounts: database.rowCounts,
    occurrencesOf: database.occurrencesOf,
    /** A query on the database over a connection of its own. */
    query: database.query,
    /** Another store on the same database, as another process would open it. */
    openAnother: (more: Partial<OpenOptions> = {}): Promise<OpenStore> =>
      database.open({ timeZone, clock, ...more }),
    close: async (): Promise<void> => {
      await app.close();
      await store.close();
      await database.remove();
    },
  };
}

export type Service = Awaited<ReturnType<typeof startService>>;
