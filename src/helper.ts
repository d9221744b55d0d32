import { Worker } from 'node:worker_threads';
import type { AxleOutlook } from './core/assessment/outlookShape.js';
import type { AxlesJob, Basis, WorkElsewhere } from './core/assessment/sharedOutlook.js';
import type { Posted } from './helperThread.js';

export interface Helper {
  work: WorkElsewhere;
  /** Ends the thread; what is with it comes to nothing. */
  stop(): Promise<void>;
}

interface HelperOptions {
  /** Told when the thread has ended by itself; what it did is from then on done by whoever asks. */
  onFault?: (fault: unknown) => void;
  /** How long a job may take; one that takes longer is given up, and keeps its place in the thread until it has ended. */
  patienceMs?: number;
  /** How long after it ended by itself, or could not be started, the thread is started again. */
  restartAfterMs?: number;
  /** What the thread runs, compiled. */
  script?: URL;
}

/** Jobs that the thread has at a time: one that it works at, and two that it goes on with while others are written. */
export const MOST_JOBS = 3;

/** Room for what a few outlooks throw away; with as much as a thread would take by itself 16 MB more are resident. */
const YOUNG_MB = 4;

type Settle = (outlooks: AxleOutlook[] | null) => void;

/**
 * A worker thread that computes axles beside this one. The first job starts it, and is not waited for; so does the first
 * one some time after it ended by itself. It knows nothing but the core, and a job that takes too long is given up.
 */
export function helper({
  onFault = () => undefined,
  patienceMs = 1000,
  restartAfterMs = 60_000,
  script = new URL('./helperThread.js', import.meta.url),
}: HelperOptions = {}): Helper {
  let thread: Worker | null = null;
  let isReady = false;
  let isStopped = false;
  /** In the order in which they were posted, which is that of their answers. */
  const jobs: Settle[] = [];
  let told: Basis | null = null;
  /** No thread is started before this instant of `performance.now()`. */
  let startsFrom = 0;

  function fail(fault: unknown): void {
    thread = null;
    isReady = false;
    told = null;
    startsFrom = performance.now() + restartAfterMs;
    jobs.splice(0).forEach((settle) => settle(null));
    if (!isStopped) onFault(fault);
  }

  /** Null where the system has no thread or memory to spare. */
  function tryToStart(): Worker | null {
    if (isStopped || performance.now() < startsFrom) return null;
    try {
      return start();
    } catch (fault) {
      fail(fault);
      return null;
    }
  }

  function start(): Worker {
    const started = new Worker(script, { resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MB } });
    started.unref();
    started.on('message', (outlooks: AxleOutlook[] | null) => {
      if (isReady) jobs.shift()?.(outlooks);
      isReady = true;
    });
    let fault: unknown = null;
    started.once('error', (error) => (fault = error));
    started.once('exit', (code) => fail(fault ?? new Error(`the thread has ended with ${code}`)));
    return started;
  }

  function post({ basis, ...job }: AxlesJob, to: Worker): void {
    const isTold =
      told?.known === basis.known && told.policy === basis.policy && told.gauges === basis.gauges;
    const posted: Posted = { ...job, basis: isTold ? null : basis };
    to.postMessage(posted);
    told = basis;
  }

  return {
    work: (job) => {
      thread ??= tryToStart();
      if (!thread || !isReady || jobs.length >= MOST_JOBS) return null;
      post(job, thread);
      return new Promise((resolve) => {
        const late = setTimeout(() => resolve(null), patienceMs);
        jobs.push((outlooks) => {
          clearTimeout(late);
          resolve(outlooks);
        });
      });
    },
    stop: async () => {
      isStopped = true;
      await thread?.terminate();
    },
  };
}
