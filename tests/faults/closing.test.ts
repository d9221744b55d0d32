import { once } from 'node:events';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { effectsOf, isAnswered } from '../../bench/crashTrial.js';
import { ask, killServer, startServer, type ServerProcess } from '../../bench/serverProcess.js';
import { wrongIn } from '../../bench/databaseCheck.js';
import { Writer } from '../../bench/writers.js';
import { streams } from '../../seed/random.js';
import { visitBody } from '../support/bodies.js';
import { makeShopFile, withConnection } from '../support/shopFile.js';

let folder: string;
let file: string;
let shop: Awaited<ReturnType<typeof makeShopFile>>;
let server: ServerProcess;
let address: string;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'brake-wear-closing-'));
  file = join(folder, 'brakes.sqlite');
  shop = await makeShopFile(file);
  server = startServer(file);
  address = await server.listening;
});
afterEach(async () => {
  await killServer(server);
  rmSync(folder, { recursive: true, force: true });
});

/** When unfinished requests are cut off. */
const CUT_OFF_MS = 7500;

/** Sends SIGTERM, and returns how the process ended. */
async function close(withinMs = 10_000): Promise<void> {
  const began = performance.now();
  server.child.kill('SIGTERM');
  const { code, signal, stderr } = await server.ended;
  expect([code, signal, stderr]).toEqual([0, null, '']);
  expect(performance.now() - began).toBeLessThan(withinMs);
}

/** A connection for raw bytes, with everything that came back. */
async function openConnection(): Promise<{
  socket: Socket;
  received: () => string;
  closed: Promise<unknown>;
}> {
  const { hostname, port } = new URL(address);
  const socket = connect(Number(port), hostname);
  let text = '';
  socket.on('data', (chunk: Buffer) => (text += chunk.toString()));
  const closed = once(socket, 'close');
  await once(socket, 'connect');
  return { socket, received: () => text, closed };
}

/** Waits until the server has read what was sent before: it answers a later request on another connection. */
async function readByNow(): Promise<void> {
  await sleep(100);
  expect((await ask(address, shop.key, '/v1/gauges')).status).toBe(200);
}

const head = (method: string, path: string, length = 0): string =>
  [
    `${method} ${path} HTTP/1.1`,
    'Host: brakes',
    `Authorization: Bearer ${shop.key}`,
    'Content-Type: application/json',
    `Content-Length: ${length}`,
    'Connection: keep-alive',
    '\r\n',
  ].join('\r\n');

describe('SIGTERM', () => {
  it('under load, the server answers the requests in flight, loses no write and exits in time', async () => {
    const callers = streams(11, 6).map((chance, index) => new Writer(`c${index}`, chance));
    let over = false;
    const writing = callers.map((caller) => caller.run(address, shop.key, () => over));
    const deeds = () => callers.flatMap((caller) => caller.deeds);
    while (deeds().filter(isAnswered).length < 30) await sleep(20);
    await close();
    over = true;
    await Promise.all(writing);
    withConnection(file, (connection) => {
      expect(wrongIn(connection)).toEqual([]);
      for (const deed of deeds()) {
        const effects = effectsOf(connection, deed);
        expect([deed.mark, deed.answer?.status ?? null, effects]).toEqual([
          deed.mark,
          deed.answer?.status ?? null,
          isAnswered(deed) ? 1 : 0,
        ]);
        expect([undefined, 200, 201, 503]).toContain(deed.answer?.status);
      }
    });
  });

  it('the server waits for a request that has begun to arrive, answers it and closes its connection', async () => {
    const body = JSON.stringify(visitBody('2026-03-02', null, [], { notes: 'half sent' }));
    const { socket, received, closed } = await openConnection();
    socket.write(head('POST', `/v1/vehicles/${shop.vehicleIds[0]}/visits`, body.length) + body.slice(0, 20));
    await readByNow();
    const ending = close(CUT_OFF_MS);
    await sleep(500);
    socket.write(body.slice(20));
    await Promise.all([ending, closed]);
    expect(received()).toMatch(/^HTTP\/1\.1 201 /);
    expect(received()).toMatch(/^connection: close\r$/im);
    const stored = withConnection(file, (connection) =>
      connection.prepare("select count(*) from visits where notes = 'half sent'").pluck().get(),
    );
    expect(stored).toBe(1);
  });

  it('the server stops waiting for a request that never arrives completely', async () => {
    const { socket, received, closed } = await openConnection();
    socket.write(`${head('POST', `/v1/vehicles/${shop.vehicleIds[0]}/visits`, 100)}{"date":`);
    await readByNow();
    await Promise.all([close(), closed]);
    expect(received()).toBe('');
    withConnection(file, (connection) => expect(wrongIn(connection)).toEqual([]));
  });

  it('the server closes idle keep-alive connections, and leaves the database in one file, with an empty write-ahead log', async () => {
    const { socket, received, closed } = await openConnection();
    socket.write(head('GET', '/v1/gauges'));
    await once(socket, 'data');
    expect(received()).toMatch(/^HTTP\/1\.1 200 /);
    await Promise.all([close(), closed]);
    expect([existsSync(file), existsSync(`${file}-wal`)]).toEqual([true, false]);
  });

  it('the server finishes an answer that is being streamed, then closes its connection', async () => {
    // Without visits, so that the first row comes at once and the end a while later.
    const further = `insert into vehicles (id, version, body, created_at, updated_at)
      with recursive count(n) as (select 1 union all select n + 1 from count where n < 2000)
      select id || n, 1, json_set(body, '$.externalId', id || n, '$.registration', id || n), created_at, updated_at from count, vehicles where seq = 1`;
    withConnection(file, (connection) => connection.exec(further));
    const { socket, received, closed } = await openConnection();
    socket.write(head('GET', '/v1/exports/visits'));
    await once(socket, 'data');
    expect(received()).not.toMatch(/\r\n0\r\n\r\n$/);
    await Promise.all([close(CUT_OFF_MS), closed]);
    expect(received()).toMatch(/\r\n0\r\n\r\n$/);
  });
});
