import { execFileSync } from 'node:child_process';
import {
  appendFileSync,
  chownSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
} from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { tmpdir, userInfo } from 'node:os';
import { join } from 'node:path';

/** The tests' own PostgreSQL servers, from the programs installed on this machine. */

export interface Cluster {
  port: number;
  /** As the superuser. */
  url: (database: string) => string;
  /** Runs statements on the server, outside a transaction. */
  run: (sql: string, database?: string) => string;
  /** Ends the server as a crash does. */
  kill: () => void;
  /** Suspends all its processes: connections stay open, and nothing answers. */
  pause: () => void;
  resume: () => void;
  /** Makes a standby the primary. */
  promote: () => void;
  /** Starts another server that follows this one. */
  standby: () => Promise<Cluster>;
  remove: () => void;
}

/** The folder of the newest installed server's programs; null if there is none. */
export function serverBinaries(): string | null {
  const top = '/usr/lib/postgresql';
  if (!existsSync(top)) return null;
  const versions = readdirSync(top).sort((a, b) => Number(b) - Number(a));
  return (
    versions.map((version) => join(top, version, 'bin')).find((path) => existsSync(join(path, 'initdb'))) ??
    null
  );
}

/**
 * Starts a server with a fresh database cluster.
 *
 * @param settings lines of its configuration
 */
export function startCluster(binaries: string, settings: string[] = []): Promise<Cluster> {
  return started(binaries, initialised(binaries), settings);
}

/** Starts several servers, each with a copy of the same fresh cluster, because creating one takes a second. */
export async function startClusters(binaries: string, count: number): Promise<Cluster[]> {
  const first = initialised(binaries);
  const copies = Array.from({ length: count - 1 }, () => {
    const folder = ownFolder();
    execFileSync('cp', ['-a', join(first, 'data'), folder]);
    return folder;
  });
  const clusters: Cluster[] = [];
  for (const folder of [first, ...copies]) clusters.push(await started(binaries, folder, []));
  return clusters;
}

/** A folder with a fresh database cluster. */
function initialised(binaries: string): string {
  const folder = ownFolder();
  runProgram(binaries, folder, 'initdb', [
    ...['--pgdata', join(folder, 'data'), '--auth', 'trust', '--username', 'postgres'],
    ...['--encoding', 'UTF8', '--no-sync'],
  ]);
  return folder;
}

async function started(binaries: string, folder: string, settings: string[]): Promise<Cluster> {
  const data = join(folder, 'data');
  const port = await freePort();
  const configured = [
    `port = ${port}`,
    "listen_addresses = '127.0.0.1'",
    `unix_socket_directories = '${folder}'`,
    'max_connections = 300',
    // The data need not survive a crash of the machine.
    'fsync = off',
    ...settings,
  ];
  appendFileSync(join(data, 'postgresql.conf'), `${configured.join('\n')}\n`);
  const control = (...given: string[]): void =>
    void runProgram(binaries, folder, 'pg_ctl', ['--pgdata', data, '--log', join(folder, 'log'), ...given]);
  control('--wait', 'start');
  const url = (database: string): string => `postgres://postgres@127.0.0.1:${port}/${database}`;
  return {
    port,
    url,
    run: (sql, database = 'postgres') =>
      runProgram(binaries, folder, 'psql', ['--no-psqlrc', '-Atq', '-c', sql, url(database)]),
    kill: () => control('--mode', 'immediate', 'stop'),
    pause: () => pause(data),
    resume: () => resume(data),
    promote: () => control('--wait', 'promote'),
    standby: async () => {
      const other = ownFolder();
      const source = ['--host', '127.0.0.1', '--port', String(port), '--username', 'postgres'];
      runProgram(binaries, other, 'pg_basebackup', [
        ...source,
        ...['--pgdata', join(other, 'data'), '--write-recovery-conf', '--checkpoint', 'fast', '--no-sync'],
      ]);
      return started(binaries, other, ["synchronous_standby_names = ''"]);
    },
    remove: () => {
      try {
        control('--mode', 'immediate', 'stop');
      } catch {
        // It was killed before.
      }
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/**
 * The processes of a server, the first one first. While that one is stopped, no other can disappear, because it would
 * have to reap it.
 */
function processesOf(data: string): number[] {
  const first = Number.parseInt(readFileSync(join(data, 'postmaster.pid'), 'utf8'), 10);
  const others = execFileSync('ps', ['-o', 'pid=', '--ppid', String(first)], { encoding: 'utf8' });
  return [first, ...others.trim().split(/\s+/).map(Number)];
}

function pause(data: string): void {
  process.kill(processesOf(data)[0]!, 'SIGSTOP');
  for (const pid of processesOf(data)) process.kill(pid, 'SIGSTOP');
}

function resume(data: string): void {
  for (const pid of processesOf(data).reverse()) process.kill(pid, 'SIGCONT');
}

function ownFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-postgres-'));
  const own = ownUser();
  if (own) chownSync(folder, own.uid, own.gid);
  return folder;
}

function runProgram(binaries: string, folder: string, program: string, given: string[]): string {
  return execFileSync(join(binaries, program), given, {
    ...(ownUser() ?? {}),
    cwd: folder,
    encoding: 'utf8',
    // The server would keep a pipe open.
    stdio: ['ignore', program === 'psql' ? 'pipe' : 'ignore', 'ignore'],
  });
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
