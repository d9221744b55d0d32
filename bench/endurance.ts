import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import { makeKillShop } from './commandKills.js';
import { wholeNumber } from './options.js';
import { ask, killServer, startServer } from './serverProcess.js';

/**
 * Measures how long callers wait at a steady rate of reads and writes, first alone and then beside callers that send
 * one byte a second, and how much memory the service uses. Times count from when a request was due, not from when it
 * was sent.
 */

const { values } = parseArgs({
  options: {
    rate: { type: 'string', default: '100' },
    minutes: { type: 'string', default: '5' },
    slow: { type: 'string', default: '500' },
    'slow-seconds': { type: 'string', default: '60' },
  },
});
const rate = wholeNumber('rate', values.rate);
const minutes = wholeNumber('minutes', values.minutes);
const slow = wholeNumber('slow', values.slow, 0);
const slowSeconds = wholeNumber('slow-seconds', values['slow-seconds']);
/** One request in so many records a visit; the others read a wear answer. */
const WRITES_EVERY = 10;

const folder = mkdtempSync(join(tmpdir(), 'brakes-endurance-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
const file = join(folder, 'brakes.sqlite');
const key = await makeKillShop(file);
const server = startServer(file);
const address = await server.listening;
const list = JSON.parse((await ask(address, key, '/v1/vehicles?limit=200')).text) as {
  items: { id: string }[];
};
const ids = list.items.map(({ id }) => id);

let sent = 0;
async function one(): Promise<boolean> {
  const id = ids[sent % ids.length]!;
  if (sent++ % WRITES_EVERY > 0) return (await ask(address, key, `/v1/vehicles/${id}/wear`)).status === 200;
  const body = JSON.stringify({ date: '2026-03-02', notes: `endurance ${sent}` });
  const headers = { 'content-type': 'application/json' };
  return (
    (await ask(address, key, `/v1/vehicles/${id}/visits`, { method: 'POST', headers, body })).status === 201
  );
}

/** Requests at the rate for some time: how long each waited, and how many failed. */
async function load(seconds: number): Promise<string> {
  const waits: number[] = [];
  let failed = 0;
  const began = performance.now();
  const under: Promise<void>[] = [];
  for (let index = 0; index < rate * seconds; index++) {
    const due = began + (index * 1000) / rate;
    if (due > performance.now()) await sleep(due - performance.now());
    const asked = one()
      .catch(() => false)
      .then((isDone) => {
        waits.push(performance.now() - due);
        if (!isDone) failed += 1;
      });
    under.push(asked);
  }
  await Promise.all(under);
  waits.sort((a, b) => a - b);
  const at = (share: number): string => waits[Math.floor(share * (waits.length - 1))]!.toFixed(1);
  return `${waits.length} requests at ${rate} a second: ${at(0.5)} ms median, ${at(0.99)} ms p99, ${at(1)} ms maximum, ${failed} failed`;
}

/** Callers that never finish their request. */
function openSlow(): Socket[] {
  const { hostname, port } = new URL(address);
  return Array.from({ length: slow }, (_, index) => {
    const socket = connect(Number(port), hostname);
    socket.on('error', () => undefined);
    const head = `POST /v1/vehicles HTTP/1.1\r\nHost: brakes\r\nAuthorization: Bearer ${key}\r\nContent-Type: application/json\r\nContent-Length: 100000\r\n\r\n{`;
    // Half of them stall within the header fields, half within the body.
    socket.write(index % 2 === 0 ? head : head.slice(0, 40));
    const timer = setInterval(() => socket.write(index % 2 === 0 ? ' ' : 'X'), 1000);
    socket.once('close', () => clearInterval(timer));
    return socket;
  });
}

const residentMb = (): number =>
  Number(/^VmRSS:\s+(\d+)/m.exec(readFileSync(`/proc/${server.child.pid}/status`, 'utf8'))![1]) / 1024;

await load(10);
console.log(`alone: ${await load(slowSeconds)}`);
const sockets = openSlow();
console.log(`with ${slow} slow callers: ${await load(slowSeconds)}`);
sockets.forEach((socket) => socket.destroy());
for (let minute = 0; minute < minutes; minute++) {
  const figures = await load(60);
  console.log(`minute ${minute + 1}: ${residentMb().toFixed(0)} MB resident; ${figures}`);
}
await killServer(server);
