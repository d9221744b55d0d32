import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { killServer, startServer, type ServerProcess } from '../../bench/serverProcess.js';
import { createKey } from '../../src/commands/keys.js';
import { VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import { openServerStore } from '../../src/store/open.js';
import { fourPads, vehicleBody, visitBody } from '../support/bodies.js';
import { serverBinaries, startCluster, type Cluster } from '../support/postgresCluster.js';

/** Several servers of the service on one PostgreSQL database, some of which are killed. */

const BINARIES = serverBinaries();
const CLIENTS = 20;

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

describe.skipIf(BINARIES === null)('two servers on one PostgreSQL database', () => {
  let cluster: Cluster;
  beforeAll(async () => {
    cluster = await startCluster(BINARIES!);
  }, 60_000);
  afterAll(() => cluster.remove());

  it('one of them killed every few seconds, no acknowledged visit is lost and none is recorded twice', async () => {
    const databaseUrl = cluster.url('postgres');
    const shop = await makeShop(databaseUrl, CLIENTS);
    const start = (): ServerProcess => startServer('unused', { databaseUrl });
    const servers = [start(), start()];
    await Promise.all(servers.map(({ listening }) => listening));

    let isOver = false;
    const acknowledged = new Map<string, number>();
    const client = async (vehicleId: string, index: number): Promise<void> => {
      for (let number = 0, turn = index; !isOver; turn++) {
        const address = await servers[turn % servers.length]!.listening.catch(() => null);
        const answer = address === null ? null : await post(address, shop, vehicleId, number);
        if (answer?.status === 201) acknowledged.set(vehicleId, (number += 1));
        else await sleep(50);
      }
    };
    const clients = shop.vehicleIds.map(client);
    for (let kill = 0; kill < 3; kill++) {
      await sleep(3000);
      await killServer(servers[kill % 2]!);
      servers[kill % 2] = start();
      await servers[kill % 2]!.listening;
    }
    isOver = true;
    await Promise.all(clients);

    const address = await servers[0]!.listening;
    for (const vehicleId of shop.vehicleIds) {
      const orders = await recorded(address, shop, vehicleId);
      const count = acknowledged.get(vehicleId) ?? 0;
      // At most one more was stored, whose answer did not arrive.
      expect(orders).toEqual(ordersUpTo(orders.length));
      expect([count, count + 1]).toContain(orders.length);
    }
    expect([...acknowledged.values()].reduce((sum, count) => sum + count, 0)).toBeGreaterThan(CLIENTS);
    await Promise.all(servers.map(killServer));
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
