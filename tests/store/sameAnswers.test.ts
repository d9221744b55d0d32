import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { generateDemo } from '../../seed/generate.js';
import { DEMO_SEED, loadDemo } from '../../seed/load.js';
import { createKey } from '../../src/commands/keys.js';
import { openServerStore, openStore, type OpenStore } from '../../src/store/open.js';
import { answersOf, pathsOf } from '../support/answers.js';
import { createDatabase, SERVER } from '../support/postgres.js';

/** The same part of the demo's fleet, recorded by each engine on its own. */

const TODAY = '2026-03-10';
const clock = (): Date => new Date(`${TODAY}T12:00:00Z`);
const VEHICLES = 6;

const folder = mkdtempSync(join(tmpdir(), 'brake-wear-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

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

async function recordAndAnswer(store: OpenStore): Promise<string[]> {
  const loaded = await loadDemo(store, generateDemo(DEMO_SEED, TODAY).slice(0, VEHICLES));
  const key = await createKey(store.keys, { name: 'owner', role: 'owner', fleets: [] });
  await store.accuracy.bringUpToDate();
  const paths = pathsOf(loaded.map(({ vehicle }) => vehicle.id));
  const answers = await answersOf(store, { key, paths, clock });
  expect(paths.filter((path) => !answers[path]!.startsWith('200'))).toEqual([]);
  return withoutIds(answers);
}

test.skipIf(SERVER === null)(
  'the same visits recorded on either engine give the same answers and pages, byte for byte but for ids',
  async () => {
    const database = await createDatabase();
    try {
      const file = join(folder, 'shop.sqlite');
      const inFile = await recordAndAnswer(await openStore({ file, timeZone: 'UTC', clock }));
      const url = database.url;
      const onServer = await recordAndAnswer(await openServerStore({ url, timeZone: 'UTC', clock }));
      inFile.forEach((answer, index) => expect(onServer[index]).toBe(answer));
      expect(onServer).toHaveLength(inFile.length);
    } finally {
      await database.drop();
    }
  },
  240_000,
);
