import { fork } from 'node:child_process';
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

/** In a copy: answers every job with its result, for as long as there is somebody to answer to. */
export function serveJobs<Job, Result>(work: (job: Job) => Result | Promise<Result>): void {
  process.once('disconnect', () => process.exit());
  process.on('message', async (job) => process.send!(await work(job as Job)));
}

/**
 * In the script itself: has all jobs done, in any order.
 *
 * @param script the file to fork, which calls {@link serveJobs}
 * @throws when a copy ends before its jobs are done
 */
export async function shareOut<Job extends object, Result>(
  script: string,
  jobs: readonly Job[],
  done: (job: Job, result: Result) => void,
): Promise<void> {
  const waiting = [...jobs];
  const copies = Math.min(CORES, jobs.length);
  const one = (): Promise<void> =>
    new Promise((resolve, reject) => {
      const child = fork(script, [WORKER], { serialization: 'advanced' });
      let current: Job | undefined;
      const next = () => {
        current = waiting.shift();
        if (current) child.send(current);
        else child.disconnect();
      };
      child.on('message', (result) => {
        done(current!, result as Result);
        next();
      });
      child.on('exit', (code) =>
        current === undefined && code === 0
          ? resolve()
          : reject(new Error(`a copy ended with ${code} at job ${jobs.indexOf(current!)}`)),
      );
      next();
    });
  await Promise.all(Array.from({ length: copies }, one));
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
