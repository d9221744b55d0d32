import { fork, type ChildProcess } from 'node:child_process';
import { availableParallelism } from 'node:os';

/**
 * Work shared out over the cores: the script forks itself, and each of its copies does one job after another. They
 * are processes rather than threads, so that each knows the processor time of its own work alone.
 */
const WORKER = 'worker';
/** More copies than this would wait for one another, be it for the database. */
const MOST_COPIES = 4;
export const CORES = Math.min(availableParallelism(), MOST_COPIES);

/** Whether this process is one of the copies. */
export const isWorker = process.argv[2] === WORKER && process.send !== undefined;

type Fault = Pick<Error, 'name' | 'message' | 'stack'>;
type Answer<Result> = { result: Result } | { fault: Fault };

/** A job that failed in a copy, with the name, message and stack of its error. */
export class JobFailed extends Error {
  constructor({ name, message, stack }: Fault) {
    super(message);
    this.name = name;
    if (stack !== undefined) this.stack = stack;
  }
}

/** No process could be started: the system has no process, descriptor or memory to spare. */
export class NoProcess extends Error {}
/** Exit code of a command that failed for want of processes, and may succeed later (`EX_TEMPFAIL` of sysexits.h). */
export const NO_PROCESS_EXIT_CODE = 75;

/** In a copy: answers every job with its result or its fault, for as long as the script itself lives. */
export function serveJobs<Job, Result>(work: (job: Job) => Result | Promise<Result>): void {
  const answerTo = async (job: Job): Promise<Answer<Result>> => {
    try {
      return { result: await work(job) };
    } catch (error) {
      // An error would lose its name when it is cloned.
      const { name, message, stack } = error instanceof Error ? error : new Error(String(error));
      return { fault: { name, message, stack } };
    }
  };
  process.once('disconnect', () => process.exit());
  process.on('message', (job: Job) => void answerTo(job).then((answer) => process.send!(answer)));
}

/**
 * In the script itself: has all jobs done, in any order. Where fewer copies than wanted can be started, those that run
 * do all the jobs.
 *
 * @param script the file to fork, which calls {@link serveJobs}
 * @throws NoProcess when no copy can be started; JobFailed when a job fails; what `done` throws; or an Error when a copy
 *   ends before its jobs are done
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
      await oneCopy(script, waiting, done, failing.signal);
    } catch (fault) {
      if (fault instanceof NoProcess) notStarted.push(fault);
      else failing.abort(fault);
    }
  };
  await Promise.all(Array.from({ length: Math.min(CORES, jobs.length) }, one));
  failing.signal.throwIfAborted();
  if (waiting.length > 0) throw notStarted[0]!;
}

/** Starts a copy, which takes job after job until none is waiting or the signal ends it. */
function oneCopy<Job extends object, Result>(
  script: string,
  waiting: Job[],
  done: (job: Job, result: Result) => void,
  signal: AbortSignal,
): Promise<void> {
  return new Promise((resolve, reject) => {
    const child = forkCopy(script, signal);
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
        : reject(new Error(`a copy ended with ${code ?? signal} before its job was done`)),
    );
    child.once('spawn', next);
  });
}

const noProcess = (cause: unknown): NoProcess =>
  new NoProcess(`no process could be started: ${(cause as Error).message}`, { cause });

/** @throws NoProcess for a fault that `fork` throws; others are emitted */
function forkCopy(script: string, signal: AbortSignal): ChildProcess {
  try {
    return fork(script, [WORKER], { serialization: 'advanced', signal });
  } catch (fault) {
    throw noProcess(fault);
  }
}

/** {@link shareOut}, for the results alone, in the order of the jobs. */
export async function allDone<Job extends object, Result>(
  script: string,
  jobs: readonly Job[],
): Promise<Result[]> {
  const results = new Map<Job, Result>();
  await shareOut<Job, Result>(script, jobs, (job, result) => results.set(job, result));
  return jobs.map((job) => results.get(job)!);
}
