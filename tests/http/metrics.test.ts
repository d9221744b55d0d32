import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writeFileSync } from 'node:fs';
import request from 'supertest';
import { buildApp } from '../../src/app.js';
import { metricsOf, serveMetrics, type Metrics } from '../../src/metrics.js';
import { openStore } from '../../src/store/open.js';
import { upkeepOf } from '../../src/store/upkeep.js';
import { vehicleBody } from '../support/bodies.js';
import { startService, type Service } from '../support/service.js';

/** A second process on the same database, with its metrics served. */
let service: Service;
let metrics: Metrics;
let scraped: Awaited<ReturnType<typeof serveMetrics>>;
let store: Awaited<ReturnType<typeof openStore>>;
let app: Awaited<ReturnType<typeof buildApp>>;
beforeAll(async () => {
  service = await startService();
  store = await openStore({
    file: service.file,
    timeZone: 'UTC',
    clock: service.clock,
    onWrite: (seconds) => metrics.written(seconds),
  });
  metrics = metricsOf({
    file: { path: service.file, upkeep: upkeepOf(service.file) },
    figures: store.figures,
  });
  app = await buildApp({
    store,
    config: { timeZone: 'UTC', rateLimitPerMinute: 0 },
    clock: service.clock,
    onAnswer: metrics.answered,
  });
  await app.ready();
  scraped = await serveMetrics(metrics, { host: '127.0.0.1', port: 0, onFault: () => undefined });
});
afterAll(async () => {
  scraped.close();
  await app.close();
  await store.close();
  await service.close();
});

const scrape = async (): Promise<Map<string, number>> => {
  const { port } = scraped.address() as AddressInfo;
  const response = await fetch(`http://127.0.0.1:${port}/metrics`);
  expect(response.headers.get('content-type')).toMatch(/^application\/openmetrics-text; version=1\.0\.0/);
  const text = await response.text();
  expect(text.endsWith('# EOF\n')).toBe(true);
  return new Map(
    text
      .split('\n')
      .filter((line) => line !== '' && !line.startsWith('#'))
      .map((line) => [line.slice(0, line.lastIndexOf(' ')), Number(line.slice(line.lastIndexOf(' ') + 1))]),
  );
};
const ask = (path: string) =>
  request(app.server).get(path).set('Authorization', `Bearer ${service.keys.owner}`);

describe('GET /metrics', () => {
  it('GET /metrics counts requests by route and status with their latency, and no id becomes a label', async () => {
    await ask('/v1/vehicles');
    await ask('/v1/vehicles/nobody');
    await ask('/v1/vehicles/somebody-else');
    const values = await scrape();
    const count = (route: string, status: number): number | undefined =>
      values.get(
        `brake_wear_http_request_duration_seconds_count{method="GET",route="${route}",status="${status}"}`,
      );
    expect(count('/v1/vehicles', 200)).toBe(1);
    expect(count('/v1/vehicles/:vehicleId', 404)).toBe(2);
    expect([...values.keys()].join()).not.toMatch(/nobody|somebody/);
    const buckets = [...values.keys()].filter((name) =>
      name.startsWith('brake_wear_http_request_duration_seconds_bucket{le="0.25",method="GET"'),
    );
    expect(buckets.length).toBeGreaterThan(0);
  });

  it('GET /metrics counts writes and the time they waited', async () => {
    const before = (await scrape()).get('brake_wear_writes_total') ?? 0;
    await request(app.server)
      .post('/v1/vehicles')
      .set('Authorization', `Bearer ${service.keys.owner}`)
      .send(vehicleBody());
    const values = await scrape();
    expect(values.get('brake_wear_writes_total')).toBe(before + 1);
    expect(values.get('brake_wear_write_wait_seconds_count')).toBe(before + 1);
  });

  it('GET /metrics reports the files, the disk, the outlooks, webhooks and keys', async () => {
    const values = await scrape();
    expect(values.get('brake_wear_database_bytes')).toBeGreaterThan(0);
    expect(values.get('brake_wear_wal_bytes')).toBeGreaterThan(0);
    expect(values.get('brake_wear_disk_free_bytes')).toBeGreaterThan(0);
    for (const name of ['stale_outlooks', 'webhooks_pending', 'webhooks_abandoned', 'unused_keys'])
      expect([name, values.get(`brake_wear_${name}`)]).toEqual([name, 0]);
    for (const name of [
      'last_fit_timestamp_seconds',
      'last_fit_duration_seconds',
      'last_verified_backup_timestamp_seconds',
    ])
      expect(values.has(`brake_wear_${name}`)).toBe(false);
  });

  it('GET /metrics reports the last backup, the last fit and unused keys', async () => {
    const begun = Date.now() / 1000;
    await upkeepOf(service.file).backUp(`${service.file}.copy`);
    metrics.fitted(12.5);
    service.setClock('2026-07-01T12:00:00Z');
    await ask('/v1/gauges');
    const values = await scrape();
    service.setClock('2026-03-10T12:00:00Z');
    expect(values.get('brake_wear_last_verified_backup_timestamp_seconds')).toBeGreaterThanOrEqual(begun - 1);
    expect(values.get('brake_wear_last_fit_duration_seconds')).toBe(12.5);
    // The owner's key was used just now; the other three were last used in March.
    expect(values.get('brake_wear_unused_keys')).toBe(3);
    writeFileSync(`${service.file}.last-backup`, 'not an instant');
    expect((await scrape()).has('brake_wear_last_verified_backup_timestamp_seconds')).toBe(false);
  });

  it('the port of the metrics serves nothing else', async () => {
    const { port } = scraped.address() as AddressInfo;
    const status = async (path: string, method = 'GET') =>
      (await fetch(`http://127.0.0.1:${port}${path}`, { method })).status;
    expect(await status('/')).toBe(404);
    expect(await status('/v1/vehicles')).toBe(404);
    expect(await status('/metrics', 'POST')).toBe(405);
    expect((await request(app.server).get('/metrics')).status).toBe(404);
  });
});
