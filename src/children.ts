import { fork } from 'node:child_process';
import { setTimeout as sleep } from 'node:timers/promises';

/** How a process that the server started has ended. */
export interface ChildEnd {
  /** Null where a signal ended it. */
  code: number | null;
  /** The end of what it wrote to stderr. */
  stderr: string;
}

export interface Child {
  /** Settles once it has ended, and with it all that it started; null where it was stopped before it could start. */
  ended: Promise<ChildEnd | null>;
  /** Ends it, and waits until it has ended, for {@link MAX_STOP_MS} at most. */
  stop(): Promise<void>;
}

export interface ChildOptions {
  env: NodeJS.ProcessEnv;
  /** Told of every start that failed. */
  onFault: (fault: unknown) => void;
  retryAfterMs?: number;
}

/** How much of stderr is kept, in characters. */
const MAX_STDERR = 2000;
const MAX_RETRY_MS = 60_000;
/** Together with the closing of the database, less than the time the server has to end. */
const MAX_STOP_MS = 6000;

/**
 * Runs a script in a process of its own beside the server. Where the system has no process, descriptor or memory to
 * spare, the start is tried again later, at growing intervals, until it succeeds or is stopped.
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

/** Rejects where the process could not be started: `fork` throws some of these faults and emits the others. */
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
    // A process that could not be started may have no streams.
    child.stderr?.on('data', (chunk) => (stderr = (stderr + String(chunk)).slice(-MAX_STDERR)));
    // Its own copies share this pipe, so that it closes when the last of them has ended.
    child.once('close', (code) => resolve({ code, stderr: stderr.trim() }));
    signal.addEventListener('abort', () => child.kill(), { once: true });
  });
}
