import { Worker } from 'node:worker_threads';
import type { AxleOutlook } from './core/assessment/outlook.js';
import type { AxlesJob, Basis, WorkElsewhere } from './core/assessment/sharedOutlook.js';
import type { Posted } from './helperThread.js';

export interface Helper {
  work: WorkElsewhere;
  stop(): Promise<void>;
}

interface HelperOptions {
  /** Told when the thread has ended by itself; what it did is from then on done by whoever asks. */
  onFault?: (fault: unknown) => void;
  /** How long a job may take; one that takes longer is given up, and the thread gets no other before it has ended. */
  patienceMs?: number;
  /** What the thread runs, compiled. */
  script?: URL;
}

/** Jobs that the thread has at a time: one that it works at, and one that it goes on with while it is written. */
const MOST_JOBS = 2;

type Settle = (outlooks: AxleOutlook[] | null) => void;

/**
 * A thread that works axles out beside this one. It is started by the first job, which it comes too late for, and knows
 * nothing but the core: what it cannot do in time is never waited for.
 */
export function helper({
  onFault = () => undefined,
  patienceMs = 1000,
  script = new URL('./helperThread.js', import.meta.url),
}: HelperOptions = {}): Helper {
  let thread: Worker | null = null;
  let isReady = false;
  /** In the order in which they were posted, which is that of their answers. */
  const jobs: Settle[] = [];
  let told: Basis | null = null;

  function start(): Worker {
    const started = new Worker(script);
    started.unref();
    started.on('message', (outlooks: AxleOutlook[] | null) => {
      if (isReady) jobs.shift()?.(outlooks);
      isReady = true;
    });
    started.once('error', onFault);
    started.once('exit', () => {
      isReady = false;
      jobs.splice(0).forEach((settle) => settle(null));
    });
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
      thread ??= start();
      if (!isReady || jobs.length >= MOST_JOBS) return null;
      post(job, thread);
      return new Promise((resolve) => {
        const late = setTimeout(() => resolve(null), patienceMs);
        jobs.push((outlooks) => {
          clearTimeout(late);
          resolve(outlooks);
        });
      });
    },
    stop: async () => void (await thread?.terminate()),
  };
}
