import { readConfig } from './config.js';
import { serve, startOrExplain } from './server.js';

await startOrExplain(async () => {
  const address = await serve(readConfig(process.env));
  process.stdout.write(`listening on ${address}\n`);
});
