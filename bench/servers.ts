import { spawn, type ChildProcess } from 'node:child_process';
import { openSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { createKey } from '../src/commands/keys.js';
import { openServerStore, openStore } from '../src/store/open.js';
import type { Target } from './load.js';

/** Servers as separate processes, each with its log in a file. */

export interface Server extends Target {
  /** Time from its start until it was ready. */
  readyMs: number;
  /** Its processor time so far, ms. */
  processorMs(): number;
  /** Its resident memory, MB. */
  residentMb(): number;
  stop(): Promise<void>;
}

/**
 * The service itself on a database, as `npm start` starts it.
 *
 * @param database a file or the URL of a PostgreSQL database
 */
export async function startService(database: string, folder: string): Promise<Server> {
  const isUrl = database.startsWith('postgres:');
  const store = await (isUrl
    ? openServerStore({ url: database, timeZone: 'UTC' })
    : openStore({ file: database, timeZone: 'UTC' }));
  const name = `bench-${process.pid}-${performance.now()}`;
  const key = await createKey(store.keys, { name, role: 'owner', fleets: [] });
  await store.close();
  const settings = {
    [isUrl ? 'DATABASE_URL' : 'DATABASE_FILE']: database,
    PORT: '0',
    LOG_LEVEL: 'info',
    RATE_LIMIT_PER_MINUTE: '1000000000',
  };
  return started([join(import.meta.dirname, '../src/main.js')], settings, {
    key,
    folder,
    ready: '/health/ready',
  });
}

/** A server of this bench, used only as the floor. */
export const startFloor = (args: string[], folder: string, program = 'floors.js'): Promise<Server> =>
  started([join(import.meta.dirname, program), ...args], { PORT: '0' }, { key: '', folder, ready: '/ready' });

async function started(
  args: string[],
  settings: Record<string, string>,
  { key, folder, ready }: { key: string; folder: string; ready: string },
): Promise<Server> {
  const log = join(folder, `${performance.now()}.log`);
  const began = performance.now();
  const child = spawn(process.execPath, args, {
    env: { ...process.env, ...settings },
    stdio: ['ignore', openSync(log, 'a'), 'inherit'],
  });
  // If the bench is interrupted, its servers end with it.
  process.once('exit', () => child.kill());
  const address = await addressIn(log, child);
  while (!(await isReady(address + ready))) await sleep(5);
  const readyMs = performance.now() - began;
  return {
    address,
    key,
    readyMs,
    processorMs: () => processorMs(child.pid!),
    residentMb: () => residentMb(child.pid!),
    stop: () =>
      new Promise((resolve) => {
        child.once('exit', () => resolve());
        child.kill();
      }),
  };
}

async function addressIn(log: string, child: ChildProcess): Promise<string> {
  for (;;) {
    const address = /^listening on (\S+)$/m.exec(readFileSync(log, 'utf8'))?.[1];
    if (address) return address;
    if (child.exitCode !== null) throw new Error(`the server exited with ${child.exitCode}; its log: ${log}`);
    await sleep(5);
  }
}

const isReady = (url: string): Promise<boolean> =>
  fetch(url).then(
    ({ ok }) => ok,
    () => false,
  );

/** From Linux's own account of the process, in hundredths of a second. */
export function processorMs(pid: number): number {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]!.split(' ');
  return 10 * (Number(fields[11]) + Number(fields[12]));
}

/** From the same. */
function residentMb(pid: number): number {
  const status = readFileSync(`/proc/${pid}/status`, 'utf8');
  return Number(/^VmRSS:\s+(\d+) kB$/m.exec(status)![1]) / 1000;
}
