import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import pg from 'pg';
import type { VisitBody } from '../src/core/vocabulary/visit.js';
import {
  atFloor,
  DUE_AFTER_WRITE,
  DUE_SOON,
  FLOOR_DUE,
  READ,
  repeated,
  TODAY,
  wearOf,
} from './speedCalls.js';
import { allOf, answerTo, CAPACITY_TOOL, capacity, CONNECTIONS, quantile, type Call } from './load.js';
import { markdownTable, writeSection } from './markdown.js';
import { wholeNumber } from './options.js';
import { startFloor, startService, type Server } from './servers.js';
import { nextVisit } from './shop.js';

/**
 * How fast the service answers on PostgreSQL, beside a floor of hand-written statements on the same database
 * (`serverFloors.ts`). Runs of the two alternate; the table has their medians.
 *
 *   npm run bench:server -- [--runs 5] [--seconds 2] [--posts 60] [--write SECTION] postgres://… [postgres://…]
 *
 * Databases come from `npm run bench:server-database`; each gets some hundred more visits each time the bench runs.
 */

const DUE_CALLS = 100;
const WARM_POSTS = 400;
const PARALLEL = 4;

interface Vehicle {
  id: string;
  latest: VisitBody;
}

type Series = Map<string, number[]>;

function note(series: Series, name: string, value: number): void {
  series.set(name, [...(series.get(name) ?? []), value]);
}

/** Vehicles from all parts of the database on which no floor has written, with their latest visit. */
async function vehiclesIn(client: pg.Client, count: number): Promise<Vehicle[]> {
  const { rows } = await client.query<Vehicle>(
    `select v.id, (
       select body from visit_versions version join visits on visits.seq = version.visit_seq
       where visits.vehicle_seq = v.seq order by visits.date desc, version.version desc limit 1) latest
     from (select seq, id from vehicles
       where not exists (select from visits where vehicle_seq = vehicles.seq and work_order like 'floor-%')
       order by random() limit $1) v`,
    [count],
  );
  return rows.filter(({ latest }) => latest !== null);
}

const paths = (vehicles: readonly Vehicle[]): string[] => vehicles.map(({ id }) => wearOf(id));

function visitOn(vehicle: Vehicle, order: string): Call {
  vehicle.latest = nextVisit(vehicle.latest, TODAY, order);
  return { method: 'POST', path: `/v1/vehicles/${vehicle.id}/visits`, body: vehicle.latest };
}

/** A run of one of the two: the same calls at the service and at the floor. */
async function run(
  series: Series,
  who: string,
  target: Server,
  calls: { due: string; read: readonly string[]; posts: readonly Call[]; dueAfterWrites: readonly Call[] },
  seconds: number,
): Promise<void> {
  const measured = async <Result>(
    name: string,
    answers: (result: Result) => number,
    work: () => Promise<Result>,
  ) => {
    const before = target.processorMs();
    const result = await work();
    note(series, `${who} ${name} processor`, (target.processorMs() - before) / answers(result));
    return result;
  };
  const due = await measured(
    'due',
    ({ answers }) => answers,
    () => allOf(target, repeated(calls.due, DUE_CALLS), 1),
  );
  note(series, `${who} due`, due.p50Ms);
  const read = await measured(
    'read',
    ({ answers }) => answers,
    () => capacity(target, calls.read, seconds),
  );
  note(series, `${who} read`, read.perSecond);
  const posted = await measured(
    'post',
    ({ answers }) => answers,
    () => allOf(target, calls.posts, PARALLEL),
  );
  note(series, `${who} post`, posted.perSecond);
  const cold: number[] = [];
  for (const visit of calls.dueAfterWrites) {
    await answerTo(target, visit);
    cold.push((await answerTo(target, { method: 'GET', path: calls.due })).ms);
  }
  note(series, `${who} due after write`, quantile(cold, 0.5));
}

async function measure(
  url: string,
  options: { runs: number; seconds: number; posts: number },
  folder: string,
): Promise<{ vehicles: number; bytes: number; series: Series }> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  const perRun = 2 * (options.posts + DUE_AFTER_WRITE);
  const fresh = await vehiclesIn(client, READ + 2 + options.runs * perRun);
  const { rows } = await client.query<{ vehicles: number; bytes: number }>(
    'select (select count(*)::int from vehicles) as vehicles, pg_database_size(current_database())::float8 as bytes',
  );
  await client.end();
  const take = (count: number): Vehicle[] => fresh.splice(0, count);
  const read = take(READ);
  const service = await startService(url, folder);
  const [sample] = take(1) as [Vehicle];
  const visit = await answerTo(service, visitOn(sample, 'WO-SAMPLE'));
  const wear = await answerTo(service, { method: 'GET', path: paths(read)[0]! });
  const floor = await startFloor([url, sample.id], folder, 'serverFloors.js');
  for (const [name, { text }] of Object.entries({ wear, visit }))
    await answerTo(floor, { method: 'PUT', path: `/constants/${name}`, body: JSON.parse(text) });

  console.error(`${rows[0]!.vehicles} vehicles: warming up`);
  const warming = Array.from({ length: WARM_POSTS }, (_, index) =>
    visitOn(read[index % READ]!, `WO-WARM-${process.pid}-${index}`),
  );
  await allOf(service, warming, PARALLEL);
  await allOf(floor, atFloor(warming.slice(0, READ)), PARALLEL);
  await allOf(service, repeated(DUE_SOON, DUE_CALLS), 1);
  await allOf(floor, repeated(FLOOR_DUE, DUE_CALLS), 1);

  const series: Series = new Map();
  for (let number = 0; number < options.runs; number++) {
    console.error(`run ${number + 1} of ${options.runs}`);
    const calls = (count: number) =>
      take(count).map((vehicle) => visitOn(vehicle, `WO-${process.pid}-${number}`));
    const own = {
      due: DUE_SOON,
      read: paths(read),
      posts: calls(options.posts),
      dueAfterWrites: calls(DUE_AFTER_WRITE),
    };
    await run(series, 'service', service, own, options.seconds);
    const other = {
      due: FLOOR_DUE,
      read: ['/constants/wear'],
      posts: atFloor(calls(options.posts)),
      dueAfterWrites: atFloor(calls(DUE_AFTER_WRITE)),
    };
    await run(series, 'floor', floor, other, options.seconds);
  }
  await service.stop();
  await floor.stop();
  return { ...rows[0]!, series };
}

const shown = (value: number): string => (value >= 100 ? value.toFixed(0) : value.toPrecision(3));

/** The medians of the service and of the floor, and the median of their ratios. */
function rowsOf(vehicles: number, series: Series): string[][] {
  const row = (what: string, name: string, unit: string): string[] => {
    const [own, floor] = ['service', 'floor'].map((who) => series.get(`${who} ${name}`)!);
    const ratios = own!.map((value, index) => value / floor![index]!);
    const median = (values: number[]): string => shown(quantile(values, 0.5));
    return [
      vehicles.toLocaleString('en'),
      what,
      `${median(own!)} ${unit}`,
      `${median(floor!)} ${unit}`,
      `${median(ratios)} ×`,
    ];
  };
  return [
    row('due-soon, first page', 'due', 'ms'),
    row('… each after a visit', 'due after write', 'ms'),
    row('read a wear answer', 'read', '/s'),
    row('… processor time of the server process', 'read processor', 'ms'),
    row('post a visit', 'post', '/s'),
    row('… processor time of the server process', 'post processor', 'ms'),
  ];
}

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    runs: { type: 'string', default: '5' },
    seconds: { type: 'string', default: '2' },
    posts: { type: 'string', default: '60' },
    write: { type: 'string' },
  },
});
const options = {
  runs: wholeNumber('runs', values.runs),
  seconds: wholeNumber('seconds', values.seconds),
  posts: wholeNumber('posts', values.posts),
};
const folder = mkdtempSync(join(tmpdir(), 'brakes-bench-'));
try {
  const rows: string[][] = [];
  for (const url of positionals) {
    const { vehicles, bytes, series } = await measure(url, options, folder);
    rows.push(...rowsOf(vehicles, series), [
      vehicles.toLocaleString('en'),
      'database',
      `${(bytes / 1e9).toPrecision(3)} GB`,
      '',
      '',
    ]);
  }
  const conditions = `${cpus().length} cores (${cpus()[0]!.model.trim()}), Node ${process.version}, ${options.runs} runs, ${CONNECTIONS} connections by ${CAPACITY_TOOL} for reads, ${PARALLEL} for visits, ${TODAY}.`;
  const table = `${markdownTable(['vehicles', '', 'service', 'floor', 'service / floor'], rows)}\n\n${conditions}`;
  console.log(table);
  if (values.write) writeSection(values.write, table, 'docs/scale.md');
} finally {
  rmSync(folder, { recursive: true, force: true });
}
