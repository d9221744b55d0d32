import { readConfig } from './config.js';
import { serve } from './server.js';
import { startOrExplain } from './startUp.js';

await startOrExplain(async () => {
  const address = await serve(readConfig(process.env));
  process.stdout.write(`listening on ${address}\n`);
});
