import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ask, killServer, startServer, type ServerProcess } from '../../bench/serverProcess.js';
import { startChild } from '../../src/children.js';
import { allDone, JobFailed, shareOut } from '../../src/processes.js';
import { visitBody } from '../support/bodies.js';
import { makeShopFile, withConnection } from '../support/shopFile.js';

let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'brake-wear-processes-'));
  file = join(folder, 'brakes.sqlite');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** A command that starts the service with a module loaded before it. */
const preloading = (script: string, ...settings: string[]): string[] => [
  'env',
  `NODE_OPTIONS=--import=${pathToFileURL(resolve(script)).href}`,
  ...settings,
];

/** So few file descriptors that all are soon in use; loading modules in parallel may need several hundred at once. */
const FEW_DESCRIPTORS = ['prlimit', '--nofile=1024:1024'];

describe.skipIf(process.platform !== 'linux')('a service whose fork fails', () => {
  let server: ServerProcess;
  afterEach(() => killServer(server));

  it.each(['EMFILE', 'EAGAIN', 'ENOMEM'])(
    'with %s the service starts, serves, logs the fault and starts the process later',
    async (code) => {
      const { key, vehicleIds } = await makeShopFile(file);
      server = startServer(file, {
        through: [...FEW_DESCRIPTORS, ...preloading('tests/support/failingFork.mjs', `FAILING_FORK=${code}`)],
        logLevel: 'info',
      });
      const address = await server.listening;
      const log = () => server.log();
      await expect
        .poll(log, { timeout: 20_000 })
        .toMatch(new RegExp(`"${code}".*could not start the fit; will try again`));
      const wear = await ask(address, key, `/v1/vehicles/${vehicleIds[0]}/wear`);
      expect(wear.status).toBe(200);
      await expect.poll(log, { timeout: 60_000 }).toMatch(/"code":0,"what":"past".*the fit has ended/);
      server.child.kill('SIGTERM');
      expect(await server.ended).toMatchObject({ code: 0, stderr: '' });
    },
  );

  it('the service starts with a file large enough to be checked by a separate process', async () => {
    const { key } = await makeShopFile(file);
    withConnection(file, (connection) =>
      connection.exec('create table filler (bytes blob); insert into filler values (zeroblob(20000000))'),
    );
    server = startServer(file, {
      through: preloading('tests/support/failingFork.mjs', 'FAILING_FORK=ENOMEM', 'FAILING_FORKS=2'),
      logLevel: 'info',
    });
    const address = await server.listening;
    expect((await ask(address, key, '/health/ready')).status).toBe(200);
    await expect.poll(() => server.log()).toMatch(/could not start the integrity check/);
    await expect
      .poll(() => server.log(), { timeout: 60_000 })
      .toMatch(/the integrity check of the database found no damage/);
  });
});

describe('SIGTERM during a fit', () => {
  it('the server waits for the fit and its worker processes, so that the log is checkpointed', async () => {
    const { key, vehicleIds } = await makeShopFile(file);
    const server = startServer(file, {
      through: preloading('tests/support/lingeringFit.mjs', `LINGERING_MARK=${join(folder, 'open')}`),
    });
    try {
      const address = await server.listening;
      await expect.poll(() => existsSync(join(folder, 'open')), { timeout: 20_000 }).toBe(true);
      const { status } = await ask(address, key, `/v1/vehicles/${vehicleIds[0]}/visits`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(visitBody('2026-03-02', null, [], { notes: 'answered' })),
      });
      expect(status).toBe(201);
      const began = performance.now();
      server.child.kill('SIGTERM');
      expect(await server.ended).toMatchObject({ code: 0, stderr: '' });
      expect(performance.now() - began).toBeLessThan(10_000);
      expect(existsSync(`${file}-wal`)).toBe(false);
    } finally {
      await killServer(server);
    }
  });
});

describe('a child process that cannot be started', () => {
  it('the service retries until it is stopped', async () => {
    const faults: unknown[] = [];
    const noScript = null as unknown as string;
    const options = { env: process.env, onFault: (fault: unknown) => faults.push(fault), retryAfterMs: 5 };
    const child = startChild(noScript, [], options);
    await expect.poll(() => faults.length).toBeGreaterThan(2);
    await child.stop();
    const count = faults.length;
    expect(await child.ended).toBeNull();
    await sleep(100);
    expect(faults).toHaveLength(count);
  });
});

describe('a job in a worker process', () => {
  function script(work: string): string {
    const path = join(folder, 'copy.mjs');
    const processes = pathToFileURL(resolve('dist/src/processes.js')).href;
    writeFileSync(path, `import { serveJobs } from '${processes}';\nserveJobs(${work});`);
    return path;
  }
  const jobs = [1, 2, 3, 4, 5].map((number) => ({ number }));

  it('jobs give their results in order', async () => {
    expect(await allDone(script('async ({ number }) => 2 * number'), jobs)).toEqual([2, 4, 6, 8, 10]);
  });

  it('a job that fails rejects with its own error, name and stack included', async () => {
    const failing = `async ({ number }) => { if (number === 4) throw new RangeError('four is too many'); return 1; }`;
    const fault = await allDone(script(failing), jobs).catch((error: unknown) => error);
    expect(fault).toBeInstanceOf(JobFailed);
    expect(fault).toMatchObject({ name: 'RangeError', message: 'four is too many' });
    expect((fault as Error).stack).toContain('copy.mjs');
  });

  it('a job rejects if its process dies or its result cannot be transferred', async () => {
    await expect(allDone(script('() => process.exit(9)'), jobs)).rejects.toThrow('a worker exited with 9');
    const refuse = () => {
      throw new Error('not taken');
    };
    await expect(shareOut(script('() => 1'), jobs, refuse)).rejects.toThrow('not taken');
  });
});
