import { copyFileSync, existsSync, statSync } from 'node:fs';
import { isDeepStrictEqual, parseArgs } from 'node:util';
import { dateIn } from '../src/core/calendar.js';
import { openConnection } from '../src/store/engine/sqlite/connection.js';
import { OPERATOR } from '../src/store/contract/caller.js';
import { openStore } from '../src/store/open.js';
import { multiplyVehicles } from './multiply.js';
import { wholeNumber } from './options.js';
import { shopOf } from './shop.js';

/**
 * Makes a large database: some hundred vehicles recorded by the operations behind the API, and copies of them up to the
 * requested number. The outlooks of a sample of the copies are then recomputed and compared with the stored ones.
 *
 *   npm run bench:database -- [--vehicles 100000] [--visits 8] [--from FILE] FILE
 *
 * Recording, fitting and scoring the first vehicles takes most of the time; `--from` copies them from a database that
 * was made with `--vehicles 250`.
 */

/** Vehicles that the service records itself. */
const RECORDED = 250;
const SAMPLE = 50;
const EVERYTHING = { ...OPERATOR, keyName: 'bench' };

/** @throws if the file exists, or if a sampled copy differs from what the service would have written */
export async function makeDatabase(
  file: string,
  { vehicles, visits, from }: { vehicles: number; visits: number; from?: string },
): Promise<void> {
  if (existsSync(file)) throw new Error(`${file} exists already; name another file`);
  if (from) copyFileSync(from, file);
  else await record(file, Math.min(RECORDED, vehicles), visits);
  const connection = openConnection(file);
  const recorded = connection.prepare('select count(*) from vehicles').pluck().get() as number;
  // An interrupted write is discarded.
  connection.pragma('journal_mode = off');
  connection.pragma('synchronous = off');
  connection.pragma('foreign_keys = off');
  connection.pragma('cache_size = -524288');
  multiplyVehicles(connection, Math.ceil(vehicles / recorded) - 1);
  // Marks the fit as if it had known all vehicles, so that no fit is due and none starts during a measurement.
  connection.exec('update experiences set last_visit_seq = (select max(seq) from visits)');
  connection.exec('analyze');
  connection.pragma('journal_mode = wal');
  connection.close();
  await bringPastUpToDate(file);
  await checkSample(file, recorded);
}

/** The additional visits may make more past fits worthwhile. */
async function bringPastUpToDate(file: string): Promise<void> {
  const store = await openStore({ file, timeZone: 'UTC' });
  await store.accuracy.bringUpToDate();
  await store.close();
}

async function record(file: string, vehicles: number, visits: number): Promise<void> {
  const store = await openStore({ file, timeZone: 'UTC' });
  for (const shown of shopOf(vehicles, visits, dateIn(new Date(), 'UTC'))) {
    const { id } = await store.vehicles.create(EVERYTHING, shown.vehicle, null);
    for (const visit of shown.visits) await store.visits.record(EVERYTHING, id, visit, null);
  }
  await store.experience.refit();
  await store.accuracy.bringUpToDate();
  await store.close();
}

/** Checks vehicles from all parts of the file: their stored outlook must follow from their stored history. */
async function checkSample(file: string, recorded: number): Promise<void> {
  const connection = openConnection(file);
  const ids = connection
    .prepare('select id from vehicles where seq > ? order by seq * 7919 % 104729 limit ?')
    .pluck()
    .all(recorded, SAMPLE) as string[];
  connection.close();
  const store = await openStore({ file, timeZone: 'UTC' });
  for (const id of ids) {
    const stored = await store.outlooks.get(EVERYTHING, id);
    const again = await store.outlooks.asOf(EVERYTHING, id, dateIn(new Date(), 'UTC'));
    if (!isDeepStrictEqual(stored, again)) throw new Error(`vehicle ${id}: stored outlook differs`);
  }
  await store.close();
}

if (process.argv[1] === import.meta.filename) {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      vehicles: { type: 'string', default: '100000' },
      visits: { type: 'string', default: '8' },
      from: { type: 'string' },
    },
  });
  const [file] = positionals;
  if (!file) throw new Error('name the database file to create, such as large.sqlite');
  const vehicles = wholeNumber('vehicles', values.vehicles);
  const began = performance.now();
  await makeDatabase(file, { vehicles, visits: wholeNumber('visits', values.visits), from: values.from });
  const seconds = ((performance.now() - began) / 1000).toFixed(0);
  const bytes = statSync(file).size;
  console.log(
    `${vehicles} vehicles, ${(bytes / 1e9).toFixed(2)} GB, ${(bytes / vehicles / 1000).toFixed(1)} kB per vehicle, in ${seconds} s`,
  );
}
