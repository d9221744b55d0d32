import { spawn } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import process from 'node:process';
import { setTimeout as sleep } from 'node:timers/promises';
import BetterSqlite from 'better-sqlite3';

/**
 * Loaded into the service and everything it starts: a fit begins with a worker process that has the database open and
 * continues for a while after the fit was ended, like one in the middle of a job.
 */
const { DATABASE_FILE, LINGERING_MARK, LINGERING_COPY } = process.env;
const LINGERS_MS = 1500;

if (LINGERING_COPY) {
  process.on('SIGTERM', () => undefined);
  const connection = new BetterSqlite(DATABASE_FILE);
  connection.prepare('select count(*) from visits').get();
  writeFileSync(LINGERING_MARK, 'open');
  const parent = process.ppid;
  for (;;) {
    await sleep(20);
    if (process.ppid !== parent) break;
  }
  await sleep(LINGERS_MS);
  process.exit();
} else if (process.argv[1]?.endsWith('refit.js')) {
  spawn(process.execPath, ['-e', ''], {
    stdio: ['ignore', 'inherit', 'inherit'],
    env: { ...process.env, LINGERING_COPY: '1' },
  });
  // Until it is ended.
  await sleep(600_000);
}
