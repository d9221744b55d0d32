import { fork, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import { buildApp } from '../src/app.js';
import { createKey } from '../src/commands/keys.js';
import type { Import } from '../src/core/vocabulary/import.js';
import { helper } from '../src/helper.js';
import { EXAMPLE_VEHICLE } from '../src/core/vocabulary/vehicle.js';
import { openStore } from '../src/store/open.js';
import { processorMs } from './servers.js';

/**
 * How fast a spreadsheet of visits is imported over HTTP, by step: receiving, checking, computing outlooks, and
 * writing, by the clock and by the processor time of the service. Then, with a second spreadsheet of later visits, how
 * long other callers wait: one that reads a vehicle and one that posts visits, again and again. The service is a
 * separate process on its own database. No two rows of one vehicle are next to each other.
 */

const DAY_MS = 86_400_000;
const ROWS_A_VISIT = 10;
/** Visits of each vehicle in the second spreadsheet. */
const LATER_VISITS = 2;
/** How often the progress of an import is polled. */
const ASK_MS = 25;
const STATES = ['checking', 'forecasting', 'writing'] as const;

async function serveChild(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'brakes-bench-'));
  process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
  const { work: elsewhere } = helper();
  const store = await openStore({ file: join(folder, 'bench.sqlite'), timeZone: 'UTC', elsewhere });
  const key = await createKey(store.keys, { name: 'bench', role: 'owner', fleets: [] });
  const app = await buildApp({ store, config: { timeZone: 'UTC', rateLimitPerMinute: 0 } });
  const address = await app.listen({ host: '127.0.0.1', port: 0 });
  process.send!({ address, key });
  process.on('message', () => process.send!({ maxKiB: process.resourceUsage().maxRSS }));
}

interface Server {
  child: ChildProcess;
  address: string;
  key: string;
}

function start(): Promise<Server> {
  const child = fork(import.meta.filename, ['service'], { stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
  return new Promise((resolve, reject) => {
    child.once('message', (message) => resolve({ child, ...(message as Omit<Server, 'child'>) }));
    child.once('exit', (code) => reject(new Error(`the server ended with ${code}`)));
  });
}

function peakMiB({ child }: Server): Promise<number> {
  child.send('memory');
  return new Promise((resolve) =>
    child.once('message', (message) => resolve((message as { maxKiB: number }).maxKiB / 1024)),
  );
}

async function call(server: Server, path: string, init: RequestInit = {}) {
  const began = performance.now();
  const response = await fetch(server.address + path, {
    ...init,
    headers: { authorization: `Bearer ${server.key}`, ...init.headers },
  });
  const text = await response.text();
  if (!response.ok) throw new Error(`${path}: ${response.status} ${text.slice(0, 500)}`);
  return { text, ms: performance.now() - began, location: response.headers.get('location') };
}

const send = (server: Server, path: string, type: string, body: string, headers = {}) =>
  call(server, path, { method: 'POST', body, headers: { 'content-type': type, ...headers } });

const vehicleLines = (vehicles: number): string =>
  Array.from({ length: vehicles }, (_, index) =>
    JSON.stringify({ ...EXAMPLE_VEHICLE, externalId: `V-${index}`, registration: null }),
  ).join('\n');

/** Visit after visit of every vehicle, and row after row of each visit. */
function spreadsheet(vehicles: number, from: number, to: number): string {
  const lines = [
    'vehicle,date,time,odometer,odometerUnit,workOrder,entry,axle,side,pad,at,point,repeat,value,unit,taken,gauge,new,part,fastener,position',
  ];
  for (let visit = from; visit < to; visit++) {
    const date = new Date(Date.UTC(2023, 8, 1) + visit * 60 * DAY_MS).toISOString().slice(0, 10);
    const head = (vehicle: number) => `V-${vehicle},${date},08:10,${6000 + 3000 * visit},km,WO-${visit}`;
    const padMm = 10.5 - 0.6 * visit;
    const rotorMm = 27.8 - 0.08 * visit;
    const rows = [
      ...['left,inner', 'left,outer', 'right,inner', 'right,outer'].map(
        (place, index) =>
          `pad-thickness,front,${place},,,,${(padMm - 0.1 * index).toFixed(1)},mm,,pad-gauge,,,,`,
      ),
      ...['left', 'right'].flatMap((side) =>
        [1, 2].map(
          (point) => `rotor-thickness,front,${side},,,${point},,${rotorMm.toFixed(2)},mm,,micrometer,,,,`,
        ),
      ),
      'torque,front,left,,,,,120,Nm,,,,,caliper-bracket-bolt,1',
      'slides-serviced,front,left,,,,,,,,,,,,',
    ];
    for (const row of rows) {
      for (let vehicle = 0; vehicle < vehicles; vehicle++) lines.push(`${head(vehicle)},${row}`);
    }
  }
  return `${lines.join('\r\n')}\r\n`;
}

/** Repeats a call until told to stop; returns the longest wait in each state of the import. */
async function others(
  once: () => Promise<{ ms: number }>,
  state: () => string | null,
  everyMs: number,
): Promise<Map<string, number>> {
  const longest = new Map<string, number>();
  for (let now = state(); now !== null; now = state()) {
    const { ms } = await once();
    longest.set(now, Math.max(longest.get(now) ?? 0, ms));
    await sleep(everyMs);
  }
  return longest;
}

/** The progress of an import at a time, by the clock and by the service's processor time, ms. */
type Marks = Map<string, { clock: number; processor: number }>;

/** Imports a spreadsheet and follows it to its end. */
async function follow(server: Server, sheet: string, tell: (state: string | null) => void): Promise<Marks> {
  const marks: Marks = new Map();
  const mark = (state: string) =>
    marks.set(state, { clock: performance.now(), processor: processorMs(server.child.pid!) });
  mark('sent');
  const received = await send(server, '/v1/imports/visits', 'text/csv', sheet, { prefer: 'respond-async' });
  mark('received');
  let report: Import;
  do {
    report = JSON.parse((await call(server, received.location!)).text) as Import;
    if (!marks.has(report.state)) mark(report.state);
    tell(report.finishedAt === null ? report.state : null);
    await sleep(ASK_MS);
  } while (report.finishedAt === null);
  if (report.state !== 'done' || report.rowsSkipped > 0)
    throw new Error(JSON.stringify(report).slice(0, 500));
  return marks;
}

/** How long a reader of a vehicle and a writer of visits wait while a spreadsheet is imported. */
async function followBeside(server: Server, sheet: string, vehicleId: string): Promise<void> {
  let state: string | null = 'checking';
  let posted = 0;
  const post = () =>
    send(
      server,
      `/v1/vehicles/${vehicleId}/visits`,
      'application/json',
      JSON.stringify({ date: '2024-01-01', workOrder: `B-${posted++}` }),
    );
  const asked = Promise.all([
    others(
      () => call(server, `/v1/vehicles/${vehicleId}`),
      () => state,
      2,
    ),
    others(post, () => state, 50),
  ]);
  await follow(server, sheet, (now) => (state = now));
  const [reads, posts] = await asked;
  for (const [who, waits] of [
    ['read', reads],
    ['post', posts],
  ] as const) {
    const shown = STATES.map((name) => `${name} ${(waits.get(name) ?? 0).toFixed(0)} ms`).join(', ');
    console.log(`longest ${who} of another caller during each step (includes polling): ${shown}`);
  }
}

async function main(): Promise<void> {
  const { values } = parseArgs({ options: { vehicles: { type: 'string' }, visits: { type: 'string' } } });
  const vehicles = Number(values.vehicles ?? 1000);
  const visits = Number(values.visits ?? 10);
  const rows = vehicles * visits * ROWS_A_VISIT;
  const server = await start();
  const show = (name: string, ms: number, count = rows, unit = 'rows') =>
    console.log(
      `${name.padEnd(70)} ${(ms / 1000).toFixed(2).padStart(7)} s  ${Math.round(count / (ms / 1000))} ${unit}/s`,
    );

  const lines = await send(server, '/v1/imports/vehicles', 'application/x-ndjson', vehicleLines(vehicles));
  show('vehicles imported, with their first outlooks', lines.ms, vehicles, 'vehicles');
  const bystander = JSON.parse(
    (
      await send(
        server,
        '/v1/vehicles',
        'application/json',
        JSON.stringify({ ...EXAMPLE_VEHICLE, externalId: 'B' }),
      )
    ).text,
  ) as { id: string };
  const sheet = spreadsheet(vehicles, 0, visits);
  console.log(
    `${rows} rows, ${(sheet.length / 2 ** 20).toFixed(1)} MiB, ${vehicles} vehicles, ${vehicles * visits} visits`,
  );
  console.log(`peak memory before: ${(await peakMiB(server)).toFixed(0)} MiB`);
  const dry = await send(server, '/v1/imports/visits?dryRun=true', 'text/csv', sheet);
  show('dry run: received, parsed and checked', dry.ms);
  console.log(`peak memory after the dry run: ${(await peakMiB(server)).toFixed(0)} MiB`);

  const marks = await follow(server, sheet, () => undefined);
  for (const by of ['clock', 'processor'] as const) {
    const took = (from: string, to: string): number => marks.get(to)![by] - marks.get(from)![by];
    const named = (what: string) => (by === 'clock' ? what : `… the same in processor time: ${what}`);
    show(named('received, parsed and checked'), took('sent', 'forecasting'));
    show(named('outlooks computed'), took('forecasting', 'writing'), vehicles, 'vehicles');
    show(named('written, all in one transaction'), took('writing', 'done'));
    show(named('everything except the outlooks'), took('sent', 'forecasting') + took('writing', 'done'));
    show(named('everything'), took('sent', 'done'));
  }
  console.log(`peak memory after the import: ${(await peakMiB(server)).toFixed(0)} MiB`);
  const again = await send(server, '/v1/imports/visits', 'text/csv', sheet);
  show('the same file again, every row skipped', again.ms);
  await followBeside(server, spreadsheet(vehicles, visits, visits + LATER_VISITS), bystander.id);
  const out = await call(server, '/v1/exports/visits');
  show(`exported, ${(out.text.length / 2 ** 20).toFixed(1)} MiB`, out.ms);
  server.child.kill();
}

if (process.argv[2] === 'service') await serveChild();
else await main();
