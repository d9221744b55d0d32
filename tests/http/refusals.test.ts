import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sealCursor, unsealCursor } from '../../src/http/sealing.js';
import { EXAMPLE_GAUGE } from '../../src/core/vocabulary/settings.js';
import { fourPads, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { read, recordHistory, recordVehicle, recordVisit, type Recorded } from '../support/recording.js';
import type { Operation } from '../support/openapi.js';
import { startService, type Method, type Service } from '../support/service.js';

let service: Service;
let vehicle: Recorded;
let visit: Recorded;
beforeAll(async () => {
  service = await startService();
  vehicle = await recordVehicle(service, vehicleBody());
  visit = await recordVisit(service, vehicle.id, visitBody('2026-03-01', 60_000));
});
afterAll(() => service.close());

const as = (method: Method, path: string) => service.as('technician', method, path);
const MERGE_PATCH = 'application/merge-patch+json';

describe('a method that a path does not support', () => {
  it.each<[Method, string, string]>([
    ['put', '/v1/vehicles', 'GET, HEAD, POST'],
    ['delete', '/v1/vehicles', 'GET, HEAD, POST'],
    ['post', '/v1/vehicles/{id}', 'GET, HEAD, PATCH'],
    ['delete', '/v1/vehicles/{id}', 'GET, HEAD, PATCH'],
    ['patch', '/v1/visits/x', 'GET, HEAD'],
    ['get', '/v1/visits/x/entries', 'POST'],
    ['post', '/v1/vehicles/{id}/wear', 'GET, HEAD'],
    ['post', '/v1/reports/due-soon', 'GET, HEAD'],
    ['delete', '/v1/gauges', 'GET, HEAD'],
  ])('a method that a path does not support gets 405 with Allow: %s %s', async (method, path, allow) => {
    const address = path.replace('{id}', vehicle.id);
    for (const role of ['technician', 'fleet-manager', 'owner'] as const) {
      const response = await service.as(role, method, address);
      expect([response.status, response.body.code]).toEqual([405, 'method-not-allowed']);
      expect(response.headers.allow!.split(', ').sort().join(', ')).toBe(allow);
    }
    expect((await service.anonymous(method, address)).status).toBe(401);
  });

  it('a method that a path does not support gets 405 outside /v1 as well', async () => {
    for (const path of ['/health/live', '/health/ready', '/openapi.json']) {
      const response = await service.anonymous('post', path);
      expect([path, response.status]).toEqual([path, 405]);
      expect(response.headers.allow).toContain('GET');
    }
  });
});

describe('a body of the wrong content type', () => {
  it('plain JSON gets 415 for a merge patch', async () => {
    const response = await as('patch', `/v1/vehicles/${vehicle.id}`)
      .set('If-Match', '*')
      .send({ model: 'x' });
    expect([response.status, response.body.code]).toEqual([415, 'media-type-not-supported']);
    expect((await as('get', `/v1/vehicles/${vehicle.id}`)).body.version).toBe(vehicle.version);
  });
  it.each([MERGE_PATCH, 'text/plain'])('the type %s gets 415 for JSON', async (type) => {
    const before = await service.rowCounts();
    const response = await as('post', '/v1/vehicles')
      .set('Content-Type', type)
      .send(JSON.stringify(vehicleBody()));
    expect([response.status, response.body.code]).toEqual([415, 'media-type-not-supported']);
    expect(await service.rowCounts()).toEqual(before);
  });
});

describe('an unknown parameter', () => {
  it('every operation refuses an unknown parameter', async () => {
    const before = await service.rowCounts();
    for (const [path, methods] of Object.entries(service.contract.document.paths)) {
      if (!path.startsWith('/v1/')) continue;
      for (const [method, operation] of Object.entries(methods) as [Method, Operation][]) {
        const address = path
          .replace('{vehicleId}', vehicle.id)
          .replace('{visitId}', visit.id)
          .replace(/\{[^}]+\}/g, 'x');
        const bodies: Record<string, Body> = {
          '/v1/vehicles': vehicleBody(),
          '/v1/vehicles/{vehicleId}/visits': visitBody('2026-03-02', null),
          '/v1/visits/{visitId}/entries': { work: [{ kind: 'fluid-changed' }] },
          '/v1/gauges/{name}': EXAMPLE_GAUGE,
          '/v1/policy': {},
          '/v1/calendar-subscriptions': {},
          '/v1/visits/{visitId}/corrections': { reason: 'typed wrong', changes: { notes: 'x' } },
          '/v1/vehicles/{vehicleId}/merge': { from: 'x', reason: 'recorded twice' },
          '/v1/webhook-endpoints': { url: 'https://desk.example.com/hooks' },
          '/v1/webhook-endpoints/{endpointId}/rotate-secret': {},
        };
        const query: Record<string, string> = { '/v1/vehicles/{vehicleId}/wear.svg': 'axle=front&' };
        const request = service
          .as('owner', method, `${address}?${query[path] ?? ''}unknown=1`)
          .set('If-Match', '*');
        const { status, body } =
          operation.requestBody === undefined
            ? await request
            : await request
                .set('Content-Type', Object.keys(operation.requestBody.content)[0]!)
                .send(JSON.stringify(bodies[path] ?? { model: 'x' }));
        const name = `${method} ${path}`;
        expect([name, status]).toEqual([name, 400]);
        expect(body.errors).toEqual([{ parameter: 'unknown', detail: 'unknown parameter' }]);
      }
    }
    expect(await service.rowCounts()).toEqual(before);
  });
});

describe('a page size beyond the maximum', () => {
  it('every list refuses a page size beyond the maximum', async () => {
    const lists = Object.entries(service.contract.document.paths).filter(([, { get }]) =>
      get?.parameters?.some(({ name }) => name === 'limit'),
    );
    expect(lists.length).toBeGreaterThanOrEqual(8);
    for (const [path] of lists) {
      const address = path.replace('{vehicleId}', vehicle.id).replace('{visitId}', visit.id);
      for (const limit of ['0', '201', '999', '-1', '1e2']) {
        const { status, body } = await service.as('owner', 'get', `${address}?limit=${limit}`);
        expect([path, limit, status, body.errors?.[0].parameter]).toEqual([path, limit, 400, 'limit']);
      }
      expect((await service.as('owner', 'get', `${address}?limit=200`)).status).toBe(200);
    }
  });
});

describe('a body nested a hundred thousand deep', () => {
  const deep = `${'{"a":'.repeat(100_000)}1${'}'.repeat(100_000)}`;
  it('a body nested too deep is refused as a merge patch', async () => {
    const { status } = await as('patch', `/v1/vehicles/${vehicle.id}`)
      .set({ 'If-Match': '*', 'Content-Type': MERGE_PATCH })
      .send(deep);
    expect([400, 422]).toContain(status);
  });
  it('a body nested too deep is refused under an Idempotency-Key', async () => {
    const { status } = await as('post', '/v1/vehicles')
      .set('Idempotency-Key', 'deep')
      .type('json')
      .send(deep);
    expect([400, 422]).toContain(status);
  });
});

describe('a cursor that was tampered with', () => {
  it.each([
    '/v1/vehicles?',
    '/v1/reports/due-soon?withinDays=3650&',
    '/v1/reports/unassessed?',
    '/v1/reports/due-soon?withinDays=3650&chance=0.4&',
    'visits',
  ])('a changed cursor is refused: %s', async (path) => {
    for (let index = 0; index < 2; index++) {
      await recordHistory(service, vehicleBody(), [visitBody('2026-03-01', 60_000, fourPads([3, 3, 3, 3]))]);
      await recordVehicle(service, vehicleBody());
      await recordVisit(service, vehicle.id, visitBody('2026-03-01', 60_000));
    }
    const list = path === 'visits' ? `/v1/vehicles/${vehicle.id}/visits?` : path;
    const { nextCursor } = await read<{ nextCursor: string }>(service, `${list}limit=1`);
    const secret = await service.store.secret('cursors');
    const [binding, position] = JSON.parse(unsealCursor(secret, nextCursor)) as [string, unknown[]];
    const changed = Buffer.from(nextCursor, 'base64url');
    changed[changed.length - 1]! ^= 1;
    const cursors = [position.slice(0, -1), position.map(() => 'x'), position.map(() => ({}))]
      .map((other) => sealCursor(secret, JSON.stringify([binding, other])))
      .concat(changed.toString('base64url'), nextCursor.slice(0, -4), 'AAAA')
      .concat(Buffer.from(JSON.stringify([binding, position])).toString('base64url'));
    for (const cursor of cursors) {
      const { status, body } = await as('get', `${list}limit=1&cursor=${cursor}`);
      expect([cursor, status]).toEqual([cursor, 400]);
      expect(body.errors).toEqual([expect.objectContaining({ parameter: 'cursor' })]);
    }
    // A cursor is opaque, and it is the same when the same page is requested again.
    expect(Buffer.from(nextCursor, 'base64url').toString('latin1')).not.toContain(binding);
    expect((await read<{ nextCursor: string }>(service, `${list}limit=1`)).nextCursor).toBe(nextCursor);
  });
});

describe('text that is not well-formed Unicode', () => {
  it('text that is not well-formed Unicode is refused, because it could not be returned as sent', async () => {
    for (const [path, body, pointer] of [
      ['/v1/vehicles', '{"externalId":"\\ud800x","axles":{"front":{}}}', '#/externalId'],
      [`/v1/vehicles/${vehicle.id}/visits`, '{"date":"2026-03-01","notes":"\\udfff"}', '#/notes'],
    ]) {
      const response = await as('post', path!).type('json').send(body);
      expect([path, response.status]).toEqual([path, 422]);
      expect(response.body.errors[0].pointer).toBe(pointer);
    }
  });
});
