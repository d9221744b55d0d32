import { statSync } from 'node:fs';
import { statfs } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import { dirname } from 'node:path';
import {
  collectDefaultMetrics,
  Counter,
  Gauge,
  Histogram,
  Registry,
  type OpenMetricsContentType,
} from 'prom-client';
import type { Figures } from './store/contract/figures.js';
import type { Upkeep } from './store/upkeep.js';

/**
 * Metrics for operators in the OpenMetrics text format; some are counted as events happen, others read at each scrape.
 */

/** One answered request, for counting. */
export interface Answered {
  method: string;
  /** The route's pattern from the OpenAPI document, so that ids do not become labels. */
  route: string;
  status: number;
  seconds: number;
}

const LATENCY_BUCKETS_SECONDS = [0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10, 60];
const PREFIX = 'brake_wear_';

export interface MetricsSources {
  /** The database file and its upkeep; null on a database server, which has its own metrics. */
  file: { path: string; upkeep: Pick<Upkeep, 'lastBackupAt'> } | null;
  figures: () => Promise<Figures>;
}

export function metricsOf({ file, figures }: MetricsSources) {
  const registry = new Registry<OpenMetricsContentType>();
  registry.setContentType(Registry.OPENMETRICS_CONTENT_TYPE);
  const registers = [registry];
  collectDefaultMetrics({ register: registry });
  const requests = new Histogram({
    name: `${PREFIX}http_request_duration_seconds`,
    help: 'Time from the start of a request to the end of its answer, by route and status.',
    labelNames: ['method', 'route', 'status'] as const,
    buckets: LATENCY_BUCKETS_SECONDS,
    registers,
  });
  const writes = new Counter({ name: `${PREFIX}writes`, help: 'Write transactions committed.', registers });
  const writeWait = new Histogram({
    name: `${PREFIX}write_wait_seconds`,
    help: 'Time that a write transaction waited before it could start.',
    buckets: LATENCY_BUCKETS_SECONDS,
    registers,
  });
  const fitDuration = new Gauge({
    name: `${PREFIX}last_fit_duration_seconds`,
    help: 'Duration of the last fit that this process started.',
    registers,
  });
  // A gauge starts at 0, but before the first fit there is no duration.
  fitDuration.remove({});

  /** A gauge that is read at every scrape; null omits it. */
  function scrapedGauge(
    name: string,
    help: string,
    read: () => number | null | Promise<number | null>,
  ): void {
    new Gauge({
      name: `${PREFIX}${name}`,
      help,
      registers,
      async collect() {
        const value = await read();
        if (value === null) this.remove({});
        else this.set(value);
      },
    });
  }

  if (file) fileMetrics(file);

  function fileMetrics({ path, upkeep }: NonNullable<MetricsSources['file']>): void {
    scrapedGauge('database_bytes', 'Size of the database file.', () => sizeOf(path));
    scrapedGauge('wal_bytes', 'Size of the write-ahead log.', () => sizeOf(`${path}-wal`));
    scrapedGauge('disk_free_bytes', 'Free space on the disk that holds the database.', async () => {
      const { bavail, bsize } = await statfs(dirname(path));
      return bavail * bsize;
    });
    scrapedGauge('last_verified_backup_timestamp_seconds', 'Time of the last verified backup.', () =>
      secondsOf(upkeep.lastBackupAt()),
    );
  }

  scrapedGauge(
    'stale_outlooks',
    'Outlooks waiting to be recomputed.',
    async () => (await figures()).staleOutlooks,
  );
  scrapedGauge('last_fit_timestamp_seconds', 'Time of the last fit.', async () =>
    secondsOf((await figures()).lastFitAt),
  );
  scrapedGauge(
    'webhooks_pending',
    'Pending webhook deliveries.',
    async () => (await figures()).webhooksPending,
  );
  scrapedGauge(
    'webhooks_abandoned',
    'Webhook deliveries abandoned within the last 90 days.',
    async () => (await figures()).webhooksAbandoned,
  );
  scrapedGauge(
    'unused_keys',
    'Active API keys that were not used for 90 days.',
    async () => (await figures()).unusedKeys,
  );

  return {
    answered({ method, route, status, seconds }: Answered): void {
      requests.observe({ method, route, status }, seconds);
    },
    written(waitSeconds: number): void {
      writes.inc();
      writeWait.observe(waitSeconds);
    },
    fitted: (seconds: number): void => fitDuration.set(seconds),
    text: (): Promise<string> => registry.metrics(),
    contentType: registry.contentType,
  };
}

export type Metrics = ReturnType<typeof metricsOf>;

/** Serves only `GET /metrics`, without a key; resolves once it is listening. */
export async function serveMetrics(
  metrics: Pick<Metrics, 'text' | 'contentType'>,
  { host, port, onFault }: { host: string; port: number; onFault: (fault: unknown) => void },
): Promise<Server> {
  const server = createServer((request, response) => {
    if (request.url?.split('?')[0] !== '/metrics') return void response.writeHead(404).end();
    if (request.method !== 'GET' && request.method !== 'HEAD')
      return void response.writeHead(405, { allow: 'GET, HEAD' }).end();
    metrics.text().then(
      (text) => response.writeHead(200, { 'content-type': metrics.contentType }).end(text),
      (fault: unknown) => {
        onFault(fault);
        response.writeHead(500).end();
      },
    );
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject).listen(port, host, resolve);
  });
  return server;
}

function sizeOf(file: string): number {
  return statSync(file, { throwIfNoEntry: false })?.size ?? 0;
}

const secondsOf = (instant: string | null): number | null =>
  instant === null ? null : Date.parse(instant) / 1000;
