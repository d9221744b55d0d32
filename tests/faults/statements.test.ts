import BetterSqlite from 'better-sqlite3';
import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { wrongIn } from '../../bench/databaseCheck.js';
import { contractVisit, padReading, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { recordVehicle, recordVisit } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';
import { padRow, sheetOf } from '../support/sheets.js';
import { failAt, noneFailed, watchConnections } from '../support/watchedDatabase.js';

afterAll(watchConnections());

let service: Service;
beforeAll(async () => {
  service = await startService();
  // The server records a key's first use outside the request; a separate test below covers that.
  expect((await service.as('owner', 'get', '/v1/gauges')).status).toBe(200);
});
afterAll(() => service.close());

/** Everything in the database except records of imports: a failed one leaves a record. */
function contents(): string {
  const connection = new BetterSqlite(service.file, { readonly: true });
  const hash = createHash('sha256');
  try {
    const tables = connection
      .prepare("select name from sqlite_master where type = 'table' and name <> 'imports' order by name")
      .all() as { name: string }[];
    for (const { name } of tables) {
      const rows = connection.prepare(`select * from "${name}"`).all();
      hash.update(name).update(JSON.stringify(rows));
    }
    return hash.digest('hex');
  } finally {
    connection.close();
  }
}

const post = (path: string, body: Body) =>
  service.as('owner', 'post', path).set({ 'If-Match': '*', 'Idempotency-Key': 'once' }).send(body);

/** A write to be tried, on a vehicle and a visit of its own; every try is the same request. */
type Write = (ids: { vehicle: string; visit: string; name: string }) => ReturnType<typeof post>;

const WRITES: Record<string, Write> = {
  'records a visit': ({ vehicle }) => post(`/v1/vehicles/${vehicle}/visits`, contractVisit()),
  'adds to a visit': ({ visit }) =>
    post(`/v1/visits/${visit}/entries`, {
      readings: [padReading('left', 'outer', 7)],
      work: [{ kind: 'slides-serviced', axle: 'front' }],
      torques: [{ fastener: 'wheel-nut', axle: 'front', value: 120, unit: 'Nm' }],
    }),
  'corrects a visit': ({ visit }) =>
    post(`/v1/visits/${visit}/corrections`, {
      reason: 'typed wrong',
      changes: { readings: [padReading('left', 'inner', 7.5)] },
    }),
  'voids a visit': ({ visit }) =>
    post(`/v1/visits/${visit}/corrections`, { reason: 'wrong van', void: true }),
  'records a vehicle': ({ name }) => post('/v1/vehicles', vehicleBody({ externalId: `${name}-2` })),
  'changes a vehicle': ({ vehicle }) =>
    service
      .as('owner', 'patch', `/v1/vehicles/${vehicle}`)
      .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
      .send('{"model":"other"}'),
  'imports visits': ({ name }) =>
    service
      .as('owner', 'post', '/v1/imports/visits')
      .set({ 'Content-Type': 'text/csv', 'Idempotency-Key': name })
      .send(sheetOf([padRow({ vehicle: name }), padRow({ vehicle: name, pad: 'outer' })])),
};

describe('a fault at any statement of a write', () => {
  let made = 0;
  it.each(Object.entries(WRITES))(
    'a write that fails leaves nothing behind: %s',
    { timeout: 240_000 },
    async (_name, write) => {
      const name = `ST-${++made}`;
      const vehicle = await recordVehicle(service, vehicleBody({ externalId: name }));
      const visit = await recordVisit(
        service,
        vehicle.id,
        visitBody('2026-03-01', 60_000, [padReading('left', 'inner', 8)]),
      );
      const ids = { vehicle: vehicle.id, visit: visit.id, name };
      const before = contents();
      let failures = 0;
      for (;;) {
        failAt(failures + 1);
        const { status, body, text } = await write(ids);
        if (noneFailed()) {
          expect([status, text]).toEqual([expect.toSatisfy((code: number) => code < 300), text]);
          break;
        }
        failures += 1;
        expect([failures, status, body.code]).toEqual([failures, 503, 'unavailable']);
        expect(text).not.toMatch(/SQLITE|sqlite|insert|select/i);
        expect(contents(), `after the fault at statement ${failures}`).toBe(before);
      }
      expect(failures).toBeGreaterThan(8);
      expect(contents()).not.toBe(before);
      const connection = new BetterSqlite(service.file);
      expect(wrongIn(connection)).toEqual([]);
      connection.close();
    },
  );
});

describe('a fault while recording a key’s last use', () => {
  it('the request succeeds all the same', async () => {
    const outcomes: string[] = [];
    for (let statement = 1; ; statement++) {
      const name = `key-${statement}`;
      const key = await service.makeKey('technician', name);
      failAt(statement);
      const { status } = await service.withKey(key, 'get', '/v1/gauges');
      const isOver = noneFailed();
      const { lastUsedAt } = (await service.store.keys.list()).find((known) => known.name === name)!;
      outcomes.push(`${status} ${lastUsedAt === null ? 'not noted' : 'noted'}`);
      if (isOver) break;
    }
    expect(outcomes.at(-1)).toBe('200 noted');
    const faults = outcomes.slice(0, -1);
    // The request fails if one of its own statements does, and succeeds if recording the use fails.
    expect(new Set(faults.map((outcome) => outcome.slice(0, 3)))).toEqual(new Set(['503', '200']));
    expect(faults).not.toContain('200 noted');
  });
});
