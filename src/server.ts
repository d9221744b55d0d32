import closeWithGrace from 'close-with-grace';
import { buildApp } from './app.js';
import { BadSetting, type Config } from './config.js';
import { DatabaseUnusable } from './store/database.js';
import { openStore } from './store/open.js';

/** Everything of a process's own: settings, the log, signals. */

const GRACE_MS = 9_000;

/**
 * Opens the database and serves it until SIGTERM or SIGINT.
 *
 * @returns the address it listens on
 */
export async function serve(config: Config): Promise<string> {
  const store = openStore({ file: config.databaseFile, timeZone: config.timeZone });
  const app = await buildApp({
    store,
    config,
    logger: { level: config.logLevel, redact: ['req.headers.authorization', 'req.headers.cookie'] },
  });
  closeWithGrace({ delay: GRACE_MS, logger: app.log as never }, async ({ err }) => {
    if (err) app.log.error({ err }, 'closing after a fault');
    await app.close();
    store.close();
  });
  return app.listen({ host: config.host, port: config.port });
}

/** Runs a start and ends the process with one clear line where it cannot be. */
export async function startOrExplain(start: () => Promise<void>): Promise<void> {
  try {
    await start();
  } catch (error) {
    const fault = error as NodeJS.ErrnoException;
    const known =
      fault instanceof BadSetting || fault instanceof DatabaseUnusable || fault.syscall === 'listen';
    process.stderr.write(`${known ? fault.message : (fault.stack ?? fault.message)}\n`);
    process.exit(1);
  }
}
