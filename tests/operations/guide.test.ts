import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { hasCommand } from '../support/commands.js';
import { runInShell, stepsOf } from '../support/documentPages.js';
import { withConnection } from '../support/shopFile.js';

/** docs/operations.md, block by block, against the built program; operator.sh replaces what a test cannot do. */

const TOOLS = ['nginx', 'openssl', 'curl', 'bash'];
const missing = TOOLS.filter((tool) => !hasCommand(tool));

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'brake-wear-guide-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

/** Below the port range for outgoing connections, so that it is still free after a restart. */
function freePort(): Promise<number> {
  const port = 20_000 + Math.floor(Math.random() * 12_000);
  return new Promise((settle) => {
    const probe = createServer();
    probe.once('error', () => settle(freePort()));
    probe.listen(port, '127.0.0.1', () => probe.close(() => settle(port)));
  });
}

describe.skipIf(missing.length > 0)(
  `the operations guide${missing.map((tool) => `, skipped without ${tool}`).join('')}`,
  () => {
    it('the commands of the guide lead from a bare server to a visit over HTTPS, a backup, an upgrade and a rollback', async () => {
      const [port, tlsPort, plainPort, trialPort] = await Promise.all([
        freePort(),
        freePort(),
        freePort(),
        freePort(),
      ]);
      const here = (text: string): string =>
        text
          .replace(/(?<![\w/$.])\/(?=(opt|etc|var)\/)/g, `${root}/`)
          .replaceAll('/usr/bin/node', process.execPath)
          .replaceAll('PORT=3900', `PORT=${trialPort}`)
          .replaceAll(':3900', `:${trialPort}`)
          .replaceAll('PORT=3000', `PORT=${port}`)
          .replaceAll('127.0.0.1:3000', `127.0.0.1:${port}`)
          .replaceAll('listen 80;', `listen 127.0.0.1:${plainPort};`)
          .replaceAll('listen 443 ssl;', `listen 127.0.0.1:${tlsPort} ssl;`);
      const source = join(root, 'source');
      for (const part of ['package.json', 'migrations', 'scripts', 'deploy'])
        cpSync(part, join(source, part), { recursive: true });
      for (const name of readdirSync('deploy'))
        writeFileSync(join(source, 'deploy', name), here(readFileSync(join('deploy', name), 'utf8')));
      for (const folder of ['etc/systemd/system', 'etc/nginx/conf.d', 'etc/ssl'])
        mkdirSync(join(root, folder), { recursive: true });

      const steps = stepsOf(readFileSync('docs/operations.md', 'utf8')).map(({ command, answer }) => ({
        command: here(command),
        answer,
      }));
      const prelude = { command: `. ${resolve('tests/support/operator.sh')}`, answer: null };
      const printed = await runInShell([prelude, ...steps], source, {
        ROOT: root,
        REPOSITORY: resolve('.'),
        PORT: String(port),
        TLS_PORT: String(tlsPort),
        PLAIN_PORT: String(plainPort),
      });
      const shown = printed.join('\n');
      expect(shown).toMatch(/"latest":\{"valueMm":6,"date":"2026-03-02"\}/);
      expect(shown).toMatch(/brakes-.*Z\.sqlite: verified, with 1 vehicle, 1 visit, 2 readings/);
      expect(shown).toMatch(/erased the personal data of [\w-]+: 1 record, 1 visit, 1 stored answer/);

      const database = join(root, 'var/lib/brake-wear/brakes.sqlite');
      for (const path of [
        database,
        ...readdirSync(join(root, 'var/backups/brake-wear')).map((name) =>
          join(root, 'var/backups/brake-wear', name),
        ),
      ])
        expect([path, statSync(path).mode & 0o077]).toEqual([path, 0]);
      withConnection(database, (connection) => {
        expect(connection.prepare('select count(*) from visits').pluck().get()).toBe(1);
        expect(connection.prepare('select registration from vehicles').pluck().get()).toBeNull();
      });
      expect(existsSync(`${database}-wal`)).toBe(false);
    }, 300_000);
  },
);
