import { chmodSync, existsSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import BetterSqlite from 'better-sqlite3';
import { createKey } from '../src/commands/keys.js';
import { BadSetting, readConfig, type Config } from '../src/config.js';
import { dateIn } from '../src/core/calendar.js';
import type { Wear } from '../src/core/vocabulary/wear.js';
import { serve } from '../src/server.js';
import { startOrExplain } from '../src/startUp.js';
import { isLocked } from '../src/store/engine/sqlite/faults.js';
import { openStore } from '../src/store/open.js';
import type { KeyStore } from '../src/store/contract/keys.js';
import { generateDemo } from './generate.js';
import { DEMO_SEED, loadDemo, type LoadedVehicle } from './load.js';
import { callsFile, greeting, type DemoKeys, type DueSoon } from './tell.js';
import { visitToday, chooseExample } from './tour.js';

/** `npm run demo`: loads an invented fleet into its own database file, serves it and says what to try first. */

const DEFAULT_FILE = 'data/demo.sqlite';
/** The fleet of the demo's fleet manager. */
const FLEET = 'north-depot';

await startOrExplain(async () => {
  const config = demoConfig(process.env);
  await refuseTakenPort(config);
  if (process.env.DATABASE_FILE === undefined) removeOldDemo(config.databaseFile);
  else refuseExisting(config.databaseFile);
  const today = dateIn(new Date(), config.timeZone);
  say('Loading three years of visits to the workshops of an invented town; this takes about a minute.', '');
  const { loaded, keys } = await fill(config, today);
  const address = await serve(config);
  await show({ address, keys, loaded, today, file: config.databaseFile });
});

/** Logs only warnings unless told otherwise, so that the printed text stays readable. */
function demoConfig(environment: NodeJS.ProcessEnv): Config {
  return readConfig({
    ...environment,
    DATABASE_FILE: environment.DATABASE_FILE ?? DEFAULT_FILE,
    LOG_LEVEL: environment.LOG_LEVEL ?? 'warn',
  });
}

/** Fails if the server could not listen, before anything is removed or loaded. */
function refuseTakenPort({ host, port }: Config): Promise<void> {
  return new Promise((resolve, reject) => {
    const probe = createServer().once('error', reject);
    probe.listen({ host, port }, () => probe.close(() => resolve()));
  });
}

/** A file that the user named may contain anything, so the demo never removes it. */
function refuseExisting(file: string): void {
  if (existsSync(file)) {
    throw new BadSetting(`DATABASE_FILE=${file}: exists already; name a new file for the demo`);
  }
}

function removeOldDemo(file: string): void {
  if (!existsSync(file)) return;
  refuseInUse(file);
  for (const suffix of ['', '-wal', '-shm']) rmSync(`${file}${suffix}`, { force: true });
}

/** When a demo that still serves the file ends, it would delete the new demo's write-ahead log. */
function refuseInUse(file: string): void {
  const connection = new BetterSqlite(file, { timeout: 0 });
  try {
    // SQLite lets only a sole connection leave the write-ahead log.
    connection.pragma('journal_mode = DELETE');
  } catch (error) {
    if (!isLocked(error)) return;
    throw new BadSetting(`${file}: is in use, probably by another demo; stop that demo first`);
  } finally {
    connection.close();
  }
}

async function fill(
  { databaseFile, timeZone }: Config,
  today: string,
): Promise<{ loaded: LoadedVehicle[]; keys: DemoKeys }> {
  const store = await openStore({ file: databaseFile, timeZone });
  try {
    const loaded = await loadDemo(store, generateDemo(DEMO_SEED, today));
    await store.experience.refit();
    return { loaded, keys: await makeKeys(store.keys) };
  } finally {
    await store.close();
  }
}

async function makeKeys(keys: KeyStore): Promise<DemoKeys> {
  return {
    owner: await createKey(keys, { role: 'owner', name: 'demo-owner', fleets: [] }),
    'front-desk': await createKey(keys, { role: 'front-desk', name: 'demo-front-desk', fleets: [] }),
    technician: await createKey(keys, { role: 'technician', name: 'demo-technician', fleets: [] }),
    'fleet-manager': await createKey(keys, {
      role: 'fleet-manager',
      name: 'demo-fleet-manager',
      fleets: [FLEET],
    }),
  };
}

interface Demo {
  address: string;
  keys: DemoKeys;
  loaded: LoadedVehicle[];
  today: string;
  file: string;
}

async function show({ address, keys, loaded, today, file }: Demo): Promise<void> {
  const ask = asker(address);
  const ofFleet = loaded.filter(({ vehicle }) => vehicle.fleet === FLEET);
  const fleet = await Promise.all(
    ofFleet.map(async (each) => ({
      loaded: each,
      wear: await ask<Wear>(`/vehicles/${each.vehicle.id}/wear`, keys.technician),
    })),
  );
  const example = chooseExample(fleet);
  const { vehicle } = example.loaded;
  const dueSoon = await ask<DueSoon>('/reports/due-soon?withinDays=60', keys['fleet-manager']);
  const callsIn = callsFileOf(file);
  writeSecret(callsIn, callsFile(address, keys, vehicle, visitToday(example, today)));
  say(...greeting({ address, keys, loaded, example, dueSoon, callsIn }));
}

/** Beside the database: `data/demo-calls.sh` for `data/demo.sqlite`. */
function callsFileOf(databaseFile: string): string {
  return `${databaseFile.replace(/\.sqlite$/, '')}-calls.sh`;
}

/** The file contains keys, so only its owner may read it. */
function writeSecret(file: string, text: string): void {
  writeFileSync(file, text, { mode: 0o600 });
  chmodSync(file, 0o600);
}

function asker(address: string) {
  return async <Answer>(path: string, key: string): Promise<Answer> => {
    const response = await fetch(`${address}/v1${path}`, { headers: { authorization: `Bearer ${key}` } });
    if (!response.ok) throw new Error(`${path} answered ${response.status}: ${await response.text()}`);
    return (await response.json()) as Answer;
  };
}

function say(...lines: string[]): void {
  process.stdout.write(`${lines.join('\n')}\n`);
}
