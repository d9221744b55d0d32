import { copyFileSync, constants, mkdtempSync, rmSync, statSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import BetterSqlite from 'better-sqlite3';
import { EXAMPLE_VEHICLE } from '../src/core/vocabulary/vehicle.js';
import type { VisitBody } from '../src/core/vocabulary/visit.js';
import { OPERATOR } from '../src/store/contract/caller.js';
import { openStore } from '../src/store/open.js';
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
import { makeDatabase } from './database.js';
import {
  allOf,
  answerTo,
  atRate,
  CAPACITY_TOOL,
  capacity,
  CONNECTIONS,
  quantile,
  type Measured,
  type Call,
} from './load.js';
import { markdownTable, writeSection } from './markdown.js';
import { wholeNumber } from './options.js';
import { startFloor, startService, type Server } from './servers.js';
import { frequentVisits, nextVisit } from './shop.js';

/**
 * How fast the service answers, as ratios to a floor that is measured in the same run on the same machine, so that
 * other load affects both; and, if a large database is named, how that grows with the number of
 * vehicles. Servers are separate processes, over real HTTP with keep-alive connections. Runs alternate; the
 * table has their median, minimum and maximum.
 *
 *   npm run bench -- [--small FILE] [--large FILE] [--runs 5] [--seconds 4] [--posts 100] [--write SECTION]
 *
 * Databases come from `npm run bench:database`. Without `--small`, the bench creates one of 1000 vehicles. It copies a
 * small database before it writes; a large one gets some hundred more visits each time.
 */

/** More vehicles than the service caches answers for. */
const COLD_READS = 2000;
/**
 * Visits posted on each of these, and other calls, before anything is timed: the compiler keeps improving for thousands
 * of calls.
 */
const WARM_VISITS = 30;
const WARM_CALLS = 500;
const DUE_CALLS = 200;
/** Visits timed one at a time, per shop. */
const POSTS_BY_SIZE = 35;
const RATE_PER_SECOND = 500;
const LONG_HISTORY = 200;
const STARTS = 5;
const NEXT_ORDER = 'WO-NEXT';
const WARM_ORDER = 'WO-WARM';

interface Options {
  runs: number;
  seconds: number;
  posts: number;
}

/** The measurements, one value per run. */
type Series = Record<string, number[]>;

interface Row {
  what: string;
  values: number[];
  unit: string;
  /** The minimum or maximum to aim for; null if a row only explains. */
  target: { min: number } | { max: number } | null;
}

/** A service on a copy of a database. */
interface Shop {
  service: Server;
  /** Vehicles whose answers are read. */
  read: { id: string; latest: VisitBody }[];
  /** Vehicles on which nothing has been posted. */
  fresh: Shop['read'];
  readPaths: string[];
}

function vehiclesIn(file: string): Shop['fresh'] {
  const connection = new BetterSqlite(file, { readonly: true });
  const rows = connection
    .prepare(
      `select v.id, version.body latest
       from (select seq, id from vehicles order by seq * 7919 % 104729 limit 4000) v
       join visit_versions version on version.visit_seq =
         (select seq from visits where vehicle_seq = v.seq order by date desc limit 1)`,
    )
    .all() as { id: string; latest: string }[];
  connection.close();
  return rows
    .map(({ id, latest }) => ({ id, latest: JSON.parse(latest) as VisitBody }))
    .filter(
      ({ latest: { workOrder } }) => ![NEXT_ORDER, WARM_ORDER].some((own) => workOrder?.startsWith(own)),
    );
}

async function openShop(file: string, folder: string): Promise<Shop> {
  const vehicles = vehiclesIn(file);
  return {
    service: await startService(file, folder),
    read: vehicles.slice(0, READ),
    fresh: vehicles.slice(READ),
    readPaths: vehicles.slice(0, READ).map(({ id }) => wearOf(id)),
  };
}

const postOf = (id: string, body: VisitBody): Call => ({
  method: 'POST',
  path: `/v1/vehicles/${id}/visits`,
  body,
});

const visitOf = ({ id, latest }: Shop['fresh'][number]): Call =>
  postOf(id, nextVisit(latest, TODAY, NEXT_ORDER));

const postsOf = ({ fresh }: Shop, count: number): Call[] => fresh.splice(0, count).map(visitOf);

/** Visits on the same vehicles repeatedly. */
const warmingVisits = (vehicles: Shop['read']): Call[] =>
  Array.from({ length: WARM_VISITS }, (_, number) => {
    for (const vehicle of vehicles)
      vehicle.latest = nextVisit(vehicle.latest, TODAY, `${WARM_ORDER}-${number}`);
    return vehicles.map(({ id, latest }) => postOf(id, latest));
  }).flat();

/** The floor on a copy of the small database, with answers of the same length as the service's. */
async function openFloor(
  file: string,
  { shop, shopFile, folder }: { shop: Shop; shopFile: string; folder: string },
): Promise<Server> {
  const [sample, other] = shop.fresh.splice(0, 2);
  const store = await openStore({ file, timeZone: 'UTC' });
  const body = nextVisit(sample!.latest, TODAY, NEXT_ORDER);
  await store.visits.record({ ...OPERATOR, keyName: 'bench' }, sample!.id, body, null);
  await store.close();
  const floor = await startFloor([file, sample!.id, shopFile], folder);
  const wear = await answerTo(shop.service, { method: 'GET', path: shop.readPaths[0]! });
  const visit = await answerTo(shop.service, visitOf(other!));
  for (const [name, { text }] of Object.entries({ wear, visit })) {
    await answerTo(floor, { method: 'PUT', path: `/constants/${name}`, body: JSON.parse(text) });
  }
  return floor;
}

function note(series: Series, name: string, value: number): void {
  (series[name] ??= []).push(value);
}

/** Until the compiler has optimized it. */
async function warmUp(target: Server, visits: Call[], due: string, readPaths: string[]): Promise<void> {
  await allOf(target, visits, 4);
  await allOf(target, repeated(due, WARM_CALLS), 1);
  await capacity(target, readPaths, 2);
}

/** A fit triggered by new visits would take both cores from the measurement. */
function withoutFits(file: string): void {
  const connection = new BetterSqlite(file);
  connection.exec(`update experiences set last_visit_seq = ${Number.MAX_SAFE_INTEGER}`);
  connection.close();
}

/** One run of the service and of the floor, alternating. */
async function runBesideFloor(series: Series, shop: Shop, floor: Server, options: Options): Promise<void> {
  const { seconds, posts } = options;
  const calls = postsOf(shop, posts);
  for (const [who, target, paths, due, visits] of [
    ['service', shop.service, shop.readPaths, DUE_SOON, calls],
    ['floor', floor, ['/constants/wear'], FLOOR_DUE, atFloor(calls)],
  ] as const) {
    const took = async (name: string, work: () => Promise<Measured>): Promise<Measured> => {
      const before = target.processorMs();
      const measured = await work();
      note(series, `${who} ${name} processor`, (target.processorMs() - before) / measured.answers);
      return measured;
    };
    const dueCalls = repeated(due, DUE_CALLS);
    note(series, `${who} due`, (await took('due', () => allOf(target, dueCalls, 1))).p50Ms);
    const read = await took('read', () => capacity(target, paths, seconds));
    note(series, `${who} reads/s`, read.perSecond);
    note(series, `${who} read p99`, read.p99Ms);
    const steady = await atRate(target, paths, { seconds, perSecond: RATE_PER_SECOND });
    note(series, `${who} steady p99`, steady.p99Ms);
    note(series, `${who} posts/s`, (await took('post', () => allOf(target, visits, 4))).perSecond);
  }
}

/** The page after a visit, which empties both servers' caches of the database. */
async function dueAfterVisits(series: Series, shop: Shop, floor: Server): Promise<void> {
  const waits = { service: [] as number[], floor: [] as number[] };
  for (const visit of postsOf(shop, DUE_AFTER_WRITE)) {
    await answerTo(shop.service, visit);
    waits.service.push((await answerTo(shop.service, { method: 'GET', path: DUE_SOON })).ms);
    waits.floor.push((await answerTo(floor, { method: 'GET', path: FLOOR_DUE })).ms);
  }
  note(series, 'service due after write', quantile(waits.service, 0.5));
  note(series, 'floor due after write', quantile(waits.floor, 0.5));
}

/** How long a visit on one vehicle takes, one at a time, in each shop. */
async function runOfSizes(series: Series, shops: Record<string, Shop>): Promise<void> {
  for (const [size, shop] of Object.entries(shops)) {
    const due = await allOf(shop.service, repeated(DUE_SOON, DUE_CALLS), 1);
    note(series, `${size} due`, due.p50Ms);
    note(series, `${size} post`, (await allOf(shop.service, postsOf(shop, POSTS_BY_SIZE), 1)).p50Ms);
    note(series, `${size} due after write`, await dueAfterWrites(shop));
  }
}

/** The same report with a visit posted before each call, so that nothing of it is cached. */
async function dueAfterWrites(shop: Shop): Promise<number> {
  const waits: number[] = [];
  for (const visit of postsOf(shop, DUE_AFTER_WRITE)) {
    await answerTo(shop.service, visit);
    waits.push((await answerTo(shop.service, { method: 'GET', path: DUE_SOON })).ms);
  }
  return quantile(waits, 0.5);
}

/** Visits on one new vehicle until it has a long history, then the timed ones. */
async function longHistory({ service }: Shop, timed: number): Promise<number> {
  const vehicle = { ...EXAMPLE_VEHICLE, externalId: `LONG-${performance.now()}`, inService: null };
  const { text } = await answerTo(service, { method: 'POST', path: '/v1/vehicles', body: vehicle });
  const { id } = JSON.parse(text) as { id: string };
  const posts = frequentVisits(LONG_HISTORY + timed, TODAY).map((body) => postOf(id, body));
  await allOf(service, posts.slice(0, LONG_HISTORY), 1);
  return (await allOf(service, posts.slice(LONG_HISTORY), 1)).p50Ms;
}

/** The maximum resident memory while the shop is read and visits are posted. */
async function residentUnderLoad(shop: Shop, { seconds, posts }: Options): Promise<number> {
  let peak = 0;
  const timer = setInterval(() => (peak = Math.max(peak, shop.service.residentMb())), 100);
  await Promise.all([
    capacity(shop.service, shop.readPaths, seconds),
    allOf(shop.service, postsOf(shop, posts), 4),
    allOf(shop.service, repeated(DUE_SOON, DUE_CALLS), 1),
  ]);
  clearInterval(timer);
  return peak;
}

async function startsOf(file: string, folder: string): Promise<{ readyMs: number[]; idleMb: number[] }> {
  const readyMs: number[] = [];
  const idleMb: number[] = [];
  for (let start = 0; start < STARTS; start++) {
    const server = await startService(file, folder);
    readyMs.push(server.readyMs);
    await sleep(2000);
    idleMb.push(server.residentMb());
    await server.stop();
  }
  return { readyMs, idleMb };
}

const ratio = (over: number[], under: number[]): number[] => over.map((value, run) => value / under[run]!);

function besideFloor(of: Series): Row[] {
  const beside = (name: string) => ratio(of[`service ${name}`]!, of[`floor ${name}`]!);
  const plain = (what: string, name: string, unit: string): Row => ({
    what,
    values: of[name]!,
    unit,
    target: null,
  });
  const processor = (values: number[]): Row => ({
    what: '… the same in processor time',
    values,
    unit: '×',
    target: null,
  });
  const inverse = (values: number[]): number[] => values.map((value) => 1 / value);
  return [
    {
      what: 'read a wear answer: per second / floor',
      values: beside('reads/s'),
      unit: '×',
      target: { min: 0.6 },
    },
    processor(inverse(beside('read processor'))),
    plain('… per second', 'service reads/s', '/s'),
    plain('… floor', 'floor reads/s', '/s'),
    { what: '… p99 / floor', values: beside('read p99'), unit: '×', target: { max: 3 } },
    {
      what: `… p99 at ${RATE_PER_SECOND} per second / floor`,
      values: beside('steady p99'),
      unit: '×',
      target: null,
    },
    {
      what: 'post a visit: per second / floor',
      values: beside('posts/s'),
      unit: '×',
      target: { min: 0.3 },
    },
    processor(inverse(beside('post processor'))),
    plain('… per second', 'service posts/s', '/s'),
    plain('… floor', 'floor posts/s', '/s'),
    plain('… floor without waiting for the disk', 'floor posts/s, no fsync', '/s'),
    plain('… its forecast, on a vehicle with 9 visits', 'forecast', 'ms'),
    {
      what: 'due-soon, first page: time / floor',
      values: beside('due'),
      unit: '×',
      target: { max: 2 },
    },
    processor(beside('due processor')),
    plain('… time', 'service due', 'ms'),
    {
      what: 'due-soon after a visit: time / floor after it',
      values: beside('due after write'),
      unit: '×',
      target: { max: 2 },
    },
    plain('… time', 'service due after write', 'ms'),
    {
      what: '… time / floor while nothing is written',
      values: ratio(of['service due after write']!, of['floor due']!),
      unit: '×',
      target: null,
    },
    {
      what: `visit on a vehicle with ${LONG_HISTORY}: time / one with 8`,
      values: ratio(of['long']!, of['short']!),
      unit: '×',
      target: { max: 5 },
    },
  ];
}

function bySize(of: Series, large: number): Row[] {
  const vehicles = large.toLocaleString('en');
  const grows = (name: string) => ratio(of[`large ${name}`]!, of[`small ${name}`]!);
  return [
    {
      what: `due-soon, first page: ${vehicles} vehicles / small shop`,
      values: grows('due'),
      unit: '×',
      target: { max: 1.5 },
    },
    { what: '… time', values: of['large due']!, unit: 'ms', target: null },
    {
      what: '… each after a visit / small shop',
      values: grows('due after write'),
      unit: '×',
      target: null,
    },
    { what: '… time', values: of['large due after write']!, unit: 'ms', target: null },
    {
      what: `read a wear answer of ${COLD_READS} vehicles in turn`,
      values: of['large cold reads/s']!,
      unit: '/s',
      target: null,
    },
    {
      what: `post a visit: ${vehicles} vehicles / small shop`,
      values: grows('post'),
      unit: '×',
      target: { max: 1.5 },
    },
    { what: '… time', values: of['large post']!, unit: 'ms', target: null },
    {
      what: `resident under load, ${vehicles} vehicles`,
      values: of['resident']!,
      unit: 'MB',
      target: { max: 400 },
    },
    { what: '… idle', values: of['large idle']!, unit: 'MB', target: { max: 200 } },
    {
      what: `start to ready, ${vehicles} vehicles`,
      values: of['large ready']!,
      unit: 'ms',
      target: { max: 1500 },
    },
  ];
}

function lineOf({ what, values, unit, target }: Row): string[] {
  const median = quantile(values, 0.5);
  const shown = (value: number): string => (value >= 100 ? value.toFixed(0) : value.toPrecision(3));
  const met = target && ('min' in target ? median >= target.min : median <= target.max);
  const aim = target && ('min' in target ? `at least ${target.min}` : `at most ${target.max}`);
  return [
    what,
    `${shown(median)} ${unit}`,
    `${shown(Math.min(...values))} to ${shown(Math.max(...values))}`,
    aim ? `${aim} ${unit}` : '',
    met === null ? '' : met ? 'met' : 'missed',
  ];
}

/** The time of the forecast alone, in this process, for a vehicle after a visit. */
async function forecastMs(file: string, shop: Shop, times: number): Promise<number> {
  const store = await openStore({ file, timeZone: 'UTC' });
  const took: number[] = [];
  for (const { id } of shop.fresh.slice(-times)) {
    const began = performance.now();
    await store.outlooks.asOf({ ...OPERATOR, keyName: 'bench' }, id, TODAY);
    took.push(performance.now() - began);
  }
  await store.close();
  return quantile(took, 0.5);
}

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      small: { type: 'string' },
      large: { type: 'string' },
      runs: { type: 'string', default: '5' },
      seconds: { type: 'string', default: '4' },
      posts: { type: 'string', default: '100' },
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
    const table = await measure(values.small, values.large, options, folder);
    console.log(table);
    if (values.write) writeSection(values.write, table, 'docs/scale.md');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function measure(
  smallFile: string | undefined,
  largeFile: string | undefined,
  options: Options,
  folder: string,
): Promise<string> {
  const copyOf = (file: string, name: string): string => {
    copyFileSync(file, join(folder, name), constants.COPYFILE_FICLONE);
    return join(folder, name);
  };
  const small = smallFile ? copyOf(smallFile, 'small.sqlite') : join(folder, 'small.sqlite');
  if (!smallFile) await makeDatabase(small, { vehicles: 1000, visits: 8 });
  const floorFile = copyOf(small, 'floor.sqlite');
  const series: Series = {};
  withoutFits(small);
  const shop = await openShop(small, folder);
  const warming = warmingVisits(shop.read);
  console.error('warming up');
  await warmUp(shop.service, warming, DUE_SOON, shop.readPaths);
  const floor = await openFloor(floorFile, { shop, shopFile: small, folder });
  await warmUp(floor, atFloor(warming), FLOOR_DUE, ['/constants/wear']);
  for (let run = 0; run < options.runs; run++) {
    console.error(`service and floor, run ${run + 1} of ${options.runs}`);
    await runBesideFloor(series, shop, floor, options);
    await dueAfterVisits(series, shop, floor);
    note(series, 'forecast', await forecastMs(floorFile, shop, options.posts));
    note(series, 'short', (await allOf(shop.service, postsOf(shop, 20), 1)).p50Ms);
    note(series, 'long', await longHistory(shop, 10));
  }
  await answerTo(floor, { method: 'POST', path: '/without-fsync' });
  for (let run = 0; run < options.runs; run++) {
    const calls = atFloor(shop.fresh.slice(0, options.posts).map(visitOf));
    note(series, 'floor posts/s, no fsync', (await allOf(floor, calls, 4)).perSecond);
  }
  await floor.stop();
  const rows = besideFloor(series);
  if (largeFile) rows.push(...(await measureLarge(series, shop, largeFile, options, folder)));
  await shop.service.stop();
  const conditions = `${cpus().length} cores (${cpus()[0]!.model.trim()}), Node ${process.version}, ${options.runs} runs, ${CONNECTIONS} connections by ${CAPACITY_TOOL}, ${TODAY}.`;
  return `${markdownTable(['', 'median', 'range', 'target', ''], rows.map(lineOf))}\n\n${conditions}`;
}

async function measureLarge(
  series: Series,
  small: Shop,
  file: string,
  options: Options,
  folder: string,
): Promise<Row[]> {
  const connection = new BetterSqlite(file, { readonly: true });
  const vehicles = connection.prepare('select count(*) from vehicles').pluck().get() as number;
  connection.close();
  const { readyMs, idleMb } = await startsOf(file, folder);
  const large = await openShop(file, folder);
  series['large ready'] = readyMs;
  series['large idle'] = idleMb;
  await warmUp(large.service, warmingVisits(large.read), DUE_SOON, large.readPaths);
  for (let run = 0; run < options.runs; run++) {
    console.error(`large and small shop, run ${run + 1} of ${options.runs}`);
    await runOfSizes(series, { small, large });
    note(series, 'resident', await residentUnderLoad(large, options));
    const cold = large.fresh.slice(0, COLD_READS).map(({ id }) => wearOf(id));
    note(series, 'large cold reads/s', (await capacity(large.service, cold, options.seconds)).perSecond);
  }
  await large.service.stop();
  const kb = statSync(file).size / vehicles / 1000;
  return [
    ...bySize(series, vehicles),
    { what: '… database per vehicle', values: [kb], unit: 'kB', target: null },
  ];
}

await main();
