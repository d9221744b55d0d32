import { parentPort } from 'node:worker_threads';
import type { AxleOutlook } from './core/assessment/outlookShape.js';
import { axlesOutOf, type AxlesJob, type Basis } from './core/assessment/sharedOutlook.js';

/** The thread that {@link import('./helper.js').helper} starts: it knows the core alone. */

/** A job; its basis is missing where it is that of the job before. */
export type Posted = Omit<AxlesJob, 'basis'> & { basis: Basis | null };

let basis: Basis | null = null;

/** Null where it has come to nothing: whoever asked will meet the same fault. */
function answerTo(job: Posted): AxleOutlook[] | null {
  basis = job.basis ?? basis;
  try {
    return axlesOutOf({ ...job, basis: basis! });
  } catch {
    return null;
  }
}

parentPort!.on('message', (job: Posted) => parentPort!.postMessage(answerTo(job)));
// It is ready for a first job.
parentPort!.postMessage(null);
