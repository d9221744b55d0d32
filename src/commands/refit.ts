import { readConfig } from '../config.js';
import { startOrExplain } from '../server.js';
import { openStore } from '../store/open.js';

/** `npm run refit`: fits the shop's experience and works out every outlook with it, then scores past forecasts; beside a running server. */
await startOrExplain(async () => {
  const config = readConfig(process.env);
  const store = openStore({ file: config.databaseFile, timeZone: config.timeZone });
  try {
    process.stdout.write(`fitted version ${await store.experience.refit()}\n`);
    await store.accuracy.bringUpToDate();
  } finally {
    store.close();
  }
});
