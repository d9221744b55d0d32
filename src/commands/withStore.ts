import { readConfig } from '../config.js';
import { Refusal } from '../core/refusal.js';
import { startOrExplain } from '../startUp.js';
import { openConfigured } from '../openConfigured.js';
import type { Store } from '../store/contract/store.js';

/** How long a command waits for another process's write lock; an import holds it for less. */
const MAX_WAIT_MS = 60_000;

/**
 * Runs a command on the database, also while a server runs, and prints its result.
 *
 * @param work returns null for wrong arguments; the process then exits with code 2
 */
export async function withStore(
  usage: string,
  work: (store: Store, args: string[]) => Promise<string | null>,
): Promise<void> {
  await startOrExplain(async () => {
    const store = await openConfigured(readConfig(process.env), { maxWaitMs: MAX_WAIT_MS });
    try {
      const line = await work(store, process.argv.slice(2));
      if (line === null) {
        fail(usage);
        return;
      }
      process.stdout.write(`${line}\n`);
    } catch (error) {
      fail((error as Error).message, error instanceof Refusal ? 1 : 2);
    } finally {
      await store.close();
    }
  });
}

function fail(message: string, code = 2): void {
  process.stderr.write(`${message}\n`);
  process.exitCode = code;
}
