import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import {
  ask,
  killServer,
  startServer,
  type ServerOptions,
  type ServerProcess,
} from '../../bench/serverProcess.js';
import { createKey } from '../../src/commands/keys.js';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import { openConnections } from '../../src/store/engine/postgres/connections.js';
import { openServerStore } from '../../src/store/open.js';
import { fourPads, vehicleBody, visitBody } from '../support/bodies.js';
import { lossyNetwork } from '../support/lossyNetwork.js';
import { serverBinaries, startCluster, type Cluster } from '../support/postgresCluster.js';
import { laterProgram } from '../support/program.js';
import { inDepth } from '../support/thorough.js';

/** Several servers of the service on one PostgreSQL database, some of which are killed. */

const BINARIES = serverBinaries();
const CLIENTS = 8;
const KILLS = inDepth(2, 6);
/** How many visits must be acknowledged between two kills. */
const VISITS_A_KILL = inDepth(30, 150);

interface Shop {
  key: string;
  vehicleIds: string[];
}

async function makeShop(url: string, vehicles: number): Promise<Shop> {
  const store = await openServerStore({ url, timeZone: 'UTC' });
  const key = await createKey(store.keys, { name: 'owner', role: 'owner', fleets: [] });
  const vehicleIds: string[] = [];
  for (let index = 0; index < vehicles; index++) {
    const { id } = await store.vehicles.create(OPERATOR, VehicleBody.parse(vehicleBody()), null);
    vehicleIds.push(id);
  }
  await store.close();
  return { key, vehicleIds };
}

const dayOf = (number: number): string => new Date(Date.UTC(2024, 0, 1 + number)).toISOString().slice(0, 10);

/** Posts a visit under a key of its own; null if there was no answer. */
async function post(
  address: string,
  { key }: Shop,
  vehicleId: string,
  number: number,
): Promise<Response | null> {
  const body = {
    ...visitBody(dayOf(number), 10_000 + 100 * number, fourPads([8, 8, 8, 8])),
    workOrder: `WO-${number}`,
  };
  return fetch(`${address}/v1/vehicles/${vehicleId}/visits`, {
    method: 'POST',
    headers: {
      authorization: `Bearer ${key}`,
      'content-type': 'application/json',
      'idempotency-key': `${vehicleId}.${number}`,
    },
    body: JSON.stringify(body),
    signal: AbortSignal.timeout(20_000),
  }).catch(() => null);
}

/** The work orders that a vehicle's visits have, in the order of their dates. */
async function recorded(address: string, { key }: Shop, vehicleId: string): Promise<string[]> {
  const orders: string[] = [];
  for (let cursor = ''; ;) {
    const response = await fetch(`${address}/v1/vehicles/${vehicleId}/visits?limit=200${cursor}`, {
      headers: { authorization: `Bearer ${key}` },
    });
    const { items, nextCursor } = (await response.json()) as {
      items: { workOrder: string }[];
      nextCursor: string | null;
    };
    orders.push(...items.map(({ workOrder }) => workOrder));
    if (nextCursor === null) return orders.reverse();
    cursor = `&cursor=${nextCursor}`;
  }
}

const ordersUpTo = (count: number): string[] => Array.from({ length: count }, (_, number) => `WO-${number}`);

/** For all tests except those that kill a PostgreSQL server. */
let cluster: Cluster;
beforeAll(async () => {
  if (BINARIES !== null) cluster = await startCluster(BINARIES);
}, 60_000);
afterAll(() => cluster?.remove());

describe.skipIf(BINARIES === null)('two servers on one PostgreSQL database', () => {
  it('two servers, one of them killed again and again while they write, lose no acknowledged visit and record none twice', async () => {
    const databaseUrl = cluster.url(newDatabase());
    const shop = await makeShop(databaseUrl, CLIENTS);
    const start = (): ServerProcess => startServer('unused', { databaseUrl });
    const servers = [start(), start()];
    await Promise.all(servers.map(({ listening }) => listening));

    let isOver = false;
    const acknowledged = new Map<string, number>();
    const total = (): number => [...acknowledged.values()].reduce((sum, count) => sum + count, 0);
    const client = async (vehicleId: string, index: number): Promise<void> => {
      for (let number = 0, turn = index; !isOver; turn++) {
        const address = await servers[turn % servers.length]!.listening.catch(() => null);
        const answer = address === null ? null : await post(address, shop, vehicleId, number);
        if (answer?.status === 201) acknowledged.set(vehicleId, (number += 1));
        else await sleep(50);
      }
    };
    const clients = shop.vehicleIds.map(client);
    for (let kill = 0; kill < KILLS; kill++) {
      const before = total();
      while (total() < before + VISITS_A_KILL) await sleep(20);
      await killServer(servers[kill % 2]!);
      servers[kill % 2] = start();
      await servers[kill % 2]!.listening;
    }
    isOver = true;
    await Promise.all(clients);
    expect(total()).toBeGreaterThanOrEqual(KILLS * VISITS_A_KILL);

    const address = await servers[0]!.listening;
    for (const vehicleId of shop.vehicleIds) {
      const orders = await recorded(address, shop, vehicleId);
      const count = acknowledged.get(vehicleId) ?? 0;
      // At most one more visit was stored, whose answer did not arrive.
      expect(orders).toEqual(ordersUpTo(orders.length));
      expect([count, count + 1]).toContain(orders.length);
    }
    await Promise.all(servers.map(killServer));
  });

  it('an import whose server is killed is marked as failed by another, within seconds', async () => {
    const databaseUrl = cluster.url(newDatabase());
    const { key } = await makeShop(databaseUrl, 0);
    const [dying, other] = [startServer('unused', { databaseUrl }), startServer('unused', { databaseUrl })];
    const address = await other.listening;
    const states = async (): Promise<{ state: string; detail: string | null }[]> => {
      const { text } = await ask(address, key, '/v1/imports');
      return (JSON.parse(text) as { items: { state: string; detail: string | null }[] }).items;
    };
    const sent = request(`${await dying.listening}/v1/imports/visits`, {
      method: 'POST',
      headers: { authorization: `Bearer ${key}`, 'content-type': 'text/csv' },
    });
    sent.on('error', () => undefined);
    // The rest of the file never comes.
    sent.write('vehicle,date,entry\n');
    await expect.poll(states, { timeout: 10_000 }).toMatchObject([{ state: 'receiving' }]);
    await killServer(dying);
    await expect
      .poll(states, { timeout: 30_000, interval: 500 })
      .toMatchObject([{ state: 'failed', detail: expect.stringContaining('nothing was imported') }]);
    await killServer(other);
  });
});

/** Creates a database and returns its name. */
function newDatabase(): string {
  const name = `shop_${randomUUID().replaceAll('-', '')}`;
  cluster.run(`create database ${name}`);
  return name;
}

describe.skipIf(BINARIES === null)('an upgrade of one server after the other', () => {
  let folder: string;
  let databaseUrl: string;
  let shop: Shop;
  let old: ServerProcess;
  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), 'brake-wear-upgrade-'));
    databaseUrl = cluster.url(newDatabase());
    shop = await makeShop(databaseUrl, 1);
    old = startServer('unused', { databaseUrl });
    await old.listening;
  });
  afterEach(async () => {
    await killServer(old);
    rmSync(folder, { recursive: true, force: true });
  });

  const laterMain = (sql: string): string =>
    laterProgram(folder, { tag: '9999_later', sql, engine: 'postgres' });

  /** One clear line, and exit code 1. */
  async function expectRefused(line: RegExp, options: ServerOptions = {}): Promise<void> {
    const { code, stderr } = await startServer('unused', { databaseUrl, ...options }).ended;
    expect([code, stderr.split('\n').length, stderr]).toEqual([1, 2, expect.stringMatching(line)]);
  }

  it('the old server records and reads on after the new one has added to the tables, and the new one reads it', async () => {
    const [vehicleId] = shop.vehicleIds as [string];
    const address = await old.listening;
    // Its statements are prepared on the old tables.
    for (let number = 0; number < 3; number++)
      expect((await post(address, shop, vehicleId, number))?.status).toBe(201);
    const additions = [
      'alter table visits add column weather text',
      "alter table vehicles add column colour text not null default 'unknown'",
      'create table depots (name text primary key)',
      'create index visits_weather on visits (weather)',
    ];
    const later = startServer('unused', {
      databaseUrl,
      main: laterMain(additions.join(';\n--> statement-breakpoint\n')),
    });
    const laterAddress = await later.listening;
    for (let number = 3; number < 6; number++) {
      expect((await post(address, shop, vehicleId, number))?.status).toBe(201);
      expect(await recorded(laterAddress, shop, vehicleId)).toEqual(ordersUpTo(number + 1));
    }
    expect((await post(laterAddress, shop, vehicleId, 6))?.status).toBe(201);
    expect(await recorded(address, shop, vehicleId)).toEqual(ordersUpTo(7));
    for (const each of [address, laterAddress])
      expect((await ask(each, shop.key, `/v1/vehicles/${vehicleId}/wear`)).status).toBe(200);
    // Once stopped, a server can only start as the new version.
    await expectRefused(/has schema \d+, newer than this program's \d+; run a newer program$/m);
    await killServer(later);
  });

  it('a version whose tables the old one cannot use starts only once the old one has stopped', async () => {
    const main = laterMain('-- Ends older programs.\nalter table visits rename column notes to remarks');
    await expectRefused(/in use by servers of an older version, .*; stop them first$/m, { main });
    expect((await post(await old.listening, shop, shop.vehicleIds[0]!, 0))?.status).toBe(201);
    await killServer(old);
    const later = startServer('unused', { databaseUrl, main });
    await later.listening;
    await killServer(later);
  });
});

describe.skipIf(BINARIES === null)('a start on a PostgreSQL database that cannot be used', () => {
  beforeAll(() => {
    cluster.run('create database read_only');
    cluster.run('alter database read_only set default_transaction_read_only = on');
    cluster.run("create role guest login password 'secret'");
    cluster.run('create database closed');
    cluster.run('revoke connect on database closed from public');
    // In this database a function hides the server's own, so that the server seems to be of another version.
    cluster.run('create database aged');
    cluster.run('create schema disguise', 'aged');
    cluster.run(
      `create function disguise.current_setting(text) returns text language sql as $$ select case $1
      when 'server_version_num' then '130012' else pg_catalog.current_setting($1) end $$`,
      'aged',
    );
    cluster.run('alter database aged set search_path = disguise, pg_catalog, public');
  });

  it.each<[string, () => string, RegExp]>([
    ['with another scheme', () => 'mysql://127.0.0.1/brakes', /^DATABASE_URL: must look like postgres:/],
    ['without a database', () => `postgres://127.0.0.1:${cluster.port}`, /must look like postgres:/],
    ['to a port where nothing listens', () => 'postgres://127.0.0.1:1/brakes', /cannot be reached/],
    ['to a database that does not exist', () => cluster.url('nowhere'), /refuses this user or database/],
    ['for a user without the right', () => urlOf('closed', 'guest:secret@'), /refuses this user or database/],
    ['to a read-only database', () => cluster.url('read_only'), /accepts no writes/],
    [
      'to a server that is too old',
      () => cluster.url('aged'),
      /: has version 13; the service needs PostgreSQL 14 or newer$/m,
    ],
  ])('a URL %s stops the start with one line and exit code 1', async (_how, url, line) => {
    const before = relations();
    const { code, stderr } = await startServer('unused', { databaseUrl: url() }).ended;
    expect([code, stderr.split('\n').length, stderr]).toEqual([1, 2, expect.stringMatching(line)]);
    expect(stderr).not.toContain('secret');
    expect(relations()).toEqual(before);
  });

  const relations = (): string[] =>
    ['read_only', 'aged'].map((database) => cluster.run('select count(*) from pg_class', database));

  const urlOf = (database: string, user: string): string => cluster.url(database).replace('postgres@', user);
});

/**
 * Milliseconds within which every request is answered while the database is silent: the limit in docs/postgres.md and a
 * reserve.
 */
const MAX_SILENCE_MS = 15_000 + 2000;

describe.skipIf(BINARIES === null)('a PostgreSQL primary that falls silent with its connections open', () => {
  it('every request is answered with 503 and Retry-After within 15 seconds, and the service goes on once the primary does, with nothing lost or doubled', async () => {
    const databaseUrl = cluster.url(newDatabase());
    const shop = await makeShop(databaseUrl, 2);
    const [vehicleId, otherId] = shop.vehicleIds as [string, string];
    const server = startServer('unused', { databaseUrl });
    const address = await server.listening;
    for (let number = 0; number < 3; number++)
      for (const id of shop.vehicleIds) expect((await post(address, shop, id, number))?.status).toBe(201);

    /** Requests of every kind, at once. */
    const refusals = async (): Promise<[number | undefined, boolean | undefined][]> => {
      const signal = AbortSignal.timeout(MAX_SILENCE_MS);
      const answers = await Promise.all([
        post(address, shop, vehicleId, 3),
        post(address, shop, otherId, 3),
        ask(address, shop.key, `/v1/vehicles/${vehicleId}/wear`, { signal }),
        ask(address, shop.key, '/v1/reports/due-soon', { signal }),
        fetch(`${address}/health/ready`, { signal }),
      ]);
      return answers.map((answer) => [answer?.status, answer?.headers.has('retry-after')]);
    };
    const refused = Array.from({ length: 5 }, () => [503, true]);
    cluster.pause();
    try {
      expect(await refusals()).toEqual(refused);
      // The service has noticed the loss by now.
      const again = performance.now();
      expect(await refusals()).toEqual(refused);
      expect(performance.now() - again).toBeLessThan(5000);
    } finally {
      cluster.resume();
    }
    for (const id of shop.vehicleIds) {
      const answered = async () => (await post(address, shop, id, 3))?.status;
      await expect.poll(answered, { timeout: 10_000, interval: 100 }).toBe(201);
      expect(await recorded(address, shop, id)).toEqual(ordersUpTo(4));
    }
    await killServer(server);
  });
});

describe.skipIf(BINARIES === null)('a network that loses what is sent on some connections', () => {
  it('requests on a lost connection get 503 or an answer within 15 seconds, and the service goes on with nothing lost or doubled', async () => {
    const direct = cluster.url(newDatabase());
    const shop = await makeShop(direct, 2);
    const network = await lossyNetwork(cluster.port);
    const databaseUrl = direct.replace(`:${cluster.port}/`, `:${network.port}/`);
    const server = startServer('unused', { databaseUrl });
    const address = await server.listening;
    const postAll = (number: number) =>
      Promise.all(shop.vehicleIds.map(async (id) => (await post(address, shop, id, number))?.status));
    try {
      for (let number = 0; number < 3; number++) expect(await postAll(number)).toEqual([201, 201]);
      network.loseOpen();
      const signal = AbortSignal.timeout(MAX_SILENCE_MS);
      const [wear, ...posted] = await Promise.all([
        ask(address, shop.key, `/v1/vehicles/${shop.vehicleIds[0]}/wear`, { signal }),
        ...shop.vehicleIds.map((id) => post(address, shop, id, 3)),
      ]);
      expect([200, 503]).toContain(wear?.status);
      for (const answer of posted) expect([201, 503]).toContain(answer?.status);
      expect([wear, ...posted].map((answer) => answer?.status)).toContain(503);
      await expect.poll(() => postAll(3), { timeout: 20_000, interval: 100 }).toEqual([201, 201]);
      for (const id of shop.vehicleIds) expect(await recorded(address, shop, id)).toEqual(ordersUpTo(4));
    } finally {
      await killServer(server);
      network.close();
    }
  });

  it('a statement that the server is running is not cut off', async () => {
    const connections = openConnections([cluster.url('postgres')], 'a long statement');
    const rows = await connections.query("select 'done' from pg_sleep(12)", []);
    await connections.close();
    expect(rows).toEqual([['done']]);
  });
});

describe.skipIf(BINARIES === null)('a PostgreSQL primary that is killed', () => {
  let primary: Cluster;
  let standby: Cluster;
  beforeAll(async () => {
    primary = await startCluster(BINARIES!, [
      "synchronous_standby_names = '*'",
      'synchronous_commit = local',
    ]);
    standby = await primary.standby();
    primary.run('alter system set synchronous_commit = on');
    primary.run('select pg_reload_conf()');
  }, 60_000);
  afterAll(() => {
    standby.remove();
    primary.remove();
  });

  it('the service answers 503 until the standby is promoted, goes on within ten seconds and has lost nothing', async () => {
    const hosts = `127.0.0.1:${primary.port},127.0.0.1:${standby.port}`;
    const databaseUrl = `postgres://postgres@${hosts}/postgres`;
    const shop = await makeShop(databaseUrl, 1);
    const [vehicleId] = shop.vehicleIds as [string];
    const server = startServer('unused', { databaseUrl });
    const address = await server.listening;
    let number = 0;
    for (; number < 5; number++) expect((await post(address, shop, vehicleId, number))?.status).toBe(201);

    primary.kill();
    const refused = (await post(address, shop, vehicleId, number))!;
    expect([refused.status, refused.headers.get('retry-after')]).toEqual([503, '1']);
    expect((await fetch(`${address}/health/ready`)).status).toBe(503);

    standby.promote();
    const promoted = performance.now();
    for (;;) {
      const answer = await post(address, shop, vehicleId, number);
      if (answer?.status === 201) break;
      expect(answer?.status).toBe(503);
      expect(performance.now() - promoted).toBeLessThan(10_000);
      await sleep(100);
    }
    expect(await recorded(address, shop, vehicleId)).toEqual(ordersUpTo(number + 1));
    expect((await fetch(`${address}/health/ready`)).status).toBe(200);
    await killServer(server);
  });
});
