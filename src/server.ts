import { fork, type ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import closeWithGrace from 'close-with-grace';
import type { FastifyBaseLogger } from 'fastify';
import { buildApp } from './app.js';
import { BadSetting, type Config } from './config.js';
import { DatabaseUnusable } from './store/database.js';
import { openStore } from './store/open.js';
import type { Store } from './store/store.js';

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
  const address = await app.listen({ host: config.host, port: config.port });
  // What an earlier run or program left behind is worked out anew beside the serving.
  store.outlooks.refresh().catch((error: unknown) => app.log.error({ err: error }, 'outlooks not refreshed'));
  const fits = fitWhenEnoughIsNew(store, config, app.log);
  closeWithGrace({ delay: GRACE_MS, logger: app.log as never }, async ({ err }) => {
    if (err) app.log.error({ err }, 'closing after a fault');
    fits.stop();
    await app.close();
    store.close();
  });
  return address;
}

/** How often to look whether a fit is due, and how many visits make it so: these, or this share of those known. */
const LOOK_EVERY_MS = 60_000;
const FEWEST_NEW_VISITS = 50;
const NEW_SHARE = 0.2;

/**
 * Fits the shop's experience in a process of its own when enough visits have come in since the last fit, and scores past
 * forecasts after it.
 */
function fitWhenEnoughIsNew(
  store: Store,
  { databaseFile, timeZone }: Config,
  log: FastifyBaseLogger,
): { stop(): void } {
  let running: ChildProcess | null = null;
  let stopped = false;
  const start = (what: 'fit' | 'past'): void => {
    const env = { ...process.env, DATABASE_FILE: databaseFile, TIME_ZONE: timeZone };
    const command = fileURLToPath(new URL('./commands/refit.js', import.meta.url));
    running = fork(command, what === 'past' ? ['--past'] : [], { env, stdio: 'ignore' });
    running.once('exit', (code) => {
      log.info({ code, what }, 'the fit has ended');
      running = null;
      if (what === 'fit' && code === 0 && !stopped) start('past');
    });
  };
  const look = async (): Promise<void> => {
    const { known, since } = await store.experience.newVisits();
    if (running || since < Math.max(FEWEST_NEW_VISITS, NEW_SHARE * known)) return;
    log.info({ known, since }, 'fitting the experience');
    start('fit');
  };
  const report = (error: unknown): void => log.error({ err: error }, 'no fit could be started');
  // Whether anything is missing of the past is for that process to tell: of a large shop it takes long to look.
  start('past');
  const timer = setInterval(() => {
    look().catch(report);
  }, LOOK_EVERY_MS).unref();
  return {
    stop: () => {
      stopped = true;
      clearInterval(timer);
      running?.kill();
    },
  };
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
