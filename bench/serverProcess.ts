import { spawn, type ChildProcess } from 'node:child_process';
import { resolve } from 'node:path';

/** The built service as a separate process that tests and benches kill, overload and call over HTTP. */
export interface ServerProcess {
  child: ChildProcess;
  /** The address it listens on. @throws ServerEnded if it exits before it listens */
  listening: Promise<string>;
  ended: Promise<Ended>;
  /** Its log, as far as it has arrived: a line may come after the answer to the request that caused it. */
  log(): string;
}

export interface Ended {
  code: number | null;
  signal: NodeJS.Signals | null;
  stderr: string;
}

/** A server that exited before it listened. */
export class ServerEnded extends Error {
  constructor(readonly how: Ended) {
    super(`the server ended with ${how.code ?? how.signal}: ${how.stderr}`);
  }
}

export interface ServerOptions {
  /** The program, compiled. */
  main?: string;
  logLevel?: string;
  /** A PostgreSQL database to serve instead of the file. */
  databaseUrl?: string;
  /** A command that starts it, such as one that removes permissions. */
  through?: readonly string[];
}

/** Starts the service on a database file and a free port of this machine. */
export function startServer(file: string, options: ServerOptions = {}): ServerProcess {
  const { main = resolve('dist/src/main.js'), logLevel = 'error', through = [], databaseUrl = '' } = options;
  const [command, ...rest] = [...through, process.execPath, main];
  const environment = {
    HOST: '127.0.0.1',
    PORT: '0',
    DATABASE_FILE: file,
    DATABASE_URL: databaseUrl,
    LOG_LEVEL: logLevel,
  };
  const child = spawn(command!, rest, {
    env: { ...process.env, ...environment, TIME_ZONE: 'UTC', RATE_LIMIT_PER_MINUTE: '0' },
    stdio: ['ignore', 'pipe', 'pipe'],
    // A process group of its own, with the processes that it starts.
    detached: true,
  });
  let [stdout, stderr] = ['', ''];
  child.stdout.setEncoding('utf8').on('data', (text: string) => (stdout += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => (stderr += text));
  const ended = new Promise<Ended>((settle) =>
    child.once('close', (code, signal) => settle({ code, signal, stderr })),
  );
  const listening = new Promise<string>((settle, reject) => {
    child.stdout.on('data', () => {
      const address = /^listening on (\S+)$/m.exec(stdout)?.[1];
      if (address) settle(address);
    });
    void ended.then((how) => reject(new ServerEnded(how)));
  });
  // A caller that kills a starting server does not wait for it to listen.
  listening.catch(() => undefined);
  return { child, listening, ended, log: () => stdout };
}

/**
 * Kills a server and everything it started at once, like a power cut, except for what the system still writes to disk:
 * a fit that survived would checkpoint the log into the database when it ends.
 */
export async function killServer({ child, ended }: ServerProcess): Promise<void> {
  try {
    process.kill(-child.pid!, 'SIGKILL');
  } catch (fault) {
    if ((fault as NodeJS.ErrnoException).code !== 'ESRCH') throw fault;
  }
  await ended;
}

export interface Answer {
  status: number;
  text: string;
  headers: Headers;
}

/** Sends one request; rejects without a complete answer. */
export async function ask(
  address: string,
  key: string,
  path: string,
  init: RequestInit = {},
): Promise<Answer> {
  const response = await fetch(address + path, {
    ...init,
    headers: { authorization: `Bearer ${key}`, ...init.headers },
  });
  return { status: response.status, text: await response.text(), headers: response.headers };
}
