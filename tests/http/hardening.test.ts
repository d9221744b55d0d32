import { METHODS, request, type IncomingMessage } from 'node:http';
import { connect, type AddressInfo } from 'node:net';
import { Writable } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { buildApp } from '../../src/app.js';
import { PAGES } from '../../src/http/pages/pages.js';
import { logging } from '../../src/http/logging.js';
import { service, serveOneVehicle, vehicle } from '../support/oneVehicle.js';
import { startService, type Service } from '../support/service.js';

serveOneVehicle();

const portOf = ({ app }: Pick<Service, 'app'>): number => (app.server.address() as AddressInfo).port;
const bearer = () => ({ authorization: `Bearer ${service.keys.owner}` });

/** Sends a request with any method and ignores the body of the answer. */
function ask(
  method: string,
  path: string,
  headers: Record<string, string> = bearer(),
): Promise<IncomingMessage> {
  return new Promise((resolve, reject) => {
    const sent = request({ port: portOf(service), method, path, headers }, (response) => {
      response.resume();
      resolve(response);
    });
    sent.on('error', reject);
    sent.end();
  });
}

/** Sends raw bytes and returns all bytes that come back. */
function sendBytes(bytes: string, { app }: Pick<Service, 'app'> = service): Promise<string> {
  return new Promise((resolve, reject) => {
    let received = '';
    const socket = connect(portOf({ app }), '127.0.0.1', () => socket.write(bytes));
    socket.on('data', (chunk) => (received += chunk.toString('latin1')));
    socket.on('error', reject);
    socket.on('close', () => resolve(received));
  });
}

describe('a method that no path supports', () => {
  it('every other method that Node can parse gets 405 with Allow', async () => {
    const others = METHODS.filter((method) => !['GET', 'HEAD', 'POST', 'CONNECT'].includes(method));
    expect(others).toEqual(expect.arrayContaining(['OPTIONS', 'TRACE', 'PROPFIND', 'PURGE']));
    for (const method of others) {
      const { statusCode, headers } = await ask(method, '/v1/vehicles');
      expect([method, statusCode, headers.allow?.split(', ').sort()]).toEqual([
        method,
        405,
        ['GET', 'HEAD', 'POST'],
      ]);
      expect((await ask(method, '/v1/vehicles', {})).statusCode).toBe(401);
      expect((await ask(method, '/health/live', {})).statusCode).toBe(405);
    }
    expect((await ask('PURGE', '/v1/nothing')).statusCode).toBe(404);
  });

  it('a preflight request lets no other origin in', async () => {
    const preflight = {
      ...bearer(),
      origin: 'https://elsewhere.example',
      'access-control-request-method': 'POST',
    };
    for (const [method, path] of [
      ['OPTIONS', '/v1/vehicles'],
      ['GET', '/v1/vehicles'],
    ] as const) {
      const { headers } = await ask(method, path, preflight);
      expect(Object.keys(headers).filter((name) => name.startsWith('access-control-'))).toEqual([]);
    }
  });
});

describe('bytes that are not a valid request', () => {
  it.each([
    [
      'a method that does not exist',
      'FETCH /v1/vehicles HTTP/1.1\r\nHost: x\r\n\r\n',
      400,
      'malformed-request',
    ],
    ['a version that does not exist', 'GET / HTTP/9.9\r\nHost: x\r\n\r\n', 400, 'malformed-request'],
    [
      'two lengths',
      'POST /v1/vehicles HTTP/1.1\r\nHost: x\r\nContent-Length: 5\r\nContent-Length: 6\r\n\r\n',
      400,
      'malformed-request',
    ],
    [
      'a length and chunks',
      'POST /v1/vehicles HTTP/1.1\r\nHost: x\r\nContent-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n',
      400,
      'malformed-request',
    ],
    [
      'a header line without a name',
      'GET /v1/vehicles HTTP/1.1\r\nHost: x\r\n: x\r\n\r\n',
      400,
      'malformed-request',
    ],
    [
      'header fields without an end',
      `GET / HTTP/1.1\r\nHost: x\r\nX: ${'x'.repeat(20_000)}\r\n\r\n`,
      431,
      'headers-too-large',
    ],
    ['HTTP/1.1 without a Host', 'GET /v1/vehicles HTTP/1.1\r\n\r\n', 400, 'malformed-request'],
    [
      'an unknown expectation',
      'POST /v1/vehicles HTTP/1.1\r\nHost: x\r\nExpect: 200-ok\r\nContent-Length: 2\r\n\r\n{}',
      417,
      'expectation-failed',
    ],
  ])(
    'bytes that are no request get a problem, and the connection is closed: %s',
    async (_what, bytes, status, code) => {
      const received = await sendBytes(bytes);
      const [head, body] = received.split('\r\n\r\n') as [string, string];
      expect(head).toMatch(new RegExp(`^HTTP/1\\.1 ${status} `));
      expect(head).toMatch(/^content-type: application\/problem\+json/im);
      expect(head).toMatch(/^connection: close$/im);
      expect(JSON.parse(body)).toMatchObject({
        status,
        code,
        instance: expect.stringMatching(/^urn:request:/),
      });
      expect((await service.as('owner', 'get', '/v1/gauges')).status).toBe(200);
    },
  );

  it('an address that cannot be parsed gets a problem with the usual headers', async () => {
    const { status, headers, body } = await service.unchecked.get('/v1/vehicles/%E0%A4%A');
    expect([status, body.code]).toEqual([400, 'malformed-request']);
    expect(headers).toMatchObject({ 'x-content-type-options': 'nosniff', 'cache-control': 'no-store' });
    expect(headers['request-id']).toMatch(/^[0-9a-f-]{36}$/);
  });
});

describe('a slow sender', () => {
  it('a slow sender is cut off: header fields after a minute, a whole request after ten, a silent line after two', () => {
    const { server } = service.app;
    expect(server.headersTimeout).toBe(60_000);
    expect(server.requestTimeout).toBe(600_000);
    expect(server.timeout).toBe(120_000);
    expect(server.keepAliveTimeout).toBe(75_000);
  });

  it('a slow sender gets 408 as a problem document', async () => {
    const answers: string[] = [];
    const socket = { writable: true, destroy: () => undefined, end: (text: string) => answers.push(text) };
    service.app.server.emit('clientError', { code: 'ERR_HTTP_REQUEST_TIMEOUT' }, socket);
    expect(answers[0]).toMatch(/^HTTP\/1\.1 408 [^]*"code":"request-too-slow"/);
  });
});

describe('JSON that two programs could read differently', () => {
  it.each([
    ['a name twice', '{"externalId":"a","externalId":"b","axles":{"front":{}}}'],
    ['a name twice, once escaped', '{"externalId":"a","extern\\u0061lId":"b","axles":{"front":{}}}'],
    [
      'a name twice in a nested object',
      '{"externalId":"a","axles":{"front":{"brake":"disc","brake":"drum"}}}',
    ],
    ['__proto__', '{"externalId":"a","axles":{"front":{"torque":{"__proto__":{"value":1,"unit":"Nm"}}}}}'],
    ['constructor.prototype', '{"externalId":"a","axles":{"front":{}},"constructor":{"prototype":{"x":1}}}'],
  ])(
    'ambiguous JSON is refused and not stored, in a body, a merge patch and a list of vehicles: %s',
    async (_what, text) => {
      const before = await service.rowCounts();
      const posted = await service.as('owner', 'post', '/v1/vehicles').type('json').send(text);
      expect([posted.status, posted.body.code]).toEqual([400, 'malformed-request']);
      const patched = await service
        .as('owner', 'patch', `/v1/vehicles/${vehicle.id}`)
        .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
        .send(text);
      expect([patched.status, patched.body.code]).toEqual([400, 'malformed-request']);
      expect(await service.rowCounts()).toEqual(before);
      const imported = await service
        .as('owner', 'post', '/v1/imports/vehicles')
        .set('Content-Type', 'application/x-ndjson')
        .send(text);
      expect([imported.status, imported.body.code]).toEqual([422, 'import-refused']);
      expect((await service.rowCounts()).vehicles).toBe(before.vehicles);
      expect([({} as { x?: unknown }).x, ({} as { value?: unknown }).value]).toEqual([undefined, undefined]);
    },
  );
});

describe('every answer under /v1', () => {
  it('an answer under /v1 is not cached, and a browser neither runs nor loads anything from it', async () => {
    for (const path of [
      '/v1/vehicles',
      `/v1/vehicles/${vehicle.id}`,
      '/v1/vehicles/nobody',
      '/v1/nothing',
      '/v1/exports/visits',
    ]) {
      for (const response of [await service.as('owner', 'get', path), await service.anonymous('get', path)]) {
        expect([path, response.headers['cache-control']]).toEqual([path, 'no-store']);
        expect(response.headers['content-security-policy']).toBe(
          "default-src 'none'; frame-ancestors 'none'",
        );
      }
    }
  });
});

describe('the routes', () => {
  it('every route is in the document, and every documented operation has a route', async () => {
    const served = routesIn(service.app.printRoutes({ commonPrefix: false }));
    const documented = new Set(
      Object.entries(service.contract.document.paths).flatMap(([path, methods]) =>
        Object.keys(methods).map((method) => `${method.toUpperCase()} ${path}`),
      ),
    );
    expect([...documented].filter((route) => !served.has(route))).toEqual([]);
    expect(served.size).toBeGreaterThan(documented.size);
    const reference = /^(GET|HEAD) (\/openapi\.json|\/docs.*)$/;
    const pages = new Set(
      [...PAGES].flatMap(([path, methods]) => [...methods].map((method) => `${method} ${inBraces(path)}`)),
    );
    const others = [...served].filter(
      (route) => !documented.has(route) && !reference.test(route) && !pages.has(route),
    );
    for (const route of others) {
      const [method, path] = route.split(' ') as [string, string];
      if (method === 'HEAD' && documented.has(`GET ${path}`)) continue;
      const { statusCode } = await ask(method, path.replace(/\{[^}]+\}/g, 'x'));
      expect([route, statusCode]).toEqual([route, 405]);
    }
  });

  const inBraces = (path: string): string => path.replace(/:(\w+)/g, '{$1}');

  /** `METHOD /path/{parameter}` of every line of the printed tree. */
  function routesIn(tree: string): Set<string> {
    const above: string[] = [];
    const routes = tree.split('\n').flatMap((line) => {
      const found = /^([│ ]*)[├└]── (\S+) \((.+)\)$/.exec(line);
      if (!found) return [];
      const depth = found[1]!.length / 4;
      above.length = depth;
      above.push(found[2]!);
      const path = inBraces(above.join(''));
      return found[3]!.split(', ').map((method) => `${method} ${path}`);
    });
    return new Set(routes);
  }
});

describe('an API key in use', () => {
  it('a key fails at once when another process revokes it', async () => {
    const key = await service.makeKey('technician', 'revoked-elsewhere');
    expect((await service.withKey(key, 'get', '/v1/gauges')).status).toBe(200);
    // A connection of its own, like that of the command line.
    const other = await service.openAnother();
    expect(await other.keys.revoke('revoked-elsewhere')).toBe(true);
    await other.close();
    expect((await service.withKey(key, 'get', '/v1/gauges')).status).toBe(401);
  });

  it('a key never appears in the log, even at trace level, wherever it was sent', async () => {
    const lines: string[] = [];
    const stream = new Writable({
      write: (chunk: Buffer, _encoding, done) => {
        lines.push(chunk.toString('utf8'));
        done();
      },
    });
    const app = await buildApp({
      store: service.store,
      config: { timeZone: 'UTC', rateLimitPerMinute: 0 },
      logger: { ...logging('trace'), stream },
    });
    await app.listen({ host: '127.0.0.1', port: 0 });
    const key = service.keys.owner;
    const secret = key.slice('bws_'.length);
    const head = `Host: x\r\nAuthorization: Bearer ${key}\r\nX-Key: ${key}\r\nCookie: k=${key}\r\nConnection: close\r\n`;
    const json = `{"externalId":"${key}"`;
    for (const bytes of [
      `GET /v1/vehicles HTTP/1.1\r\n${head}\r\n`,
      `GET /v1/vehicles?key=${key}&externalId=${secret} HTTP/1.1\r\n${head}\r\n`,
      `GET /v1/vehicles/${key} HTTP/1.1\r\n${head}\r\n`,
      `GET /v1/${key}/%E0%A4%A HTTP/1.1\r\n${head}\r\n`,
      `GET /${key} HTTP/1.1\r\n${head}\r\n`,
      `POST /v1/vehicles HTTP/1.1\r\n${head}Idempotency-Key: ${key}\r\nContent-Type: application/json\r\nContent-Length: ${json.length}\r\n\r\n${json}`,
      `${key} /v1/vehicles HTTP/1.1\r\n${head}\r\n`,
      `GET /v1/vehicles HTTP/9.9\r\n${head}\r\n`,
    ]) {
      expect(await sendBytes(bytes, { app })).toMatch(/^HTTP\/1\.1 /);
    }
    // A fault is logged with its details, which may contain text from anyone.
    app.log.error({ err: new Error(`cannot read ${key}`) }, `no ${key}`);
    await app.close();
    const log = lines.join('');
    expect(lines.length).toBeGreaterThan(12);
    expect(log).toContain('/v1/vehicles?key=[Redacted]&externalId=[Redacted]');
    expect(log).not.toContain(secret);
    expect(log).not.toContain('bws_');
  });
});

describe('the rate limit', () => {
  const limits = (headers: Record<string, string | undefined>) => [
    headers['ratelimit-policy'],
    headers.ratelimit,
  ];

  it('every answer says what is left of the rate limit, in the draft standard’s fields and not the older ones', async () => {
    const limited = await startService({ rateLimitPerMinute: 4 });
    const ask = (path = '/v1/gauges') => limited.as('technician', 'get', path);
    for (const left of [3, 2]) {
      const { headers } = await ask();
      expect(limits(headers)).toEqual([
        '"default";q=4;w=60',
        expect.stringMatching(`^"default";r=${left};t=\\d+$`),
      ]);
      expect(
        Object.keys(headers).filter((name) => /^(x-)?ratelimit-(limit|remaining|reset)$/.test(name)),
      ).toEqual([]);
    }
    // Requests that get 404 or 403 count too.
    expect((await ask('/v1/nothing')).status).toBe(404);
    expect((await ask('/v1/audit')).status).toBe(403);
    const over = await ask();
    expect([over.status, over.body.code]).toEqual([429, 'too-many-requests']);
    const [, seconds] = /^"default";r=0;t=(\d+)$/.exec(over.headers.ratelimit!)!;
    expect(Number(seconds)).toBeGreaterThan(0);
    expect(Number(seconds)).toBeLessThanOrEqual(60);
    expect(over.headers['retry-after']).toBe(seconds);
    expect((await ask('/v1/nothing')).status).toBe(429);
    await limited.close();
  });

  it('the rate limit stops an address that sends no valid key, but not a caller there who sends one', async () => {
    const limited = await startService({ failedKeysPerMinute: 3 });
    const fail = () => limited.withKey(`bws_${'A'.repeat(43)}`, 'get', '/v1/gauges');
    expect((await limited.anonymous('get', '/v1/nothing')).status).toBe(401);
    expect((await fail()).status).toBe(401);
    expect((await fail()).status).toBe(401);
    const over = await fail();
    expect([over.status, over.body.code]).toEqual([429, 'too-many-requests']);
    expect(over.headers['ratelimit-policy']).toBe('"failed-keys";q=3;w=60');
    expect(Number(over.headers['retry-after'])).toBeGreaterThan(0);
    expect((await limited.as('technician', 'get', '/v1/gauges')).status).toBe(200);
    await limited.close();
  });
});
