import { fork, type ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import closeWithGrace from 'close-with-grace';
import type { FastifyBaseLogger } from 'fastify';
import { buildApp } from './app.js';
import { BadSetting, type Config } from './config.js';
import { helper } from './helper.js';
import { logging } from './http/logging.js';
import { DatabaseUnusable, isCheckedLater, unusable } from './store/database.js';
import { dateIn } from './core/calendar.js';
import { UnsoundFit } from './core/forecast/fit.js';
import { CORES } from './processes.js';
import { openStore } from './store/open.js';
import type { Store } from './store/store.js';
import { deliverer } from './webhooks/deliverer.js';
import { webhookSender } from './webhooks/sending.js';

/** Everything of a process's own: settings, the log, signals. */

/** How long requests that are under way have to end, and the whole process; together less than the 10 s promised. */
const FINISH_MS = 7_500;
const GRACE_MS = 9_000;

/**
 * Opens the database and serves it until SIGTERM or SIGINT.
 *
 * @returns the address it listens on
 */
export async function serve(config: Config): Promise<string> {
  const aside = helper({
    onFault: (err) => app.log.error({ err }, 'the helping thread has ended: visits take longer'),
  });
  const store = openStore({
    file: config.databaseFile,
    timeZone: config.timeZone,
    ...(CORES > 1 && { elsewhere: aside.work }),
  });
  const damage = damageLookedFor(config);
  const app = await buildApp({
    store: { ...store, check: async () => void (await Promise.all([damage.check(), store.check()])) },
    config,
    logger: logging(config.logLevel),
  }).catch((error: unknown) => {
    throw unusable(config.databaseFile, error);
  });
  const address = await app.listen({ host: config.host, port: config.port });
  // What an earlier run or program left behind is worked out anew beside the serving.
  store.outlooks.refresh().catch((error: unknown) => app.log.error({ err: error }, 'outlooks not refreshed'));
  damage.look(app.log);
  const fits = fitWhenEnoughIsNew(store, config, app.log);
  const webhooks = sendWebhooks(store, config, app.log);
  closeWithGrace({ delay: GRACE_MS, logger: app.log as never }, async ({ err }) => {
    if (err) app.log.error({ err }, 'closing after a fault');
    fits.stop();
    damage.stop();
    // A stalled caller or a long export is cut off, and can tell that its answer is not whole.
    setTimeout(() => app.server.closeAllConnections(), FINISH_MS).unref();
    await Promise.all([app.close(), webhooks.stop()]);
    await aside.stop();
    store.close();
  });
  return address;
}

/** Looks for damage in a process of its own, where the file was too large for it before it was served. */
function damageLookedFor({ databaseFile }: Config) {
  let found: string | null = null;
  let running: ChildProcess | null = null;
  return {
    /** @throws DatabaseUnusable once damage is known of */
    check: async () => {
      if (found !== null) throw new DatabaseUnusable(found);
    },
    look: (log: FastifyBaseLogger) => {
      if (!isCheckedLater(databaseFile)) return;
      const env = { ...process.env, DATABASE_FILE: databaseFile };
      const command = fileURLToPath(new URL('./commands/readThrough.js', import.meta.url));
      running = fork(command, [], { env, stdio: ['ignore', 'ignore', 'pipe', 'ipc'] });
      let said = '';
      running.stderr!.on('data', (chunk: Buffer) => (said += chunk.toString()));
      running.once('close', (code) => {
        running = null;
        if (code === 1) found = said.trim();
        if (found !== null) log.error(found);
        else if (code === 0) log.info('the database has been read through');
      });
    },
    stop: () => running?.kill(),
  };
}

/** Sends webhooks beside the serving until it is stopped, where this process is to send any. */
function sendWebhooks(
  store: Store,
  { timeZone, sendsWebhooks, webhookAllowPrivate }: Config,
  log: FastifyBaseLogger,
): { stop(): Promise<void> } {
  const send = webhookSender(webhookAllowPrivate);
  const worker = deliverer({
    outbox: store.outbox,
    send,
    today: () => dateIn(new Date(), timeZone),
    onFault: (fault) => log.error({ err: fault }, 'webhooks could not be seen to'),
  });
  if (sendsWebhooks) worker.start();
  return {
    stop: async () => {
      await worker.stop();
      await send.close();
    },
  };
}

/** How often to look whether a fit is due, and how many visits make it so: these, or this share of those known. */
const LOOK_EVERY_MS = 60_000;
const FEWEST_NEW_VISITS = 50;
const NEW_SHARE = 0.2;
/** Characters kept of what a fit that failed had to say. */
const LONGEST_SAID = 2000;

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
  /** Visits that the latest fit was tried with: what failed is not tried again before there are some more. */
  let triedWith = 0;
  const start = (what: 'fit' | 'past'): void => {
    const env = { ...process.env, DATABASE_FILE: databaseFile, TIME_ZONE: timeZone };
    const command = fileURLToPath(new URL('./commands/refit.js', import.meta.url));
    const fitting = fork(command, what === 'past' ? ['--past'] : [], {
      env,
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    });
    running = fitting;
    let said = '';
    fitting.stderr!.on('data', (chunk) => (said = (said + String(chunk)).slice(-LONGEST_SAID)));
    fitting.once('close', (code) => {
      if (code === 0 || stopped) log.info({ code, what }, 'the fit has ended');
      else log.error({ code, what, said: said.trim() }, 'the fit has failed');
      running = null;
      if (what === 'fit' && code === 0 && !stopped) start('past');
    });
  };
  const look = async (): Promise<void> => {
    const { known, since } = await store.experience.newVisits();
    const isDue = since >= Math.max(FEWEST_NEW_VISITS, NEW_SHARE * known);
    if (running || !isDue || known + since - triedWith < FEWEST_NEW_VISITS) return;
    log.info({ known, since }, 'fitting the experience');
    triedWith = known + since;
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
      [BadSetting, DatabaseUnusable, UnsoundFit].some((kind) => fault instanceof kind) ||
      fault.syscall === 'listen';
    process.stderr.write(`${known ? fault.message : (fault.stack ?? fault.message)}\n`);
    process.exit(1);
  }
}
