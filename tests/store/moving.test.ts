import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { generateDemo } from '../../seed/generate.js';
import { DEMO_SEED, loadDemo } from '../../seed/load.js';
import { createKey } from '../../src/commands/keys.js';
import type { Engine } from '../../src/store/engine/contract/engine.js';
import { TABLES } from '../../src/store/engine/contract/tables.js';
import { openPostgres } from '../../src/store/engine/postgres/engine.js';
import * as postgresSchema from '../../src/store/engine/postgres/schema.js';
import { openEngine } from '../../src/store/engine/sqlite/engine.js';
import * as sqliteSchema from '../../src/store/engine/sqlite/schema.js';
import { moveShop } from '../../src/store/moving.js';
import { openServerStore, openStore } from '../../src/store/open.js';
import { answersOf, pathsOf } from '../support/answers.js';
import { createDatabase, SERVER, type TestDatabase } from '../support/postgres.js';

/** A part of the demo's fleet, moved from a file to a server and back. */

const TODAY = '2026-03-10';
const clock = (): Date => new Date(`${TODAY}T12:00:00Z`);
const VEHICLES = 10;

const columnsOf = (schema: Record<string, object>): Record<string, string[]> =>
  Object.fromEntries(
    TABLES.map((name) => [
      name,
      Object.keys(schema[name]!)
        .filter((column) => column !== 'writtenBy' && column !== 'enableRLS')
        .sort(),
    ]),
  );

test('both engines have the same tables with the same columns', () => {
  expect(columnsOf(postgresSchema)).toEqual(columnsOf(sqliteSchema));
});

describe.skipIf(SERVER === null)('a shop moved to a PostgreSQL server', () => {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-'));
  const file = join(folder, 'shop.sqlite');
  let database: TestDatabase;
  let key: string;
  let vehicleIds: string[];
  let moved: number;

  beforeAll(async () => {
    database = await createDatabase();
    const store = await openStore({ file, timeZone: 'UTC', clock });
    const loaded = await loadDemo(store, generateDemo(DEMO_SEED, TODAY).slice(0, VEHICLES));
    vehicleIds = loaded.map(({ vehicle }) => vehicle.id);
    key = await createKey(store.keys, { name: 'owner', role: 'owner', fleets: [] });
    await store.secret('cursors');
    // Otherwise each of the two would score past forecasts, as far as its first answer has time for.
    await store.accuracy.bringUpToDate();
    await store.close();
    moved = await move(await openEngine({ file }), await openPostgres({ url: database.url }));
  }, 120_000);
  afterAll(async () => {
    await database.drop();
    rmSync(folder, { recursive: true, force: true });
  });

  async function move(from: Engine, to: Engine): Promise<number> {
    try {
      return await moveShop(from, to, () => undefined);
    } finally {
      await from.close();
      await to.close();
    }
  }

  test('the service gives the same answers from either, byte for byte', async () => {
    const asked = { key, paths: pathsOf(vehicleIds), clock };
    const { paths } = asked;
    const fromFile = await answersOf(await openStore({ file, timeZone: 'UTC', clock }), asked);
    const fromServer = await answersOf(
      await openServerStore({ url: database.url, timeZone: 'UTC', clock }),
      asked,
    );
    expect(paths.filter((path) => !fromFile[path]!.startsWith('200'))).toEqual([]);
    for (const path of paths) expect(fromServer[path], path).toBe(fromFile[path]);
  }, 120_000);

  test('moved back into a file, it has the same rows', async () => {
    const back = join(folder, 'back.sqlite');
    const rows = await move(await openPostgres({ url: database.url }), await openEngine({ file: back }));
    expect(rows).toBeGreaterThanOrEqual(moved);
  });

  test('rows recorded later come after those that were moved', async () => {
    const engine = await openPostgres({ url: database.url });
    const last = await engine.reading.tables.last('vehicles');
    const later = await engine.write((rows) =>
      rows.vehicles.insert({
        id: 'later',
        version: 1,
        body: { registration: 'KR 9999', axles: {} },
        registrationKey: 'KR9999',
        searchKey: 'KR9999',
        createdAt: TODAY,
        updatedAt: TODAY,
      }),
    );
    await engine.close();
    expect(later.seq).toBe(Number(last!['seq']) + 1);
  });

  test('a database that holds a shop is left as it is', async () => {
    const target = await openPostgres({ url: database.url });
    const from = await openEngine({ file });
    await expect(move(from, target)).rejects.toThrow('holds a shop already');
  });
});
