import { execFileSync } from 'node:child_process';
import { chmodSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir, userInfo } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasCommand } from '../support/commands.js';
import { runInShell, stepsOf } from '../support/documentPages.js';
import { serverBinaries } from '../support/postgresCluster.js';

/** The shell scripts of docs/postgres.md, block by block, with the built program and PostgreSQL servers of their own. */

const missing = [
  ...['nginx', 'openssl', 'curl', 'psql'].filter((tool) => !hasCommand(tool)),
  ...(serverBinaries() === null ? ['PostgreSQL'] : []),
];
/** The database server refuses to run as root. */
const through = userInfo().uid === 0 ? ['runuser', '-u', 'postgres', '--'] : [];
/** As many as the page uses, one after the other. */
const PORTS = 7;

/** The first of several free ports, below those for outgoing connections. */
async function freePorts(): Promise<number> {
  const first = 20_000 + Math.floor(Math.random() * 12_000);
  for (let port = first; port < first + PORTS; port++) if (!(await isFree(port))) return freePorts();
  return first;
}

const isFree = (port: number): Promise<boolean> =>
  new Promise((settle) => {
    const probe = createServer();
    probe.once('error', () => settle(false));
    probe.listen(port, '127.0.0.1', () => probe.close(() => settle(true)));
  });

describe.skipIf(missing.length > 0)(
  `the page on PostgreSQL${missing.map((tool) => `, skipped without ${tool}`).join('')}`,
  () => {
    let root: string;
    let port: number;
    beforeAll(async () => {
      root = mkdtempSync(join(tmpdir(), 'brake-wear-replicated-'));
      chmodSync(root, 0o777);
      port = await freePorts();
    });
    afterAll(() => {
      const stop = [...through, 'bash', resolve('deploy/replicated.sh'), 'stop', join(root, 'trial')];
      execFileSync(stop[0]!, stop.slice(1), { env: { ...process.env, PORT: String(port) } });
      rmSync(root, { recursive: true, force: true });
    });

    it('the commands of the page start two servers on a replicated database, back it up, restore it and lose the primary', async () => {
      const here = (text: string): string =>
        text
          .replaceAll('~/brakes-trial', join(root, 'trial'))
          .replace(/\b808([0-6])\b/g, (_, place) => String(port + Number(place)));
      const steps = stepsOf(readFileSync('docs/postgres.md', 'utf8')).map(({ command }) => ({
        command: here(command),
        answer: null,
      }));
      const environment = { PORT: String(port), HOME: root };
      const [created, oneKilled, , restored, , recovered, promoted] = await runInShell(
        steps,
        resolve('.'),
        environment,
        through,
      );
      expect(created).toContain('"registration":"KR 4471"');
      expect(oneKilled).toContain('"registration":"KR 4471"');
      expect(restored).toContain('"registration":"KR 4471"');
      // The audit is in the order of transactions, whose numbers on another server may be higher.
      expect(restored).toContain('"action":"recorded"');
      expect(recovered).toContain('KR 4471\nKR 4472\n');
      expect(promoted).toContain('"registration":"KR 4472"');
    }, 300_000);
  },
);
