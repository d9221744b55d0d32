import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startService, type Service } from '../support/service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

describe('the health endpoints', () => {
  it('the health endpoints report a running service as alive and ready', async () => {
    for (const path of ['/health/live', '/health/ready']) {
      const response = await service.anonymous('get', path);
      expect([response.status, response.body]).toEqual([200, { status: 'ok' }]);
    }
  });

  it('the health endpoints report a service with an unreadable database as alive but not ready', async () => {
    const broken = await startService();
    await broken.store.close();
    const ready = await broken.anonymous('get', '/health/ready');
    const live = await broken.anonymous('get', '/health/live');
    await broken.app.close();
    expect(ready.status).toBe(503);
    expect(live.status).toBe(200);
  });
});

describe('a keep-alive connection', () => {
  it('a keep-alive connection stays open longer than the 60 seconds of common proxies', async () => {
    const { port } = service.app.server.address() as AddressInfo;
    const { headers } = await fetch(`http://127.0.0.1:${port}/health/live`);
    const seconds = Number(/timeout=(\d+)/.exec(headers.get('keep-alive') ?? '')?.[1]);
    expect(seconds).toBeGreaterThan(60);
  });
});

describe('every answer', () => {
  it.each([
    ['a resource', '/v1/gauges'],
    ['a problem', '/v1/nothing'],
    ['health', '/health/live'],
    ['the document', '/openapi.json'],
    ['the reference', '/docs/'],
  ])('every answer has the security headers: %s', async (_name, path) => {
    const { headers } = await service.unchecked
      .get(path)
      .set('Authorization', `Bearer ${service.keys.owner}`);
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['x-frame-options']).toBe('SAMEORIGIN');
    expect(headers['referrer-policy']).toBe('no-referrer');
    expect(headers['strict-transport-security']).toMatch(/^max-age=\d+/);
    expect(headers['cross-origin-resource-policy']).toBe('same-origin');
    expect(headers['x-powered-by']).toBeUndefined();
    expect(headers['server']).toBeUndefined();
    expect(headers['access-control-allow-origin']).toBeUndefined();
  });

  it('every answer has a request id of its own', async () => {
    const ids = await Promise.all(
      [1, 2].map(async () => (await service.anonymous('get', '/health/live')).headers['request-id']),
    );
    expect(ids[0]).toMatch(/^[0-9a-f-]{36}$/);
    expect(ids[0]).not.toBe(ids[1]);
  });

  it('no shared cache may store an answer under /v1, problems included', async () => {
    for (const path of ['/v1/vehicles', '/v1/vehicles/nobody', '/v1/nothing']) {
      const { headers } = await service.as('owner', 'get', path);
      expect(headers['cache-control']).toMatch(/private|no-store/);
    }
  });
});

describe('the API reference', () => {
  it('the API reference runs only the service’s own scripts', async () => {
    const { headers } = await service.unchecked.get('/docs/');
    expect(headers['content-security-policy']).toMatch(/script-src 'self'/);
    expect(headers['content-security-policy']).not.toMatch(/script-src [^;]*'unsafe-(inline|eval)'/);
  });
});

describe('the rate limit', () => {
  let limited: Service;
  beforeAll(async () => {
    limited = await startService({ rateLimitPerMinute: 5 });
  });
  afterAll(() => limited.close());

  it('each key has its own rate limit: one request more gets 429, and another key is unaffected', async () => {
    const ask = () => limited.as('technician', 'get', '/v1/gauges');
    for (let index = 0; index < 5; index++) expect((await ask()).status).toBe(200);
    const over = await ask();
    expect([over.status, over.type, over.body.code]).toEqual([
      429,
      'application/problem+json',
      'too-many-requests',
    ]);
    expect(Number(over.headers['retry-after'])).toBeGreaterThan(0);
    expect((await limited.as('owner', 'get', '/v1/gauges')).status).toBe(200);
  });

  it('requests without a key do not count towards the rate limit', async () => {
    for (let index = 0; index < 8; index++)
      expect((await limited.anonymous('get', '/v1/gauges')).status).toBe(401);
    expect((await limited.as('front-desk', 'get', '/v1/gauges')).status).toBe(200);
  });

  it('the health endpoints are exempt from the rate limit', async () => {
    for (let index = 0; index < 8; index++)
      expect((await limited.anonymous('get', '/health/live')).status).toBe(200);
  });

  it('a 429 is not stored under an Idempotency-Key', async () => {
    const post = () =>
      limited
        .as('owner', 'post', '/v1/vehicles')
        .set('Idempotency-Key', 'limited')
        .send({ externalId: 'l-1', axles: { front: {} } });
    const statuses: number[] = [];
    for (let index = 0; index < 7; index++) {
      const response = await post();
      statuses.push(response.status);
    }
    expect(statuses[0]).toBe(201);
    expect(statuses.at(-1)).toBe(429);
    expect(new Set(statuses)).toEqual(new Set([201, 429]));
  });
});
