import { Worker } from 'node:worker_threads';
import type { AxlesJob, AxlesResult, Basis, WorkElsewhere } from './core/assessment/sharedOutlook.js';
import type { Posted } from './helperThread.js';

export interface Helper {
  work: WorkElsewhere;
  /** Stops the thread; its pending jobs get no result. */
  stop(): Promise<void>;
}

interface HelperOptions {
  /** Called when the thread exits unexpectedly; callers then compute on their own thread. */
  onFault?: (fault: unknown) => void;
  /** Time limit per job. A job over the limit is abandoned but occupies its slot until it has ended. */
  maxWaitMs?: number;
  /** Delay before the thread is started again after an unexpected exit or a failed start. */
  restartAfterMs?: number;
  /** The thread's compiled script. */
  script?: URL;
}

/** Jobs queued in the thread: one being computed, and two waiting so that it stays busy. */
export const MAX_JOBS = 3;

/** Enough for the garbage of a few outlooks; with a thread's default, 16 MB more stay resident. */
const YOUNG_MB = 4;

type Settle = (result: AxlesResult | null) => void;

/**
 * A worker thread that computes axles alongside the main thread. The first job starts the thread and does not wait for
 * it. After an unexpected exit, the first job that comes after a delay restarts it. The thread uses only the core; jobs
 * over the time limit are abandoned.
 */
export function helper({
  onFault = () => undefined,
  maxWaitMs = 1000,
  restartAfterMs = 60_000,
  script = new URL('./helperThread.js', import.meta.url),
}: HelperOptions = {}): Helper {
  let thread: Worker | null = null;
  let isReady = false;
  let isStopped = false;
  /** In posting order, which is also the order of the answers. */
  const jobs: Settle[] = [];
  let lastBasis: Basis | null = null;
  /** Earliest `performance.now()` at which to start a thread. */
  let startsFrom = 0;

  function fail(fault: unknown): void {
    thread = null;
    isReady = false;
    lastBasis = null;
    startsFrom = performance.now() + restartAfterMs;
    jobs.splice(0).forEach((settle) => settle(null));
    if (!isStopped) onFault(fault);
  }

  /** Null if the system has no thread or memory to spare. */
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
    started.on('message', (result: AxlesResult | null) => {
      if (isReady) jobs.shift()?.(result);
      isReady = true;
    });
    let fault: unknown = null;
    started.once('error', (error) => (fault = error));
    started.once('exit', (code) => fail(fault ?? new Error(`the forecast worker exited with code ${code}`)));
    return started;
  }

  function post({ basis, ...job }: AxlesJob, to: Worker): void {
    const isKnown =
      lastBasis?.known === basis.known &&
      lastBasis.policy === basis.policy &&
      lastBasis.gauges === basis.gauges;
    const posted: Posted = { ...job, basis: isKnown ? null : basis };
    to.postMessage(posted);
    lastBasis = basis;
  }

  return {
    work: (job) => {
      thread ??= tryToStart();
      if (!thread || !isReady || jobs.length >= MAX_JOBS) return null;
      post(job, thread);
      return new Promise((resolve) => {
        const late = setTimeout(() => resolve(null), maxWaitMs);
        jobs.push((result) => {
          clearTimeout(late);
          resolve(result);
        });
      });
    },
    stop: async () => {
      isStopped = true;
      await thread?.terminate();
    },
  };
}
