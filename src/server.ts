import type { Server } from 'node:http';
import { fileURLToPath } from 'node:url';
import closeWithGrace from 'close-with-grace';
import type { FastifyBaseLogger } from 'fastify';
import { buildApp } from './app.js';
import { startChild, type Child } from './children.js';
import { BadSetting, type Config } from './config.js';
import { helper } from './helper.js';
import { logging } from './http/logging.js';
import { DatabaseUnusable } from './store/contract/faults.js';
import { isCheckedLater } from './store/engine/sqlite/damage.js';
import { unusable } from './store/engine/sqlite/faults.js';
import { dateIn } from './core/calendar.js';
import { UnsoundFit } from './core/forecast/fit.js';
import { CORES, NO_PROCESS_EXIT_CODE, NoProcess } from './processes.js';
import { metricsOf, serveMetrics, type Metrics } from './metrics.js';
import { keepReserve } from './store/engine/sqlite/files.js';
import { openStore } from './store/open.js';
import type { Store } from './store/contract/store.js';
import { deliverer } from './webhooks/deliverer.js';
import { webhookSender } from './webhooks/sending.js';

/** Everything of a process's own: settings, the log, signals. */

/** How long requests that are under way have to end, and the whole process; together less than the 10 s promised. */
const FINISH_MS = 7_500;
const GRACE_MS = 9_000;
const FILL_RESERVE_EVERY_MS = 600_000;

/**
 * Opens the database and serves it until SIGTERM or SIGINT.
 *
 * @returns the address it listens on
 */
export async function serve(config: Config): Promise<string> {
  const aside = helper({
    onFault: (err) =>
      app.log.error({ err }, 'the forecast worker exited; the main thread computes without it for a minute'),
  });
  const store = openStore({
    file: config.databaseFile,
    timeZone: config.timeZone,
    onWrite: (waitSeconds) => metrics.written(waitSeconds),
    ...(CORES > 1 && { elsewhere: aside.work }),
  });
  const metrics = metricsOf({ databaseFile: config.databaseFile, figures: store.figures });
  const damage = damageLookedFor(config);
  const app = await buildApp({
    store: { ...store, check: () => Promise.all([damage.check(), store.check()]).then(() => undefined) },
    config,
    logger: logging(config.logLevel),
    // What nobody asks for is not counted at every request.
    ...(config.metricsPort !== null && { onAnswer: metrics.answered }),
  }).catch((error: unknown) => {
    throw unusable(config.databaseFile, error);
  });
  const address = await app.listen({ host: config.host, port: config.port });
  const fresh = keepOutlooksFresh(store, app.log);
  damage.look(app.log).catch((error: unknown) => app.log.error({ err: error }, 'integrity check not made'));
  const scraped = await metricsServer(metrics, config, app.log);
  const fits = fitWhenEnoughIsNew(store, config, app.log, metrics.fitted);
  const webhooks = sendWebhooks(store, config, app.log);
  const reserve = keepReserveFilled(config, app.log);
  closeWithGrace({ delay: GRACE_MS, logger: app.log }, async ({ err }) => {
    if (err) app.log.error({ err }, 'closing after a fault');
    // A stalled caller or a long export is cut off, and can tell that its answer is not whole.
    clearInterval(reserve);
    clearInterval(fresh);
    scraped?.close().closeAllConnections();
    setTimeout(() => app.server.closeAllConnections(), FINISH_MS).unref();
    // Whoever else has the database open would keep the log from being carried over when it is closed here.
    await Promise.all([app.close(), webhooks.stop(), fits.stop(), damage.stop()]);
    await aside.stop();
    store.close();
  });
  return address;
}

/** Serves metrics where the settings give them a port; null where they do not. */
async function metricsServer(
  metrics: Metrics,
  { host, metricsPort: port }: Config,
  log: FastifyBaseLogger,
): Promise<Server | null> {
  if (port === null) return null;
  const onFault = (err: unknown): void => log.error({ err }, 'metrics could not be read');
  const server = await serveMetrics(metrics, { host, port, onFault });
  log.info({ address: server.address() }, 'serving metrics');
  return server;
}

const commandFile = (name: string): string =>
  fileURLToPath(new URL(`./commands/${name}.js`, import.meta.url));

/** Looks for damage in a process of its own, where the file was too large for it before it was served. */
function damageLookedFor({ databaseFile }: Config) {
  let found: string | null = null;
  let child: Child | null = null;
  return {
    /** @throws DatabaseUnusable once damage is known of */
    check: async () => {
      if (found !== null) throw new DatabaseUnusable(found);
    },
    look: async (log: FastifyBaseLogger): Promise<void> => {
      if (!isCheckedLater(databaseFile)) return;
      child = startChild(commandFile('readThrough'), [], {
        env: { ...process.env, DATABASE_FILE: databaseFile },
        onFault: (err) =>
          log.error({ err }, 'could not start the integrity check of the database; will try again'),
      });
      const end = await child.ended;
      if (end?.code === 1) found = end.stderr;
      if (found !== null) log.error(found);
      else if (end?.code === 0) log.info('the database has been read through');
    },
    stop: async () => child?.stop(),
  };
}

/** Keeps disk space in reserve for revoking a key, also after it was used for that. */
function keepReserveFilled({ databaseFile }: Config, log: FastifyBaseLogger): NodeJS.Timeout {
  const fill = (): void => {
    try {
      keepReserve(databaseFile);
    } catch (err) {
      log.warn(
        { err },
        'no disk space for the reserve; while it is missing, no key can be revoked on a full disk',
      );
    }
  };
  fill();
  return setInterval(fill, FILL_RESERVE_EVERY_MS).unref();
}

const REFRESH_EVERY_MS = 60_000;

/**
 * Works out anew, beside the serving, what an earlier run or program left behind; again later where that fails, as it
 * does while another process keeps the database locked.
 */
function keepOutlooksFresh(store: Store, log: FastifyBaseLogger): NodeJS.Timeout {
  const refresh = (): void => {
    store.outlooks.refresh().catch((err: unknown) => log.error({ err }, 'outlooks not refreshed'));
  };
  refresh();
  return setInterval(refresh, REFRESH_EVERY_MS).unref();
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
    onFault: (fault) => log.error({ err: fault }, 'webhook delivery loop failed'),
    onAbandoned: ({ endpointId, webhookId, tries }, { status, detail }) =>
      log.warn({ endpointId, webhookId, attempts: tries + 1, status, detail }, 'webhook abandoned'),
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

/**
 * Fits the shop's experience in a process of its own when enough visits have come in since the last fit, and scores past
 * forecasts after it.
 */
function fitWhenEnoughIsNew(
  store: Store,
  { databaseFile, timeZone }: Config,
  log: FastifyBaseLogger,
  onFitted: (seconds: number) => void,
): { stop(): Promise<void> } {
  let running: Child | null = null;
  let isStopped = false;
  /** Visits that the latest fit was tried with: what failed is not tried again before there are some more. */
  let triedWith = 0;
  const run = async (what: 'fit' | 'past'): Promise<void> => {
    const begun = performance.now();
    running = startChild(commandFile('refit'), what === 'past' ? ['--past'] : [], {
      env: { ...process.env, DATABASE_FILE: databaseFile, TIME_ZONE: timeZone },
      onFault: (err) => log.error({ err, what }, 'could not start the fit; will try again'),
    });
    const end = await running.ended;
    running = null;
    if (isStopped || end === null) return;
    const { code, stderr: said } = end;
    if (what === 'fit' && code === 0) onFitted((performance.now() - begun) / 1000);
    if (code === 0) log.info({ code, what }, 'the fit has ended');
    else log.error({ code, what, said }, 'the fit has failed');
    // It lacked processes, not data: the next look starts another.
    if (code === NO_PROCESS_EXIT_CODE) triedWith = 0;
    if (what === 'fit' && code === 0) await run('past');
  };
  const look = async (): Promise<void> => {
    const { known, since } = await store.experience.newVisits();
    const isDue = since >= Math.max(FEWEST_NEW_VISITS, NEW_SHARE * known);
    if (running || isStopped || !isDue || known + since - triedWith < FEWEST_NEW_VISITS) return;
    log.info({ known, since }, 'fitting the experience');
    triedWith = known + since;
    await run('fit');
  };
  const report = (error: unknown): void => log.error({ err: error }, 'no fit could be started');
  // Whether anything is missing of the past is for that process to tell: of a large shop it takes long to look.
  run('past').catch(report);
  const timer = setInterval(() => {
    look().catch(report);
  }, LOOK_EVERY_MS).unref();
  return {
    stop: async () => {
      isStopped = true;
      clearInterval(timer);
      await running?.stop();
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
      [BadSetting, DatabaseUnusable, NoProcess].some((kind) => fault instanceof kind) ||
      // Thrown here or in a copy, which passes on the name alone.
      fault.name === UnsoundFit.name ||
      fault.syscall === 'listen';
    process.stderr.write(`${known ? fault.message : (fault.stack ?? fault.message)}\n`);
    process.exit(fault instanceof NoProcess ? NO_PROCESS_EXIT_CODE : 1);
  }
}
