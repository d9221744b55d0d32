import { required } from './core/items.js';
import { parentPort } from 'node:worker_threads';
import {
  computeAxles,
  type AxlesJob,
  type AxlesResult,
  type Basis,
} from './core/assessment/sharedOutlook.js';

/** The script of the thread that {@link import('./helper.js').helper} starts; it uses only the core. */

/** A job; its basis is null if it is the same as the previous job's. */
export type Posted = Omit<AxlesJob, 'basis'> & { basis: Basis | null };

const caller = required(parentPort, 'thread that started this one');
let basis: Basis | null = null;

/** Null after a fault: the caller computes the job itself and gets the same fault. */
function answerTo(job: Posted): AxlesResult | null {
  basis = job.basis ?? basis;
  try {
    return computeAxles({ ...job, basis: required(basis, 'basis of the first job') });
  } catch {
    return null;
  }
}

caller.on('message', (job: Posted) => caller.postMessage(answerTo(job)));
// Signals that the thread is ready for its first job.
caller.postMessage(null);
