import { constants, setPriority } from 'node:os';
import { readConfig } from '../config.js';
import { carryOutFitTask, type FitTask, type FitTaskDone } from '../core/forecast/fit.js';
import { allDone, CORES, isWorker, serveJobs, TRY_AGAIN_EXIT_CODE } from '../processes.js';
import { startOrExplain } from '../startUp.js';
import type { OpenStore, StoreOptions } from '../store/open.js';

/**
 * `npm run refit`: fits the shop's experience and recomputes every outlook with it, on all cores, while the server
 * runs. With `--past` it instead fits what was known at dates in the past, and scores past forecasts.
 */

type Share = NonNullable<StoreOptions['share']>;
type Job = { fit: FitTask } | { outlooks: Share };

/** Loads the store only here: a worker that only fits needs none, and starts in half the time. */
async function open(share?: Share): Promise<OpenStore> {
  const { openConfigured } = await import('../openConfigured.js');
  return openConfigured(readConfig(process.env), { maxWaitMs: 60_000, share });
}

async function doJob(job: Job): Promise<FitTaskDone> {
  if ('fit' in job) return carryOutFitTask(job.fit);
  const store = await open(job.outlooks);
  try {
    await store.outlooks.refresh();
  } finally {
    await store.close();
  }
  return null;
}

const doJobs = (jobs: readonly Job[]) => allDone<Job, FitTaskDone>(import.meta.filename, jobs);

async function refit(): Promise<void> {
  const store = await open();
  try {
    const version = await store.experience.fit((tasks) => doJobs(tasks.map((fit) => ({ fit }))));
    if (version === null) {
      process.stderr.write('another process is fitting the experience; nothing was done\n');
      process.exitCode = TRY_AGAIN_EXIT_CODE;
      return;
    }
    const shares = Array.from({ length: CORES }, (_, index) => ({ outlooks: { index, of: CORES } }));
    await doJobs(shares);
    process.stdout.write(`fitted experience version ${version} and recomputed every outlook\n`);
  } finally {
    await store.close();
  }
}

async function lookBack(): Promise<void> {
  const store = await open();
  try {
    await store.accuracy.bringUpToDate();
  } finally {
    await store.close();
  }
}

// Let the server answer requests first; worker processes inherit this priority.
setPriority(constants.priority.PRIORITY_BELOW_NORMAL);
if (isWorker) serveJobs(doJob);
else {
  // Exit with the server, even if it was killed, so that the database is not left open. The channel is unreferenced
  // because this listener would keep the process alive.
  process.once('disconnect', () => process.exit());
  process.channel?.unref();
  await startOrExplain(process.argv.includes('--past') ? lookBack : refit);
}
