import { describe, expect, it } from 'vitest';
import { vehicleBody } from '../support/bodies.js';
import { service, serveOneVehicle, vehicle } from '../support/oneVehicle.js';
import { type Method } from '../support/service.js';

serveOneVehicle();

const as = (method: Method, path: string) => service.as('technician', method, path);

describe('an error answer', () => {
  it('an error answer is an RFC 9457 problem with a stable code', async () => {
    const response = await as('get', '/v1/vehicles/nobody');
    expect(response.type).toBe('application/problem+json');
    expect(response.body).toEqual({
      type: expect.stringMatching(/^\w+:/),
      title: expect.stringMatching(/\w/),
      status: 404,
      detail: 'no such vehicle',
      code: 'not-found',
      instance: `urn:request:${response.headers['request-id']}`,
    });
  });
});

describe('input that cannot be read', () => {
  it.each(['{"axles":', '', 'axles', '{"axles":{}}{', '{"a":NaN}', "{'a':1}", '{"__proto__":{"a":1}}'])(
    'input that cannot be read gets 400: %j',
    async (text) => {
      const before = await service.rowCounts();
      const response = await as('post', '/v1/vehicles').type('json').send(text);
      expect(response.status).toBe(400);
      expect(response.body.code).toBe('malformed-request');
      expect(await service.rowCounts()).toEqual(before);
    },
  );

  it('input that cannot be read gets 400 in a merge patch as well', async () => {
    const response = await as('patch', `/v1/vehicles/${vehicle.id}`)
      .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
      .send('{"model":');
    expect([response.status, response.body.code]).toEqual([400, 'malformed-request']);
  });

  it('an invalid path gets 400', async () => {
    const response = await as('get', '/v1/vehicles/%E0%A4%A');
    expect([response.status, response.type]).toEqual([400, 'application/problem+json']);
  });

  it.each(['null', '[]', '"text"', '7', 'true'])('JSON that is not an object gets 422: %s', async (text) => {
    const response = await as('post', '/v1/vehicles').type('json').send(text);
    expect(response.status).toBe(422);
    expect(response.body.errors).toEqual([expect.objectContaining({ pointer: '#' })]);
  });
});

describe('an invalid parameter', () => {
  it.each([
    ['/v1/vehicles', 'sort=date', 'sort'],
    ['/v1/vehicles', 'Fleet=x', 'Fleet'],
    ['/v1/vehicles', 'includeOutOfService=yes', 'includeOutOfService'],
    ['/v1/vehicles', 'fleet=', 'fleet'],
    ['/v1/vehicles', 'fleet=a&fleet=b', 'fleet'],
    ['/v1/vehicles', `registration=${'x'.repeat(21)}`, 'registration'],
    ['/v1/vehicles', 'cursor=abc', 'cursor'],
    ['/v1/gauges', 'limit=5', 'limit'],
    ['/v1/vehicles/{id}/visits', 'from=2026-01-01', 'from'],
    ['/v1/vehicles/{id}/wear', 'asof=2026-01-01', 'asof'],
    ['/v1/vehicles/{id}/wear', 'asOf=2026-02-30', 'asOf'],
    ['/v1/vehicles/{id}/wear', 'until=soon', 'until'],
    ['/v1/reports/due-soon', 'within=60', 'within'],
    ['/v1/reports/due-soon', 'withinDays=-1', 'withinDays'],
    ['/v1/reports/due-soon', 'withinDays=1.5', 'withinDays'],
    ['/v1/reports/due-soon', 'chance=1.1', 'chance'],
    ['/v1/reports/due-soon', 'chance=-0.1', 'chance'],
    ['/v1/reports/due-soon', 'chance=NaN', 'chance'],
    ['/v1/reports/due-soon', 'axle=middle', 'axle'],
    ['/v1/reports/due-soon', 'format=xml', 'format'],
    ['/v1/reports/unassessed', 'axle=front', 'axle'],
    ['/v1/reports/unassessed', 'format=pdf', 'format'],
  ])('an invalid parameter is refused on %s: ?%s', async (path, query, parameter) => {
    const response = await as('get', `${path.replace('{id}', vehicle.id)}?${query}`);
    expect(response.status).toBe(400);
    expect(response.body.code).toBe('bad-parameter');
    expect(response.body.errors).toEqual([expect.objectContaining({ parameter })]);
  });

  it('an impossible id in the path is refused', async () => {
    const response = await as('get', `/v1/vehicles/${'x'.repeat(101)}`);
    expect(response.status).toBe(400);
    expect(response.body.errors).toEqual([expect.objectContaining({ parameter: 'vehicleId' })]);
  });

  it.each(["' or 1=1 --", '%00', '..%2f..%2fetc', '🚚'])(
    'a path parameter that cannot be an id gets 404: %s',
    async (id) => {
      const response = await as(
        'get',
        `/v1/vehicles/${id.startsWith('%') || id.startsWith('.') ? id : encodeURIComponent(id)}`,
      );
      expect([response.status, response.body.code]).toEqual([404, 'not-found']);
    },
  );
});

describe('a path that does not exist', () => {
  it.each(['/v1/nothing', '/v1/vehicles/x/nothing', '/v1', '/v2/vehicles', '/favicon.ico', '/v1/Vehicles'])(
    'a request for %s gets 404',
    async (path) => {
      const response = await as('get', path);
      expect([response.status, response.type, response.body.code]).toEqual([
        404,
        'application/problem+json',
        'not-found',
      ]);
    },
  );
});

describe('the body of a request', () => {
  it.each([
    'application/xml',
    'application/x-www-form-urlencoded',
    'multipart/form-data; boundary=x',
    'text/csv',
  ])('the type %s gets 415', async (type) => {
    const response = await as('post', '/v1/vehicles').set('Content-Type', type).send('axles');
    expect([response.status, response.body.code]).toEqual([415, 'media-type-not-supported']);
  });

  it('the body of a request may have a charset in its type', async () => {
    const response = await as('post', '/v1/vehicles')
      .set('Content-Type', 'application/json; charset=utf-8')
      .send(JSON.stringify(vehicleBody()));
    expect(response.status).toBe(201);
  });

  it('a body of more than 1 MiB gets 413, and one of exactly 1 MiB is accepted', async () => {
    const padded = (bytes: number) => {
      const body = JSON.stringify(vehicleBody());
      return body + ' '.repeat(bytes - Buffer.byteLength(body));
    };
    const limit = 1024 * 1024;
    const before = await service.rowCounts();
    const over = await as('post', '/v1/vehicles')
      .type('json')
      .send(padded(limit + 1));
    expect([over.status, over.body.code]).toEqual([413, 'body-too-large']);
    expect(await service.rowCounts()).toEqual(before);
    expect((await as('post', '/v1/vehicles').type('json').send(padded(limit))).status).toBe(201);
  });
});
