import { fork, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { Agent, request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import fastify from 'fastify';
import { buildApp } from '../src/app.js';
import { createKey } from '../src/commands/keys.js';
import { EXAMPLE_VEHICLE } from '../src/core/vocabulary/vehicle.js';
import { openStore } from '../src/store/open.js';

/**
 * What one caller waits for an answer, over real HTTP with keep-alive, one request at a time: reading a wear answer,
 * and posting a visit of eight readings on a vehicle with eight visits, beside a bare Fastify route that returns the
 * same bytes. Each server is a process of its own; the runs are interleaved and the median of the runs is shown.
 */

const RUNS = 5;
const REQUESTS = 400;
const WARM_UP = 100;

const DAY_MS = 86_400_000;
const POSITIONS = [
  ['left', 'inner'],
  ['left', 'outer'],
  ['right', 'inner'],
  ['right', 'outer'],
] as const;

function visitBody(number: number, workOrder: string) {
  const pads = POSITIONS.map(([side, pad], position) => ({
    kind: 'pad-thickness',
    axle: 'front',
    side,
    pad,
    value: Math.round((10.5 - 0.7 * number - 0.1 * position) * 2) / 2,
    unit: 'mm',
    gauge: 'pad-gauge',
  }));
  const rotors = POSITIONS.map(([side], position) => ({
    kind: 'rotor-thickness',
    axle: 'front',
    side,
    point: position + 1,
    value: Number((27.8 - 0.08 * number - 0.01 * position).toFixed(2)),
    unit: 'mm',
    gauge: 'micrometer',
  }));
  const date = new Date(Date.UTC(2023, 8, 1) + number * 120 * DAY_MS).toISOString().slice(0, 10);
  return {
    date,
    odometer: { value: 6000 + 6000 * number, unit: 'km' },
    workOrder,
    readings: [...pads, ...rotors],
  };
}

/** The process that serves: the service on a database of its own, or a bare route with the same bytes. */
async function serveChild(kind: string): Promise<void> {
  const app = kind === 'service' ? await serviceApp() : bareApp(process.argv[3]!);
  const address = await app.listen({ host: '127.0.0.1', port: 0 });
  process.send!({ address, ...(kind === 'service' ? { key: serviceKey } : {}) });
}

let serviceKey = '';

async function serviceApp() {
  const folder = mkdtempSync(join(tmpdir(), 'brakes-bench-'));
  process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
  const store = openStore({ file: join(folder, 'bench.sqlite'), timeZone: 'UTC' });
  serviceKey = await createKey(store.keys, { name: 'bench', role: 'owner', fleets: [] });
  return buildApp({
    store,
    config: { timeZone: 'UTC', rateLimitPerMinute: 0 },
    logger: { level: 'info', stream: { write: () => undefined } } as never,
  });
}

function bareApp(bytes: string) {
  const app = fastify();
  const send = async (_request: unknown, reply: { type(name: string): { send(body: string): unknown } }) =>
    reply.type('application/json').send(bytes);
  app.get('/constant', send as never);
  app.post('/constant', send as never);
  return app;
}

interface Server {
  child: ChildProcess;
  address: string;
  key: string;
}

function start(...args: string[]): Promise<Server> {
  const child = fork(import.meta.filename, args, { stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
  return new Promise((resolve, reject) => {
    child.once('message', (message) => {
      const { address, key = '' } = message as { address: string; key?: string };
      resolve({ child, address, key });
    });
    child.once('exit', (code) => reject(new Error(`the server ended with ${code}`)));
  });
}

const agent = new Agent({ keepAlive: true, maxSockets: 1 });

function call(
  server: Server,
  method: string,
  path: string,
  body?: unknown,
): Promise<{ status: number; text: string; ms: number }> {
  const payload = body === undefined ? undefined : JSON.stringify(body);
  const headers: Record<string, string> = { authorization: `Bearer ${server.key}` };
  if (payload)
    Object.assign(headers, {
      'content-type': 'application/json',
      'content-length': String(Buffer.byteLength(payload)),
    });
  const began = process.hrtime.bigint();
  return new Promise((resolve, reject) => {
    const sent = request(server.address + path, { method, headers, agent }, (response) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () => {
        const ms = Number(process.hrtime.bigint() - began) / 1e6;
        resolve({ status: response.statusCode!, text: Buffer.concat(chunks).toString('utf8'), ms });
      });
    });
    sent.on('error', reject);
    sent.end(payload);
  });
}

async function expectCall(
  expected: number,
  ...args: Parameters<typeof call>
): Promise<{ text: string; ms: number }> {
  const answer = await call(...args);
  if (answer.status !== expected) throw new Error(`${args[1]} ${args[2]}: ${answer.status} ${answer.text}`);
  return answer;
}

async function newVehicle(server: Server, externalId: string, visits: number): Promise<string> {
  const body = { ...EXAMPLE_VEHICLE, externalId, registration: null };
  const { id } = JSON.parse((await expectCall(201, server, 'POST', '/v1/vehicles', body)).text) as {
    id: string;
  };
  for (let number = 0; number < visits; number++) {
    await expectCall(201, server, 'POST', `/v1/vehicles/${id}/visits`, visitBody(number, `WO-${number}`));
  }
  return id;
}

const quantile = (sorted: readonly number[], probability: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(probability * sorted.length))]!;

async function timed(times: number, once: (index: number) => Promise<{ ms: number }>): Promise<number[]> {
  const measured: number[] = [];
  for (let index = 0; index < times; index++) measured.push((await once(index)).ms);
  return measured.sort((a, b) => a - b);
}

async function main(): Promise<void> {
  const { values } = parseArgs({ options: { requests: { type: 'string' }, runs: { type: 'string' } } });
  const requests = Number(values.requests ?? REQUESTS);
  const runs = Number(values.runs ?? RUNS);
  const service = await start('service');
  const read = await newVehicle(service, 'BENCH-READ', 8);
  const wear = (await expectCall(200, service, 'GET', `/v1/vehicles/${read}/wear`)).text;
  const sample = await newVehicle(service, 'BENCH-SAMPLE', 8);
  const posted = (
    await expectCall(201, service, 'POST', `/v1/vehicles/${sample}/visits`, visitBody(8, 'WO-8'))
  ).text;
  const bareRead = await start('bare', wear);
  const barePost = await start('bare', posted);
  const results: Record<string, { p50: number; p99: number }[]> = {};
  const record = (name: string, sorted: number[]) => {
    (results[name] ??= []).push({ p50: quantile(sorted, 0.5), p99: quantile(sorted, 0.99) });
  };

  for (let run = 0; run < runs; run++) {
    const readers = {
      'read a wear answer': () => expectCall(200, service, 'GET', `/v1/vehicles/${read}/wear`),
      'bare route, same bytes as the wear answer': () => expectCall(200, bareRead, 'GET', '/constant'),
      'bare route, same bytes as the visit’s answer': () =>
        expectCall(200, barePost, 'POST', '/constant', visitBody(8, 'WO-8')),
    };
    for (const [name, once] of Object.entries(readers)) {
      await timed(WARM_UP, once);
      record(name, await timed(requests, once));
    }
    const fresh: string[] = [];
    for (let index = 0; index < requests / 10; index++)
      fresh.push(await newVehicle(service, `BENCH-${run}-${index}`, 8));
    const post = (index: number) =>
      expectCall(201, service, 'POST', `/v1/vehicles/${fresh[index]!}/visits`, visitBody(8, 'WO-8'));
    record('post a visit of 8 readings after 8 visits', await timed(fresh.length, post));
  }
  for (const { child } of [service, bareRead, barePost]) child.kill();
  const median = (list: number[]): string =>
    quantile(
      list.sort((a, b) => a - b),
      0.5,
    ).toFixed(3);
  console.log(
    `bytes: wear answer ${Buffer.byteLength(wear)}, visit’s answer ${Buffer.byteLength(posted)}; ${runs} runs`,
  );
  for (const [name, list] of Object.entries(results)) {
    const [p50, p99] = [median(list.map((run) => run.p50)), median(list.map((run) => run.p99))];
    console.log(`${name.padEnd(50)} p50 ${p50} ms   p99 ${p99} ms`);
  }
}

const [, , kind] = process.argv;
if (kind === 'service' || kind === 'bare') await serveChild(kind);
else await main();
