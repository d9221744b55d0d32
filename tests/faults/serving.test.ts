import { execFileSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { ask, killServer, startServer, type Answer, type ServerProcess } from '../../bench/serverProcess.js';
import { wrongIn } from '../../bench/databaseCheck.js';
import { fourPads, vehicleBody, visitBody } from '../support/bodies.js';
import { recordVehicle } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';
import { sendSheet, sheetOf, padRow } from '../support/sheets.js';
import { makeShopFile, whileLocked, withConnection } from '../support/shopFile.js';
import { connections, watchConnections } from '../support/watchedDatabase.js';

afterAll(watchConnections());

/** File names, SQLite's name and its SQL belong in the log only. */
const INSIDES = /sqlite|\/tmp|select |insert |update |\bat .*:\d+/i;

describe('a service whose connection cannot write', () => {
  let service: Service;
  let vehicleId: string;
  beforeAll(async () => {
    service = await startService();
    vehicleId = (await recordVehicle(service, vehicleBody({ externalId: 'FD-1007' }))).id;
  });
  afterAll(() => service.close());

  /** For every connection that the service now has to its file, including the imports' own. */
  const pragma = (text: string): void => {
    for (const connection of [...connections].filter(({ name, open }) => open && name === service.file))
      connection.pragma(text);
  };
  let made = 0;
  const nextKm = () => 60_000 + ++made;
  const long = (length: number) => 'x'.repeat(length);
  const writes = {
    visit: () =>
      service
        .as('owner', 'post', `/v1/vehicles/${vehicleId}/visits`)
        .set('Idempotency-Key', `visit-${nextKm()}`)
        .send(visitBody('2026-03-02', nextKm(), fourPads([8, 8, 8, 8]), { notes: long(2000) })),
    vehicle: () => service.as('owner', 'post', '/v1/vehicles').send(vehicleBody({ description: long(200) })),
    change: () =>
      service
        .as('owner', 'patch', `/v1/vehicles/${vehicleId}`)
        .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
        .send(JSON.stringify({ description: long(200) })),
    import: () =>
      sendSheet(
        service,
        sheetOf([padRow({ odometer: nextKm(), workOrder: `WO-${made}`, notes: long(2000) })]),
      ),
  };
  const reads = [
    '/health/ready',
    '/v1/vehicles',
    '/v1/reports/due-soon',
    '/v1/reports/forecast-accuracy',
    '/v1/exports/visits',
  ];

  /** Small writes may still fit in pages that migrations freed, but not as many as this. */
  const MAX_TAKEN = 400;

  async function expectRefused(
    write: () => ReturnType<Service['as']>,
    status: number,
    code: string,
  ): Promise<void> {
    for (let taken = 0; taken <= MAX_TAKEN; taken++) {
      const before = await service.rowCounts();
      const response = await write();
      if (response.status < 300) continue;
      expect([response.status, response.body.code]).toEqual([status, code]);
      expect(response.text).not.toMatch(INSIDES);
      expect(response.body.detail).toContain('nothing was stored');
      // The record of a failed import may remain.
      expect({ ...(await service.rowCounts()), imports: before.imports }).toEqual(before);
      return;
    }
    expect.unreachable('every write was taken');
  }

  async function expectWritesRefused(status: number, code: string): Promise<void> {
    for (const write of Object.values(writes)) await expectRefused(write, status, code);
    for (const path of reads)
      expect([path, (await service.as('owner', 'get', path)).status]).toEqual([path, 200]);
  }

  async function expectWritesTaken(): Promise<void> {
    for (const write of Object.values(writes)) {
      const response = await write();
      expect([response.status < 300, response.text]).toEqual([true, response.text]);
    }
    withConnection(service.file, (connection) => expect(wrongIn(connection)).toEqual([]));
  }

  it('a full disk gets 507 for writes, reads continue, and writes succeed once there is room', async () => {
    // SQLite's own limit raises its own fault, and needs no permission to mount a small disk.
    // SQLite rounds a lower limit up to the present number of pages.
    pragma('max_page_count = 1');
    await expectWritesRefused(507, 'storage-full');
    const body = vehicleBody({ description: long(200) });
    const keyed = () =>
      service.as('owner', 'post', '/v1/vehicles').set('Idempotency-Key', 'while-full').send(body);
    expect((await keyed()).status).toBe(507);
    pragma('max_page_count = 1073741823');
    await expectWritesTaken();
    const again = await keyed();
    expect([again.status, again.headers['idempotent-replayed']]).toEqual([201, undefined]);
  });

  it('a read-only file gets 503 for writes, reads continue, and writes succeed once it is writable', async () => {
    pragma('query_only = on');
    await expectWritesRefused(503, 'unavailable');
    pragma('query_only = off');
    await expectWritesTaken();
  });
});

describe('a server process with a faulty database file', () => {
  let folder: string;
  let file: string;
  let shop: Awaited<ReturnType<typeof makeShopFile>>;
  let server: ServerProcess;
  let address: string;
  /** How many visits of `post` are stored when a test begins. */
  let before: number;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'brake-wear-serving-'));
    file = join(folder, 'brakes.sqlite');
    shop = await makeShopFile(file, 3);
    server = startServer(file);
    address = await server.listening;
  });
  beforeEach(() => {
    before = stored();
  });
  afterAll(async () => {
    await killServer(server);
    rmSync(folder, { recursive: true, force: true });
  });

  const get = (path: string): Promise<Answer> => ask(address, shop.key, path);
  let posted = 0;
  const post = (vehicleId = shop.vehicleIds[0]!): Promise<Answer> =>
    ask(address, shop.key, `/v1/vehicles/${vehicleId}/visits`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(
        visitBody('2026-03-02', null, fourPads([7, 7, 7, 7]), { notes: `mark-${++posted}` }),
      ),
    });
  const stored = (): number =>
    withConnection(
      file,
      (connection) =>
        connection.prepare("select count(*) from visits where notes like 'mark-%'").pluck().get() as number,
    );

  it('writes get 503 while another process locks the file, and reads continue', async () => {
    await whileLocked(file, async () => {
      const began = performance.now();
      let waiting = true;
      const answers = Promise.all(Array.from({ length: 10 }, () => post())).finally(() => (waiting = false));
      const waits: number[] = [];
      while (waiting) {
        const asked = performance.now();
        expect((await get(`/v1/vehicles/${shop.vehicleIds[1]}/wear`)).status).toBe(200);
        waits.push(performance.now() - asked);
      }
      for (const { status, text, headers } of await answers) {
        expect([status, JSON.parse(text)]).toEqual([503, expect.objectContaining({ code: 'unavailable' })]);
        expect(Number(headers.get('retry-after'))).toBeGreaterThan(0);
        expect(text).not.toMatch(INSIDES);
      }
      // Ten writers that each waited a second inside SQLite would block everyone for ten seconds.
      expect(performance.now() - began).toBeLessThan(8000);
      expect(waits.length).toBeGreaterThan(5);
      waits.sort((a, b) => a - b);
      expect(waits[Math.floor(waits.length / 2)]).toBeLessThan(500);
    });
    expect(stored()).toBe(before);
    expect((await post()).status).toBe(201);
    expect(stored()).toBe(before + 1);
  });

  it('a write waits for a short lock', async () => {
    const answer = await whileLocked(file, async () => {
      const asked = post();
      await get('/v1/vehicles');
      return { asked };
    });
    expect((await answer.asked).status).toBe(201);
  });

  it.skipIf(process.platform !== 'linux')(
    'writes get 503 while the file cannot grow, nothing is lost, and they succeed once it can',
    async () => {
      expect((await post()).status).toBe(201);
      const limit = (bytes: number | string) =>
        execFileSync('prlimit', ['--pid', String(server.child.pid), `--fsize=${bytes}:unlimited`]);
      limit(statSync(`${file}-wal`).size + 8192);
      const refused = [await post(), await post(), await post()].filter(({ status }) => status !== 201);
      expect(refused.length).toBeGreaterThan(0);
      for (const { status, text } of refused) {
        expect([status, JSON.parse(text)]).toEqual([503, expect.objectContaining({ code: 'unavailable' })]);
        expect(text).not.toMatch(INSIDES);
      }
      expect((await get(`/v1/vehicles/${shop.vehicleIds[0]}/wear`)).status).toBe(200);
      limit('unlimited');
      expect((await post()).status).toBe(201);
      expect(stored()).toBe(before + 5 - refused.length);
      withConnection(file, (connection) => expect(wrongIn(connection)).toEqual([]));
    },
  );

  // This test is the last, because the file stays damaged.
  it('damage gets 503 without internal details and a log line, and undamaged pages are still served', async () => {
    const pages = withConnection(file, (connection) => {
      connection.pragma('wal_checkpoint(truncate)');
      return connection
        .prepare("select pageno from dbstat where name = 'readings'")
        .pluck()
        .all() as number[];
    });
    const descriptor = openSync(file, 'r+');
    for (const page of pages) writeSync(descriptor, Buffer.alloc(4096, 0x5a), 0, 4096, 4096 * (page - 1));
    closeSync(descriptor);
    // Makes the process drop the pages it has cached.
    withConnection(file, (connection) => connection.pragma('user_version = 1'));

    for (const answer of [await get(`/v1/vehicles/${shop.vehicleIds[0]}/visits`), await post()]) {
      expect([answer.status, JSON.parse(answer.text)]).toEqual([
        503,
        expect.objectContaining({ code: 'unavailable' }),
      ]);
      expect(answer.text).toContain('damaged');
      expect(answer.text).not.toMatch(INSIDES);
    }
    // The log comes through a pipe and may arrive after the answer.
    await expect.poll(() => server.log()).toMatch(/SQLITE_CORRUPT/);
    for (const path of ['/health/live', '/v1/gauges', `/v1/vehicles/${shop.vehicleIds[0]}/wear`])
      expect([path, (await get(path)).status]).toEqual([path, 200]);
    expect(stored()).toBe(before);
  });
});
