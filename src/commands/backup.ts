import { readConfig } from '../config.js';
import { startOrExplain } from '../server.js';
import { backUp } from '../store/backup.js';

/** `npm run backup -- FILE`: copies the database beside a running server and verifies the copy. */
await startOrExplain(async () => {
  const [target, ...rest] = process.argv.slice(2);
  if (!target || rest.length > 0) {
    process.stderr.write(
      'Usage:\n  backup -- FILE   copies the database to FILE, which must not be there yet\n',
    );
    process.exit(2);
  }
  const { databaseFile } = readConfig(process.env);
  const counts = await backUp(databaseFile, target);
  const rows = Object.entries(counts).map(([table, count]) => `${count} ${table.replaceAll('_', ' ')}`);
  process.stdout.write(`${target}: whole, with ${rows.join(', ')}\n`);
});
