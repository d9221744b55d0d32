import { fork } from 'node:child_process';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';

/** The compiled file of a command. */
export const commandFile = (name: string): string =>
  fileURLToPath(new URL(`./commands/${name}.js`, import.meta.url));

/** How a child process ended. */
export interface ChildEnd {
  /** Null if a signal ended it. */
  code: number | null;
  /** The end of its stderr output. */
  stderr: string;
}

export interface Child {
  /** Settles when it and all its descendants have ended; null if it was stopped before it could start. */
  ended: Promise<ChildEnd | null>;
  /** Stops it and waits until it has ended, for at most {@link MAX_STOP_MS}. */
  stop(): Promise<void>;
}

export interface ChildOptions {
  env: NodeJS.ProcessEnv;
  /** Called after every failed start. */
  onFault: (fault: unknown) => void;
  retryAfterMs?: number;
}

/** Characters of stderr to keep. */
const MAX_STDERR = 2000;
const MAX_RETRY_MS = 60_000;
/** Leaves time to close the database before the server's shutdown deadline. */
const MAX_STOP_MS = 6000;

/**
 * Runs a script in a child process. If the system has no process, descriptor or memory to spare, retries at growing
 * intervals until it starts or is stopped.
 *
 * @param script the compiled file to run
 */
export function startChild(script: string, args: readonly string[], options: ChildOptions): Child {
  const stopping = new AbortController();
  const ended = startUntilStarted(script, args, options, stopping.signal);
  return {
    ended,
    stop: async () => {
      stopping.abort();
      await Promise.race([ended, sleep(MAX_STOP_MS, undefined, { ref: false })]);
    },
  };
}

async function startUntilStarted(
  script: string,
  args: readonly string[],
  { env, onFault, retryAfterMs = 5000 }: ChildOptions,
  signal: AbortSignal,
): Promise<ChildEnd | null> {
  for (let waitMs = retryAfterMs; !signal.aborted; waitMs = Math.min(MAX_RETRY_MS, 2 * waitMs)) {
    try {
      return await runOnce(script, args, env, signal);
    } catch (fault) {
      onFault(fault);
      await sleep(waitMs, undefined, { signal, ref: false }).catch(() => undefined);
    }
  }
  return null;
}

/** Rejects if the process cannot be started: `fork` throws some faults and emits the others. */
function runOnce(
  script: string,
  args: readonly string[],
  env: NodeJS.ProcessEnv,
  signal: AbortSignal,
): Promise<ChildEnd> {
  return new Promise((resolve, reject) => {
    const child = fork(script, args, { env, stdio: ['ignore', 'ignore', 'pipe', 'ipc'] });
    let stderr = '';
    child.on('error', (fault) => child.pid === undefined && reject(fault));
    // A process that failed to start may have no streams.
    child.stderr?.on('data', (chunk) => (stderr = (stderr + String(chunk)).slice(-MAX_STDERR)));
    // Its own child processes share this pipe, so it closes when the last of them has ended.
    child.once('close', (code) => resolve({ code, stderr: stderr.trim() }));
    signal.addEventListener('abort', () => child.kill(), { once: true });
  });
}
