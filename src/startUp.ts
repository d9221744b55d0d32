import { BadSetting } from './config.js';
import { UnsoundFit } from './core/forecast/fit.js';
import { TRY_AGAIN_EXIT_CODE, NoProcess } from './processes.js';
import { DatabaseUnusable, StoreFault } from './store/contract/faults.js';

/** In its own file, so that a command need not load the HTTP server. */

/** Runs startup code; if it fails, prints one clear line and exits. */
export async function startOrExplain(start: () => Promise<void>): Promise<void> {
  try {
    await start();
  } catch (error) {
    const fault = error as NodeJS.ErrnoException;
    const known =
      [BadSetting, DatabaseUnusable, NoProcess, StoreFault].some((kind) => fault instanceof kind) ||
      // Compare by name: a worker passes on only the error's name.
      fault.name === UnsoundFit.name ||
      fault.syscall === 'listen';
    process.stderr.write(`${known ? fault.message : (fault.stack ?? fault.message)}\n`);
    process.exit(fault instanceof NoProcess ? TRY_AGAIN_EXIT_CODE : 1);
  }
}
