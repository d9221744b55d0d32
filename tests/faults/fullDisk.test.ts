import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ask, killServer, startServer } from '../../bench/serverProcess.js';
import { makeShopFile, withConnection } from '../support/shopFile.js';

/** A small file system of its own, to be filled to the last byte; mounting one needs root. */
const isMounted = (folder: string): boolean =>
  spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=12m', 'tmpfs', folder]).status === 0;
function canMount(): boolean {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-mount-'));
  const can = process.platform === 'linux' && isMounted(folder);
  if (can) execFileSync('umount', [folder]);
  rmSync(folder, { recursive: true });
  return can;
}

describe.skipIf(!canMount())('a disk without a free byte', () => {
  let folder: string;
  let file: string;
  let shop: Awaited<ReturnType<typeof makeShopFile>>;
  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), 'brake-wear-full-'));
    isMounted(folder);
    file = join(folder, 'brakes.sqlite');
    shop = await makeShopFile(file);
  });
  afterEach(() => {
    execFileSync('umount', [folder]);
    rmSync(folder, { recursive: true });
  });

  function fillDisk(): void {
    const bytes = Buffer.alloc(4096, 1);
    for (let index = 0; ; index++) {
      try {
        writeFileSync(join(folder, `filler-${index % 10}`), bytes, { flag: 'a' });
      } catch {
        return;
      }
    }
  }
  const revoke = () =>
    spawnSync(process.execPath, ['dist/src/commands/keys.js', 'revoke', 'owner'], {
      encoding: 'utf8',
      env: { ...process.env, DATABASE_FILE: file },
    });

  it('a key can be revoked while the server runs, and is refused at once', async () => {
    const server = startServer(file);
    try {
      const address = await server.listening;
      // Otherwise the log has pages that can be reused without free disk space.
      withConnection(file, (connection) => connection.pragma('wal_checkpoint(TRUNCATE)'));
      fillDisk();
      const visits = `/v1/vehicles/${shop.vehicleIds[0]}/visits`;
      const refused = await ask(address, shop.key, visits, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: '{"date":"2026-03-02"}',
      });
      expect(refused.status).toBe(507);
      expect(revoke()).toMatchObject({ status: 0, stdout: 'revoked owner\n', stderr: '' });
      expect((await ask(address, shop.key, '/v1/gauges')).status).toBe(401);
    } finally {
      await killServer(server);
    }
  });

  it('a key can be revoked while no server runs', async () => {
    const server = startServer(file);
    await server.listening;
    server.child.kill('SIGTERM');
    await server.ended;
    fillDisk();
    expect(revoke()).toMatchObject({ status: 0, stdout: 'revoked owner\n', stderr: '' });
    rmSync(join(folder, 'filler-0'));
    withConnection(file, (connection) => {
      const revoked = connection.prepare('select revoked_at from api_keys').pluck().get();
      expect(revoked).toMatch(/^20/);
    });
  });
});
