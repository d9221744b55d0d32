import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
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
import { openServerStore, openStore, type OpenStore } from '../../src/store/open.js';
import { answersOf, pathsOf } from '../support/answers.js';
import { createDatabase, SERVER, type TestDatabase } from '../support/postgres.js';

/** A part of the demo's fleet, recorded by each engine separately, and moved from a file to a server and back. */

const TODAY = '2026-03-10';
const clock = (): Date => new Date(`${TODAY}T12:00:00Z`);

/** Six vehicles: of every fleet and of none, with drums, with regenerative braking, with long and short histories. */
const demo = () => generateDemo(DEMO_SEED, TODAY).filter((_, index) => index % 8 === 5);

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

/** Ids are random, and entity tags and cursors are made from them or from secrets. */
const RANDOM = [
  /\b[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}\b/g,
  /(?<=^\d+ )"[^"]+"(?= )/g,
  /(?<="nextCursor":")[^"]+/g,
];

/** Names each id by the order in which it first occurs. */
function withoutIds(answers: Record<string, string>): string[] {
  const names = new Map<string, string>();
  const nameOf = (id: string): string => {
    const known = names.get(id) ?? `#${names.size}`;
    names.set(id, known);
    return known;
  };
  const [ids, ...others] = RANDOM;
  return Object.entries(answers).map(([path, answer]) => {
    const named = `${path} ${answer}`.replaceAll(ids!, nameOf);
    return others.reduce((text, random) => text.replaceAll(random, '#'), named);
  });
}

interface Recorded {
  key: string;
  paths: string[];
}

/** Records the vehicles and scores past forecasts; otherwise an answer would score as many as it has time for. */
async function recordDemo(store: OpenStore): Promise<Recorded> {
  const loaded = await loadDemo(store, demo());
  const key = await createKey(store.keys, { name: 'owner', role: 'owner', fleets: [] });
  await store.secret('cursors');
  await store.accuracy.bringUpToDate();
  return { key, paths: pathsOf(loaded.map(({ vehicle }) => vehicle.id)) };
}

describe.skipIf(SERVER === null)('a shop in a file and on a PostgreSQL server', () => {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-'));
  const file = join(folder, 'shop.sqlite');
  /** As recorded, before any request. */
  const kept = join(folder, 'kept.sqlite');
  let recorded: Recorded;
  let answers: Record<string, string>;

  const openFile = (): Promise<OpenStore> => openStore({ file, timeZone: 'UTC', clock });
  const openServer = ({ url }: TestDatabase): Promise<OpenStore> =>
    openServerStore({ url, timeZone: 'UTC', clock });

  beforeAll(async () => {
    const store = await openFile();
    recorded = await recordDemo(store);
    await store.close();
    copyFileSync(file, kept);
    answers = await answersOf(await openFile(), { ...recorded, clock });
  }, 120_000);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test('every request is answered with success', () => {
    expect(recorded.paths.filter((path) => !answers[path]!.startsWith('200'))).toEqual([]);
  });

  test('both engines give the same answers and pages for the same visits, byte for byte except for ids', async () => {
    const database = await createDatabase();
    try {
      const store = await openServer(database);
      const inFile = withoutIds(answers);
      const onServer = withoutIds(await answersOf(store, { ...(await recordDemo(store)), clock }));
      inFile.forEach((answer, index) => expect(onServer[index]).toBe(answer));
      expect(onServer).toHaveLength(inFile.length);
    } finally {
      await database.drop();
    }
  }, 240_000);

  describe('a shop moved from the file to the server', () => {
    let database: TestDatabase;
    let moved: number;

    beforeAll(async () => {
      database = await createDatabase();
      moved = await move(await openEngine({ file: kept }), await openPostgres({ url: database.url }));
    }, 120_000);
    afterAll(() => database.drop());

    async function move(from: Engine, to: Engine): Promise<number> {
      try {
        return await moveShop(from, to, () => undefined);
      } finally {
        await from.close();
        await to.close();
      }
    }

    test('the service gives the same answers after the move to the server, byte for byte', async () => {
      const fromServer = await answersOf(await openServer(database), { ...recorded, clock });
      for (const path of recorded.paths) expect(fromServer[path], path).toBe(answers[path]);
    }, 120_000);

    test('a shop moved back into a file has the same rows', async () => {
      const back = join(folder, 'back.sqlite');
      const rows = await move(await openPostgres({ url: database.url }), await openEngine({ file: back }));
      expect(rows).toBeGreaterThanOrEqual(moved);
    });

    test('rows recorded later come after the rows that were moved', async () => {
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

    test('a database that holds a shop is left unchanged by a move', async () => {
      const target = await openPostgres({ url: database.url });
      const from = await openEngine({ file: kept });
      await expect(move(from, target)).rejects.toThrow('already holds a shop');
    });
  });
});
