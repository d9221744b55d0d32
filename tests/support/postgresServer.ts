import { execFileSync } from 'node:child_process';
import { chownSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { tmpdir, userInfo } from 'node:os';
import { join } from 'node:path';

/**
 * Starts a PostgreSQL server for the tests, if this machine has one installed, and names it in `TEST_POSTGRES_URL`. A
 * server named there beforehand is used as it is. Without either the variable stays empty.
 */
export default async function startServer(): Promise<() => void> {
  const binaries = serverBinaries();
  if (process.env['TEST_POSTGRES_URL'] !== undefined) return () => undefined;
  if (binaries === null) {
    if (process.env['TEST_ENGINE'] === 'postgres')
      throw new Error('no PostgreSQL server is installed; install one, or name one in TEST_POSTGRES_URL');
    return () => undefined;
  }
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-postgres-'));
  const data = join(folder, 'data');
  const own = ownUser();
  if (own) chownSync(folder, own.uid, own.gid);
  const run = (program: string, ...given: string[]): void =>
    void execFileSync(join(binaries, program), given, {
      ...(own ?? {}),
      cwd: folder,
      stdio: ['ignore', 'ignore', 'inherit'],
    });
  const port = await freePort();
  run('initdb', '--pgdata', data, '--auth', 'trust', '--username', 'postgres', '--encoding', 'UTF8');
  // Nothing here must survive a crash of the machine.
  const settings = `-p ${port} -h 127.0.0.1 -k ${folder} -c fsync=off -c max_connections=300`;
  run('pg_ctl', '--pgdata', data, '--log', join(folder, 'log'), '--options', settings, '--wait', 'start');
  process.env['TEST_POSTGRES_URL'] = `postgres://postgres@127.0.0.1:${port}/postgres`;
  return () => {
    run('pg_ctl', '--pgdata', data, '--mode', 'immediate', 'stop');
    rmSync(folder, { recursive: true, force: true });
  };
}

/** The folder of the newest installed server's programs. */
function serverBinaries(): string | null {
  const top = '/usr/lib/postgresql';
  if (!existsSync(top)) return null;
  const versions = readdirSync(top).sort((a, b) => Number(b) - Number(a));
  return (
    versions.map((version) => join(top, version, 'bin')).find((path) => existsSync(join(path, 'initdb'))) ??
    null
  );
}

/** The server refuses to run as root, and runs as its own user then. */
function ownUser(): { uid: number; gid: number } | null {
  if (userInfo().uid !== 0) return null;
  const id = (flag: string): number => Number(execFileSync('id', [flag, 'postgres'], { encoding: 'utf8' }));
  return { uid: id('-u'), gid: id('-g') };
}

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  await new Promise((resolve) => server.close(resolve));
  return port;
}
