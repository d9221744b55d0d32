import type { Server } from 'node:http';
import closeWithGrace from 'close-with-grace';
import type { FastifyBaseLogger } from 'fastify';
import { commandFile, startChild, type Child } from './children.js';
import type { Config } from './config.js';
import { helper } from './helper.js';
import { dateIn } from './core/calendar.js';
import { CORES, TRY_AGAIN_EXIT_CODE } from './processes.js';
import type { Metrics, MetricsSources } from './metrics.js';
import { databaseFileKeeper } from './databaseFile.js';
import { openConfigured } from './openConfigured.js';
import type { Store } from './store/contract/store.js';
import { deliverer } from './webhooks/deliverer.js';
import { webhookSender } from './webhooks/sending.js';

/** Process-level concerns: settings, the log, signals. */

/** Time for requests in flight to finish, and for the whole process to end; less than the 10 s promised. */
const FINISH_MS = 7_500;
const GRACE_MS = 9_000;

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
  const store = await openConfigured(config, {
    onWrite: (waitSeconds) => metrics?.written(waitSeconds),
    ...(CORES > 1 && { elsewhere: aside.work }),
  });
  const file = config.databaseUrl === null ? databaseFileKeeper(config.databaseFile) : null;
  const metrics = await metricsFor(config, { file, figures: store.figures });
  // Loading this takes half of the startup time, so check first that the database is usable.
  const [{ buildApp }, { logging }] = await Promise.all([import('./app.js'), import('./http/logging.js')]);
  const app = await buildApp({
    store: { ...store, check: () => Promise.all([file?.check(), store.check()]).then(() => undefined) },
    config,
    logger: logging(config.logLevel),
    ...(metrics && { onAnswer: metrics.answered }),
  }).catch((error: unknown) => {
    throw file ? file.upkeep.asUnusable(error) : error;
  });
  const address = await app.listen({ host: config.host, port: config.port });
  const fresh = keepOutlooksFresh(store, app.log);
  const abandoned = failAbandonedImports(store, app.log);
  file?.start(app.log);
  const scraped = await metrics?.serve(app.log);
  const fits = fitWhenEnoughIsNew(store, config, app.log, (seconds) => metrics?.fitted(seconds));
  const webhooks = sendWebhooks(store, config, app.log);
  closeWithGrace({ delay: GRACE_MS, logger: app.log }, async ({ err }) => {
    if (err) app.log.error({ err }, 'closing after an unexpected error');
    clearInterval(fresh);
    clearInterval(abandoned);
    scraped?.close().closeAllConnections();
    // Cuts off stalled callers and long exports; the callers can tell that their answer is incomplete.
    setTimeout(() => app.server.closeAllConnections(), FINISH_MS).unref();
    // Wait for all other users of the database: an open connection would prevent the checkpoint on closing it.
    await Promise.all([app.close(), webhooks.stop(), fits.stop(), file?.stop()]);
    await aside.stop();
    await store.close();
  });
  return address;
}

/** Metrics and the server that serves them, if a port is configured; otherwise loads and counts nothing. */
async function metricsFor(
  { host, metricsPort: port }: Config,
  sources: MetricsSources,
): Promise<(Metrics & { serve(log: FastifyBaseLogger): Promise<Server> }) | null> {
  if (port === null) return null;
  const { metricsOf, serveMetrics } = await import('./metrics.js');
  const metrics = metricsOf(sources);
  const serve = async (log: FastifyBaseLogger): Promise<Server> => {
    const onFault = (err: unknown): void => log.error({ err }, 'metrics could not be read');
    const server = await serveMetrics(metrics, { host, port, onFault });
    log.info({ address: server.address() }, 'serving metrics');
    return server;
  };
  return { ...metrics, serve };
}

const REFRESH_EVERY_MS = 60_000;

/**
 * Recomputes in the background the outlooks that an earlier run or version left stale. Retries after a failure, for
 * example while another process locks the database.
 */
function keepOutlooksFresh(store: Store, log: FastifyBaseLogger): NodeJS.Timeout {
  const refresh = (): void => {
    store.outlooks
      .refresh()
      .catch((err: unknown) => log.error({ err }, 'could not recompute the outlooks; will try again'));
  };
  refresh();
  return setInterval(refresh, REFRESH_EVERY_MS).unref();
}

const ABANDONED_EVERY_MS = 10_000;

/** Marks the imports of servers that have died as failed; startup does so for those of an earlier run. */
function failAbandonedImports(store: Store, log: FastifyBaseLogger): NodeJS.Timeout {
  const recover = (): void => {
    store.imports
      .recover()
      .catch((err: unknown) => log.error({ err }, 'could not look for abandoned imports; will try again'));
  };
  return setInterval(recover, ABANDONED_EVERY_MS).unref();
}

/** Sends webhooks in the background until stopped, if this process is configured to. */
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

/**
 * How often to check whether a fit is due, and how many new visits make it due: this number, or this share of the known
 * ones if that is more.
 */
const CHECK_INTERVAL_MS = 60_000;
/** Leaves the cores to the first requests after startup. */
const SCORE_DELAY_MS = 3_000;
const MIN_NEW_VISITS = 50;
const NEW_SHARE = 0.2;

/** Fits the shop's experience in a child process when there are enough new visits, then scores past forecasts. */
function fitWhenEnoughIsNew(
  store: Store,
  { databaseFile, timeZone }: Config,
  log: FastifyBaseLogger,
  onFitted: (seconds: number) => void,
): { stop(): Promise<void> } {
  let running: Child | null = null;
  let isStopped = false;
  /** Visits known at the latest fit attempt; after a failure, the next attempt waits for more. */
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
    else if (code === TRY_AGAIN_EXIT_CODE) log.info({ what, said }, 'the fit will be tried again');
    else log.error({ code, what, said }, 'the fit has failed');
    // The fit lacked processes, not data, or another process was fitting.
    if (code === TRY_AGAIN_EXIT_CODE) triedWith = 0;
    if (what === 'fit' && code === 0) await run('past');
  };
  const look = async (): Promise<void> => {
    const { known, since } = await store.experience.newVisits();
    const isDue = since >= Math.max(MIN_NEW_VISITS, NEW_SHARE * known);
    if (running || isStopped || !isDue || known + since - triedWith < MIN_NEW_VISITS) return;
    log.info({ known, since }, 'fitting the experience');
    triedWith = known + since;
    await run('fit');
  };
  const report = (error: unknown): void => log.error({ err: error }, 'could not start a fit');
  // Always start the process, which finds out what past forecasts are missing: in a large shop the check takes long.
  const lookBack = setTimeout(() => {
    run('past').catch(report);
  }, SCORE_DELAY_MS).unref();
  const timer = setInterval(() => {
    look().catch(report);
  }, CHECK_INTERVAL_MS).unref();
  return {
    stop: async () => {
      isStopped = true;
      clearTimeout(lookBack);
      clearInterval(timer);
      await running?.stop();
    },
  };
}
