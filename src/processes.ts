import { entryOf } from './core/items.js';
import { fork, type ChildProcess } from 'node:child_process';
import { availableParallelism } from 'node:os';

/**
 * Spreads jobs over the cores: the script forks itself, and each worker process does one job after another. Processes
 * rather than threads, so that each can measure the processor time of its own work.
 */
const WORKER = 'worker';
/** More workers would only wait for each other, for example for the database. */
const MAX_WORKERS = 4;
export const CORES = Math.min(availableParallelism(), MAX_WORKERS);

/** Whether this process is a worker. */
export const isWorker = process.argv[2] === WORKER && process.send !== undefined;

type Fault = Pick<Error, 'name' | 'message' | 'stack'>;
type Answer<Result> = { result: Result } | { fault: Fault };

/** A job that failed in a worker, with its error's name, message and stack. */
export class JobFailed extends Error {
  constructor({ name, message, stack }: Fault) {
    super(message);
    this.name = name;
    if (stack !== undefined) this.stack = stack;
  }
}

/** The system has no process, descriptor or memory to spare, so no worker could be started. */
export class NoProcess extends Error {}
/** Exit code of a command that could not do its work now and may succeed later (`EX_TEMPFAIL` of sysexits.h). */
export const TRY_AGAIN_EXIT_CODE = 75;

/** In a worker: answers every job with its result or fault until the parent process ends. */
export function serveJobs<Job, Result>(work: (job: Job) => Result | Promise<Result>): void {
  const answerTo = async (job: Job): Promise<Answer<Result>> => {
    try {
      return { result: await work(job) };
    } catch (error) {
      // Cloning an error would lose its name.
      const { name, message, stack } = error instanceof Error ? error : new Error(String(error));
      return { fault: { name, message, stack } };
    }
  };
  process.once('disconnect', () => process.exit());
  process.on('message', (job: Job) => void answerTo(job).then((answer) => process.send!(answer)));
}

/**
 * In the parent: runs all jobs, in any order. If only some of the workers can be started, those do all the jobs.
 *
 * @param script the file to fork, which calls {@link serveJobs}
 * @throws NoProcess when no worker can be started; JobFailed when a job fails; what `done` throws; or an Error when a
 *   worker exits before its jobs are done
 */
export async function shareOut<Job extends object, Result>(
  script: string,
  jobs: readonly Job[],
  done: (job: Job, result: Result) => void,
): Promise<void> {
  const waiting = [...jobs];
  const failing = new AbortController();
  const notStarted: NoProcess[] = [];
  const one = async (): Promise<void> => {
    try {
      await runWorker(script, waiting, done, failing.signal);
    } catch (fault) {
      if (fault instanceof NoProcess) notStarted.push(fault);
      else failing.abort(fault);
    }
  };
  await Promise.all(Array.from({ length: Math.min(CORES, jobs.length) }, one));
  failing.signal.throwIfAborted();
  if (waiting.length > 0) throw notStarted[0]!;
}

/** Starts a worker that takes jobs until none is waiting or the signal stops it. */
function runWorker<Job extends object, Result>(
  script: string,
  waiting: Job[],
  done: (job: Job, result: Result) => void,
  signal: AbortSignal,
): Promise<void> {
  return new Promise((resolve, reject) => {
    const child = forkWorker(script, signal);
    let current: Job | undefined;
    const next = () => {
      current = waiting.shift();
      if (current) child.send(current);
      else child.disconnect();
    };
    const fail = (fault: Error) => {
      reject(fault);
      child.kill();
    };
    child.on('message', (answer: Answer<Result>) => {
      if ('fault' in answer) {
        fail(new JobFailed(answer.fault));
        return;
      }
      try {
        done(current!, answer.result);
        next();
      } catch (fault) {
        fail(fault as Error);
      }
    });
    child.on('error', (fault) => fail(child.pid === undefined ? noProcess(fault) : fault));
    child.on('exit', (code, signal) =>
      current === undefined && code === 0
        ? resolve()
        : reject(new Error(`a worker exited with ${code ?? signal} before its job was done`)),
    );
    child.once('spawn', next);
  });
}

const noProcess = (cause: unknown): NoProcess =>
  new NoProcess(`no process could be started: ${(cause as Error).message}`, { cause });

/** @throws NoProcess for a fault that `fork` throws; other faults are emitted */
function forkWorker(script: string, signal: AbortSignal): ChildProcess {
  try {
    return fork(script, [WORKER], { serialization: 'advanced', signal });
  } catch (fault) {
    throw noProcess(fault);
  }
}

/** {@link shareOut}, returning the results in the order of the jobs. */
export async function allDone<Job extends object, Result>(
  script: string,
  jobs: readonly Job[],
): Promise<Result[]> {
  const results = new Map<Job, Result>();
  await shareOut<Job, Result>(script, jobs, (job, result) => results.set(job, result));
  return jobs.map((job) => entryOf(results, job));
}
