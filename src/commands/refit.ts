import { constants, setPriority } from 'node:os';
import { readConfig } from '../config.js';
import { startOrExplain } from '../server.js';
import { openStore } from '../store/open.js';

/**
 * `npm run refit`: fits the shop's experience and works out every outlook with it, beside a running server. With
 * `--past` it fits what was known in the past instead, and scores past forecasts.
 */
await startOrExplain(async () => {
  const config = readConfig(process.env);
  const store = openStore({ file: config.databaseFile, timeZone: config.timeZone, patienceMs: 60_000 });
  try {
    if (process.argv.includes('--past')) {
      // Nobody waits for it: whoever answers callers comes first.
      setPriority(constants.priority.PRIORITY_BELOW_NORMAL);
      await store.accuracy.bringUpToDate();
    } else process.stdout.write(`fitted version ${await store.experience.refit()}\n`);
  } finally {
    store.close();
  }
});
