import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ROLES, type Role } from '../../src/core/vocabulary/terms.js';
import { fourPads, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { recordHistory, recordVehicle, recordVisit, type Recorded } from '../support/recording.js';
import { EXAMPLE_GAUGE } from '../../src/core/vocabulary/settings.js';
import { FLEET, startService, type Method, type Service } from '../support/service.js';

let service: Service;
let vehicle: Recorded;
let visit: Recorded;
let twin: Recorded;
let importId: string;
/** Two endpoints, one to use and one to delete, and a delivery to the first. */
let endpoints: string[];
let deliveryId: string;

beforeAll(async () => {
  service = await startService();
  vehicle = await recordVehicle(service, vehicleBody({ fleet: FLEET }));
  twin = await recordVehicle(service, vehicleBody({ fleet: FLEET }));
  visit = await recordVisit(service, vehicle.id, visitBody('2026-03-02', 61_240, fourPads([3, 3.5, 4, 4])));
  const imported = await service
    .as('owner', 'post', '/v1/imports/vehicles')
    .set('Content-Type', 'application/x-ndjson')
    .send(jsonLine());
  importId = imported.body.id as string;
  const owner = (path: string) => service.as('owner', 'post', `/v1/webhook-endpoints${path}`);
  const added = [await owner('').send(ENDPOINT), await owner('').send(ENDPOINT)];
  endpoints = added.map(({ body }) => body.id as string);
  deliveryId = (await owner(`/${endpoints[0]}/test`)).body.id as string;
});
afterAll(() => service.close());

const ENDPOINT = { url: 'https://desk.example.com/hooks' };
const MERGE = { 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' };
const STAFF: readonly Role[] = ['front-desk', 'technician', 'owner'];
const jsonLine = () => JSON.stringify(vehicleBody());
const visitsCsv = () => {
  made += 1;
  return `vehicle,date,workOrder,entry,axle,side,pad,value,unit\n${vehicle.externalId},2026-03-01,WO-${made},pad-thickness,front,left,inner,6,mm\n`;
};
let made = 0;

interface Use {
  method: Method;
  path: string;
  query?: string;
  /** The roles that the contract allows. */
  roles: readonly Role[];
  success: number;
  body?: () => Body | string;
  headers?: Record<string, string>;
}

/** Every operation, with a request that succeeds. */
const USES: Use[] = [
  { method: 'post', path: '/v1/vehicles', roles: STAFF, success: 201, body: vehicleBody },
  { method: 'get', path: '/v1/vehicles', roles: ROLES, success: 200 },
  { method: 'get', path: '/v1/vehicles/{vehicleId}', roles: ROLES, success: 200 },
  {
    method: 'patch',
    path: '/v1/vehicles/{vehicleId}',
    roles: STAFF,
    success: 200,
    body: () => ({ description: 'changed' }),
    headers: MERGE,
  },
  {
    method: 'post',
    path: '/v1/vehicles/{vehicleId}/visits',
    roles: STAFF,
    success: 201,
    body: () => visitBody('2026-03-03', null),
  },
  { method: 'get', path: '/v1/vehicles/{vehicleId}/visits', roles: ROLES, success: 200 },
  { method: 'get', path: '/v1/visits/{visitId}', roles: ROLES, success: 200 },
  {
    method: 'post',
    path: '/v1/visits/{visitId}/entries',
    roles: STAFF,
    success: 201,
    body: () => ({ work: [{ kind: 'fluid-changed' }] }),
  },
  {
    method: 'post',
    path: '/v1/visits/{visitId}/corrections',
    roles: STAFF,
    success: 200,
    body: () => ({ reason: 'typed wrong', changes: { notes: 'put right' } }),
    headers: { 'If-Match': '*' },
  },
  { method: 'get', path: '/v1/visits/{visitId}/history', roles: ROLES, success: 200 },
  { method: 'get', path: '/v1/vehicles/{vehicleId}/history', roles: ROLES, success: 200 },
  {
    method: 'post',
    path: '/v1/vehicles/{vehicleId}/merge',
    roles: ['owner'],
    success: 200,
    body: () => ({ from: twin.id, reason: 'recorded twice' }),
    headers: { 'If-Match': '*' },
  },
  { method: 'get', path: '/v1/audit', roles: ['owner'], success: 200 },
  { method: 'get', path: '/v1/vehicles/{vehicleId}/wear', roles: ROLES, success: 200 },
  {
    method: 'get',
    path: '/v1/vehicles/{vehicleId}/wear.svg',
    query: '?axle=front',
    roles: ROLES,
    success: 200,
  },
  { method: 'get', path: '/v1/vehicles/{vehicleId}/replacement-plan', roles: ROLES, success: 200 },
  { method: 'get', path: '/v1/reports/due-soon', roles: ROLES, success: 200 },
  { method: 'get', path: '/v1/reports/parts-demand', roles: ROLES, success: 200 },
  { method: 'get', path: '/v1/reports/unassessed', roles: ROLES, success: 200 },
  { method: 'get', path: '/v1/reports/measure-first', roles: ROLES, success: 200 },
  { method: 'get', path: '/v1/reports/stops', roles: ROLES, success: 200 },
  { method: 'post', path: '/v1/calendar-subscriptions', roles: ROLES, success: 201, body: () => ({}) },
  { method: 'get', path: '/v1/calendar-subscriptions', roles: ROLES, success: 200 },
  { method: 'delete', path: '/v1/calendar-subscriptions/{subscriptionId}', roles: ROLES, success: 204 },
  {
    method: 'post',
    path: '/v1/webhook-endpoints',
    roles: ['owner'],
    success: 201,
    body: () => ENDPOINT,
  },
  { method: 'get', path: '/v1/webhook-endpoints', roles: ['owner'], success: 200 },
  { method: 'get', path: '/v1/webhook-endpoints/{endpointId}', roles: ['owner'], success: 200 },
  {
    method: 'patch',
    path: '/v1/webhook-endpoints/{endpointId}',
    roles: ['owner'],
    success: 200,
    body: () => JSON.stringify({ fleets: [FLEET] }),
    headers: MERGE,
  },
  { method: 'delete', path: '/v1/webhook-endpoints/{endpointId}', roles: ['owner'], success: 204 },
  {
    method: 'post',
    path: '/v1/webhook-endpoints/{endpointId}/rotate-secret',
    roles: ['owner'],
    success: 200,
    body: () => ({ overlapHours: 1 }),
  },
  { method: 'post', path: '/v1/webhook-endpoints/{endpointId}/test', roles: ['owner'], success: 202 },
  { method: 'delete', path: '/v1/keys/{keyName}/sessions', roles: ['owner'], success: 204 },
  { method: 'get', path: '/v1/webhook-deliveries', roles: ['owner'], success: 200 },
  { method: 'get', path: '/v1/webhook-deliveries/{deliveryId}', roles: ['owner'], success: 200 },
  { method: 'post', path: '/v1/webhook-deliveries/{deliveryId}/replay', roles: ['owner'], success: 202 },
  { method: 'get', path: '/v1/gauges', roles: ROLES, success: 200 },
  { method: 'get', path: '/v1/limits', roles: ROLES, success: 200 },
  { method: 'get', path: '/v1/visits/{visitId}/open-points', roles: ROLES, success: 200 },
  { method: 'get', path: '/v1/reports/forecast-accuracy', roles: ROLES, success: 200 },
  { method: 'get', path: '/v1/gauges/{name}', roles: ROLES, success: 200 },
  {
    method: 'put',
    path: '/v1/gauges/{name}',
    roles: ['owner'],
    success: 200,
    body: () => ({ ...EXAMPLE_GAUGE, kind: 'visual' }),
    headers: { 'If-Match': '*' },
  },
  { method: 'get', path: '/v1/policy', roles: ROLES, success: 200 },
  {
    method: 'put',
    path: '/v1/policy',
    roles: ['owner'],
    success: 200,
    body: () => ({ visitIntervalDays: 90 }),
    headers: { 'If-Match': '*' },
  },
  { method: 'get', path: '/v1/experience', roles: STAFF, success: 200 },
  {
    method: 'post',
    path: '/v1/imports/visits',
    roles: STAFF,
    success: 201,
    body: visitsCsv,
    headers: { 'Content-Type': 'text/csv' },
  },
  {
    method: 'post',
    path: '/v1/imports/vehicles',
    roles: STAFF,
    success: 201,
    body: jsonLine,
    headers: { 'Content-Type': 'application/x-ndjson' },
  },
  { method: 'get', path: '/v1/imports', roles: STAFF, success: 200 },
  { method: 'get', path: '/v1/imports/{importId}', roles: STAFF, success: 200 },
  { method: 'get', path: '/v1/exports/visits', roles: ['owner'], success: 200 },
  { method: 'get', path: '/v1/exports/vehicles', roles: ['owner'], success: 200 },
];

const nameOf = ({ method, path }: { method: string; path: string }) => `${method.toUpperCase()} ${path}`;
const fill = (path: string, vehicleId = vehicle.id, visitId = visit.id) =>
  path
    .replace('{vehicleId}', vehicleId)
    .replace('{visitId}', visitId)
    .replace('{importId}', importId)
    .replace('{deliveryId}', deliveryId)
    .replace('{name}', 'visual')
    .replace('{keyName}', 'technician')
    .replace(/\{[^}]+\}/g, 'x');

async function ask(
  { method, path, query = '', body, headers = {} }: Use,
  key: string,
  ids: [string?, string?] = [],
) {
  const own = path
    .replace('{endpointId}', endpoints[Number(method === 'delete')]!)
    .replace('{subscriptionId}', path.includes('{subscriptionId}') ? await subscribed(key) : '');
  const request = service.withKey(key, method, fill(own, ...ids) + query).set(headers);
  return body ? request.send(body()) : request;
}

/** The id of a calendar address that a key has just created. */
async function subscribed(key: string): Promise<string> {
  const { body } = await service.withKey(key, 'post', '/v1/calendar-subscriptions').send({});
  return body.id as string;
}

/** The names of the keys in the audit, line by line. */
async function auditLines(): Promise<(string | null)[]> {
  const names: (string | null)[] = [];
  for (let after: readonly (string | number)[] | null = null; ;) {
    const { items, next } = await service.store.histories.audit(null, { limit: 200, after });
    names.push(...items.map(({ key }) => key));
    if (next === null) return names;
    after = next;
  }
}

describe('an API key', () => {
  const everyOperation = () =>
    Object.entries(service.contract.document.paths)
      .filter(([path]) => path.startsWith('/v1/'))
      .flatMap(([path, methods]) =>
        Object.keys(methods).map((method) => ({ method: method as Method, path })),
      );

  it('every operation under /v1 asks for a key and refuses an unknown or revoked one', async () => {
    const revoked = await service.makeKey('owner', 'revoked');
    expect((await service.withKey(revoked, 'get', '/v1/gauges')).status).toBe(200);
    expect(await service.store.keys.revoke('revoked')).toBe(true);
    const operations = everyOperation();
    expect(operations.length).toBeGreaterThanOrEqual(USES.length);
    for (const { method, path } of operations) {
      const answers = [
        await service.anonymous(method, fill(path)),
        await service.withKey(`bws_${'A'.repeat(43)}`, method, fill(path)),
        await service.withKey(revoked, method, fill(path)),
      ];
      for (const { status, body, headers } of answers) {
        expect([nameOf({ method, path }), status, body.code]).toEqual([
          nameOf({ method, path }),
          401,
          'key-needed',
        ]);
        expect(headers['www-authenticate']).toMatch(/^Bearer/);
      }
    }
  });

  it('the key is checked before anything else', async () => {
    const nothing = await service.anonymous('get', '/v1/nothing-here');
    const malformed = await service.anonymous('post', '/v1/vehicles').type('json').send('{"a":');
    const elsewhere = await service.anonymous('get', '/v1/vehicles/nobody');
    expect([nothing.status, malformed.status, elsewhere.status]).toEqual([401, 401, 401]);
  });

  it.each([
    ['Basic', (key: string) => `Basic ${key}`],
    ['bare', (key: string) => key],
    ['two', (key: string) => `Bearer ${key} ${key}`],
    ['cut short', (key: string) => `Bearer ${key.slice(0, -1)}`],
    ['in the wrong case', (key: string) => `Bearer ${key.toUpperCase()}`],
    ['empty', () => 'Bearer '],
  ])('a key is refused if it is %s', async (_name, header) => {
    const response = await service
      .anonymous('get', '/v1/vehicles')
      .set('Authorization', header(service.keys.technician));
    expect(response.status).toBe(401);
  });

  it('the case of the scheme does not matter', async () => {
    const response = await service
      .anonymous('get', '/v1/vehicles')
      .set('Authorization', `bearer ${service.keys.technician}`);
    expect(response.status).toBe(200);
  });

  it('a key in the query is refused', async () => {
    const response = await service.anonymous('get', `/v1/vehicles?key=${service.keys.owner}`);
    expect(response.status).toBe(401);
  });

  it('the document, the reference and health need no key', async () => {
    for (const path of ['/health/live', '/health/ready']) {
      expect((await service.anonymous('get', path)).status).toBe(200);
    }
    expect((await service.unchecked.get('/openapi.json')).status).toBe(200);
    expect((await service.unchecked.get('/docs/').redirects(1)).text).toContain('<html');
  });
});

describe('the table of roles and operations', () => {
  it('the table of roles has every operation of the document, each once', () => {
    const known = Object.entries(service.contract.document.paths)
      .filter(([path]) => path.startsWith('/v1/'))
      .flatMap(([path, methods]) => Object.keys(methods).map((method) => nameOf({ method, path })));
    expect(USES.map(nameOf).sort()).toEqual(known.sort());
  });
});

describe.each(ROLES)('the role %s', (role) => {
  it.each(USES.map((use) => [nameOf(use), use] as const))(
    'the role may or may not %s, as the contract says',
    async (_name, use) => {
      const before = await auditLines();
      const { status, body } = await ask(use, service.keys[role]);
      const left = (await auditLines()).slice(before.length);
      if (use.roles.includes(role)) {
        expect(status).toBe(use.success);
        // Every write is recorded under the name of its key.
        expect(left.length > 0).toBe(use.method !== 'get');
        expect(left.filter((name) => name !== role)).toEqual([]);
      } else {
        expect([status, body.code]).toEqual([403, 'role-not-allowed']);
        expect(left).toEqual([]);
      }
    },
  );
});

describe('a fleet manager', () => {
  const other = () => vehicleBody({ fleet: 'south-depot' });
  let theirs: Recorded[];
  let theirVisit: Recorded;

  beforeAll(async () => {
    const none = () => vehicleBody({ fleet: null });
    theirs = [];
    // One vehicle in each fleet, not measured for long; its slow wear is known well enough for it not to be due.
    for (const fleet of [FLEET, 'south-depot'])
      await recordHistory(service, vehicleBody({ fleet }), [
        visitBody('2024-01-10', 8_000, fourPads([10.6, 10.6, 10.6, 10.6])),
        visitBody('2024-07-10', 14_000, fourPads([10.3, 10.3, 10.3, 10.3])),
        visitBody('2025-01-10', 20_000, fourPads([10, 10, 10, 10])),
      ]);
    for (const body of [other(), none()]) {
      const recorded = await recordVehicle(service, body);
      theirVisit = await recordVisit(
        service,
        recorded.id,
        visitBody('2026-03-02', 61_240, fourPads([2, 2, 2, 2])),
      );
      theirs.push(recorded, await recordVehicle(service, { ...body, externalId: `${body.externalId}-u` }));
    }
  });

  const manager = (path: string) => service.as('fleet-manager', 'get', path);
  const owner = (path: string) => service.as('owner', 'get', path);

  it('a fleet manager reads the vehicles, visits and wear of the own fleet', async () => {
    for (const path of [
      `/v1/vehicles/${vehicle.id}`,
      `/v1/vehicles/${vehicle.id}/visits`,
      `/v1/visits/${visit.id}`,
    ]) {
      const response = await manager(path);
      expect(response.status).toBe(200);
      expect(response.body).toEqual((await owner(path)).body);
    }
  });

  it('a fleet manager gets the same 404 for another fleet’s vehicle as for one that does not exist', async () => {
    const withoutInstance = ({ instance: _instance, ...body }: Record<string, unknown>) => body;
    const pairs = [
      [`/v1/vehicles/${theirs[0]!.id}`, '/v1/vehicles/nobody'],
      [`/v1/vehicles/${theirs[2]!.id}`, '/v1/vehicles/nobody'],
      [`/v1/vehicles/${theirs[0]!.id}/visits`, '/v1/vehicles/nobody/visits'],
      [`/v1/vehicles/${theirs[0]!.id}/wear`, '/v1/vehicles/nobody/wear'],
      [`/v1/vehicles/${theirs[0]!.id}/wear?asOf=2026-03-05`, '/v1/vehicles/nobody/wear?asOf=2026-03-05'],
      [`/v1/vehicles/${theirs[0]!.id}/replacement-plan`, '/v1/vehicles/nobody/replacement-plan'],
      [`/v1/visits/${theirVisit.id}`, '/v1/visits/nothing'],
    ] as const;
    for (const [hidden, absent] of pairs) {
      const response = await manager(hidden);
      expect([hidden, response.status]).toEqual([hidden, 404]);
      expect(withoutInstance(response.body)).toEqual(withoutInstance((await manager(absent)).body));
      expect((await owner(hidden)).status).toBe(200);
    }
  });

  it('a fleet manager finds no vehicle of another fleet by any filter', async () => {
    const [first] = theirs;
    for (const query of [
      `externalId=${first!.externalId}`,
      `registration=${encodeURIComponent(String(first!.registration))}`,
      'fleet=south-depot',
    ]) {
      expect((await owner(`/v1/vehicles?${query}`)).body.items.length).toBeGreaterThan(0);
      expect((await manager(`/v1/vehicles?${query}`)).body).toEqual({ items: [], nextCursor: null });
    }
  });

  it('a fleet manager sees only the own fleet in every list, total and count', async () => {
    const listed = (await manager('/v1/vehicles?limit=200')).body.items as Recorded[];
    expect(listed.length).toBeGreaterThan(0);
    expect(listed.filter(({ fleet }) => fleet !== FLEET)).toEqual([]);

    for (const report of [
      'due-soon?withinDays=10000',
      'due-soon?withinDays=10000&chance=0.4',
      'due-soon?withinDays=10000&groupBy=model',
      'measure-first?withinDays=0',
      'measure-first?withinDays=0&chance=0.9',
      'unassessed?',
    ]) {
      const own = (await manager(`/v1/reports/${report}&limit=200`)).body;
      const asked = (await owner(`/v1/reports/${report}&limit=200&fleet=${FLEET}`)).body;
      const all = (await owner(`/v1/reports/${report}&limit=200`)).body;
      expect(own).toEqual(asked);
      expect(own.total).toBe(own.items.length);
      expect(all.total).toBeGreaterThan(own.total);
    }
    const counts = [manager, owner].map(
      async (as) => (await as('/v1/reports/due-soon')).body.unassessedCount,
    );
    const [own, all] = await Promise.all(counts);
    expect(all).toBeGreaterThan(own);
  });

  it('a fleet manager gets an empty report for another fleet, in JSON and CSV', async () => {
    for (const report of ['due-soon', 'measure-first', 'stops', 'unassessed']) {
      const { body, status } = await manager(`/v1/reports/${report}?fleet=south-depot`);
      expect([status, body.total, body.items]).toEqual([200, 0, []]);
      expect(body.unassessedCount ?? 0).toBe(0);
      const csv = await manager(`/v1/reports/${report}?fleet=south-depot&format=csv`);
      expect(csv.text.trim().split('\r\n')).toHaveLength(1);
    }
  });

  it('a fleet manager reaches no other fleet through someone else’s cursor', async () => {
    const { nextCursor } = (await owner('/v1/vehicles?limit=1')).body;
    const { items } = (await manager(`/v1/vehicles?limit=200&cursor=${nextCursor}`)).body;
    expect((items as Recorded[]).filter(({ fleet }) => fleet !== FLEET)).toEqual([]);
  });

  it('a fleet manager loses a vehicle that moves to another fleet, and its visits', async () => {
    const { id } = await recordHistory(service, vehicleBody({ fleet: FLEET }), [
      visitBody('2026-03-02', 61_240, fourPads([3, 3, 3, 3])),
    ]);
    const due = async () => {
      const { items } = (await manager('/v1/reports/due-soon?limit=200')).body;
      return (items as { vehicleId: string }[]).some(({ vehicleId }) => vehicleId === id);
    };
    expect([(await manager(`/v1/vehicles/${id}`)).status, await due()]).toEqual([200, true]);
    await service
      .as('technician', 'patch', `/v1/vehicles/${id}`)
      .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
      .send({ fleet: 'south-depot' });
    expect([(await manager(`/v1/vehicles/${id}`)).status, await due()]).toEqual([404, false]);
  });

  it('a fleet manager may have several fleets', async () => {
    const key = await service.makeKey('fleet-manager', 'two-fleets', [FLEET, 'south-depot']);
    const { items } = (await service.withKey(key, 'get', '/v1/vehicles?limit=200')).body;
    const fleets = new Set((items as Recorded[]).map(({ fleet }) => fleet));
    expect([...fleets].sort()).toEqual([FLEET, 'south-depot']);
  });
});
