import { readFileSync } from 'node:fs';
import { Writable } from 'node:stream';
import request from 'supertest';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildApp } from '../../src/app.js';
import { logging } from '../../src/http/logging.js';
import type { AuditEntry } from '../../src/core/vocabulary/records.js';
import type { NewCalendarSubscription } from '../../src/core/vocabulary/calendarSubscription.js';
import { axleWith, fourPads, vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { parseCalendar, valueOf } from '../support/calendars.js';
import { recordHistory, recordVisit, type Recorded } from '../support/recording.js';
import { FLEET, onSqlite, startService, type Service } from '../support/service.js';

let service: Service;
let north: Recorded;
let south: Recorded;
const axles = { front: axleWith(11, 2), rear: axleWith(11, 2) };
const worn = [...fourPads([3.4, 3.4, 3.5, 3.5]), ...fourPads([7, 7, 7, 7], { axle: 'rear' })];

beforeAll(async () => {
  service = await startService();
  const visits = [visitBody('2026-03-01', 60_000, worn)];
  north = await recordHistory(service, vehicleBody({ fleet: FLEET, axles }), visits);
  south = await recordHistory(service, vehicleBody({ fleet: 'south-depot', axles }), visits);
});
afterAll(() => service.close());

const subscribe = async (key: string, body: Body = {}, headers: Record<string, string> = {}) => {
  const response = await service.withKey(key, 'post', '/v1/calendar-subscriptions').set(headers).send(body);
  expect([response.status, response.text]).toEqual([201, expect.any(String)]);
  return response.body as NewCalendarSubscription;
};
const read = (path: string) => service.anonymous('get', path);
const vehiclesIn = (text: string): string[] => [
  ...new Set(parseCalendar(text).events.map((event) => valueOf(event, 'uid').replace(/-(front|rear)$/, ''))),
];

describe('the address of a calendar', () => {
  it.skipIf(!onSqlite)(
    'the address of a calendar is shown once, holds 256 random bits, and is stored only as a hash',
    async () => {
      const made = await subscribe(service.keys.owner, { name: 'phone', withinDays: 900, axle: 'front' });
      expect(made).toMatchObject({
        version: 1,
        name: 'phone',
        withinDays: 900,
        chance: null,
        fleet: null,
        axle: 'front',
        createdBy: 'owner',
        createdAt: '2026-03-10T12:00:00.000Z',
        url: null,
      });
      const [, token] = /^\/calendars\/bwc_([A-Za-z0-9_-]{43})\.ics$/.exec(made.path)!;
      expect(Buffer.from(token!, 'base64url')).toHaveLength(32);
      const { text } = await service.as('owner', 'get', '/v1/calendar-subscriptions');
      expect(text).toContain(made.id);
      expect(text).not.toContain(token);
      const stored = [service.file, `${service.file}-wal`].map((file) =>
        readFileSync(file).toString('latin1'),
      );
      expect(stored.join('')).toContain(made.id);
      expect(stored.join('')).not.toContain(token);
    },
  );

  it('the address of a calendar shows, without a key, what the report shows to the key that created it', async () => {
    const { path } = await subscribe(service.keys.technician, { withinDays: 900, fleet: FLEET });
    const asked = await service.as(
      'technician',
      'get',
      `/v1/reports/due-soon?withinDays=900&fleet=${FLEET}&format=ics`,
    );
    const calendar = await read(path);
    expect([calendar.status, calendar.text]).toEqual([200, asked.text]);
    expect(calendar.headers).toMatchObject({
      'content-type': 'text/calendar; charset=utf-8',
      'cache-control': 'private, no-cache',
      'referrer-policy': 'no-referrer',
    });
    expect(vehiclesIn(calendar.text)).toEqual([north.id]);
  });

  it('the address of a calendar follows the policy for settings of its own that are absent', async () => {
    const { path } = await subscribe(service.keys.owner);
    const before = parseCalendar((await read(path)).text).events.length;
    const policy = { dueSoon: { withinDays: 10_000, chance: 0.1 } };
    const put = (body: Body) =>
      service.as('owner', 'put', '/v1/policy').set('If-Match', '*').send(body).expect(200);
    await put(policy);
    expect(parseCalendar((await read(path)).text).events.length).toBeGreaterThan(before);
    await put({});
  });

  it('the address of a calendar shows no more than the key that created it may see', async () => {
    const manager = await subscribe(service.keys['fleet-manager'], { withinDays: 900 });
    expect(vehiclesIn((await read(manager.path)).text)).toEqual([north.id]);
    const other = await subscribe(service.keys['fleet-manager'], { withinDays: 900, fleet: 'south-depot' });
    expect(vehiclesIn((await read(other.path)).text)).toEqual([]);
    const all = await subscribe(service.keys['front-desk'], { withinDays: 900 });
    expect(vehiclesIn((await read(all.path)).text).sort()).toEqual([north.id, south.id].sort());
  });

  it('the address of a calendar opens that calendar and nothing else', async () => {
    const { path } = await subscribe(service.keys.owner);
    const token = path.slice('/calendars/'.length, -'.ics'.length);
    expect((await service.withKey(token, 'get', '/v1/reports/due-soon')).status).toBe(401);
    expect((await service.withKey(token, 'get', '/v1/calendar-subscriptions')).status).toBe(401);
    for (const method of ['post', 'put', 'patch', 'delete'] as const) {
      const { status, headers } = await service.anonymous(method, path);
      expect([status, headers.allow]).toEqual([405, 'GET, HEAD']);
    }
    expect((await read(`${path}?format=csv`)).status).toBe(400);
  });

  it('the address of a calendar uses the configured host, never the requested one', async () => {
    const response = await service
      .as('owner', 'post', '/v1/calendar-subscriptions')
      .set({ Host: 'evil.example', 'X-Forwarded-Host': 'evil.example' })
      .send({});
    expect(response.text).not.toContain('evil');
    const config = { timeZone: 'UTC', rateLimitPerMinute: 0, publicUrl: 'https://brakes.example/wear' };
    const app = await buildApp({ store: service.store, config });
    await app.ready();
    const { body } = await request(app.server)
      .post('/v1/calendar-subscriptions')
      .set('Authorization', `Bearer ${service.keys.owner}`)
      .send({});
    expect(body.url).toBe(`https://brakes.example/wear${body.path}`);
    await app.close();
  });

  it.each([
    [{ withinDays: -1 }, '#/withinDays'],
    [{ withinDays: 10_958 }, '#/withinDays'],
    [{ chance: 1.1 }, '#/chance'],
    [{ axle: 'middle' }, '#/axle'],
    [{ fleet: '' }, '#/fleet'],
    [{ token: 'of my own' }, '#/token'],
  ])('the address of a calendar is not created with %j', async (body, pointer) => {
    const response = await service.as('owner', 'post', '/v1/calendar-subscriptions').send(body);
    expect([response.status, response.body.errors[0].pointer]).toEqual([422, pointer]);
  });
});

describe('an Idempotency-Key for a calendar address', () => {
  it.skipIf(!onSqlite)('a repeat gets the same address again, and nobody else can read it', async () => {
    const headers = { 'Idempotency-Key': 'calendar-1' };
    const first = await subscribe(service.keys.owner, { name: 'twice' }, headers);
    const again = await service
      .as('owner', 'post', '/v1/calendar-subscriptions')
      .set(headers)
      .send({ name: 'twice' });
    expect(again.headers).toMatchObject({ 'idempotent-replayed': 'true', 'cache-control': 'no-store' });
    expect(again.body).toEqual(first);
    const stored = [service.file, `${service.file}-wal`].map((file) => readFileSync(file).toString('latin1'));
    expect(stored.join('')).toContain('calendar-1');
    expect(stored.join('')).not.toContain(first.path.slice('/calendars/bwc_'.length, -'.ics'.length));
    const { body } = await service.as('owner', 'get', '/v1/calendar-subscriptions?limit=200');
    expect(body.items.filter(({ name }: { name: string }) => name === 'twice')).toHaveLength(1);
  });

  it('a repeat gets a refusal again', async () => {
    const ask = () =>
      service
        .as('owner', 'post', '/v1/calendar-subscriptions')
        .set('Idempotency-Key', 'calendar-2')
        .send({ chance: 2 });
    const first = await ask();
    const again = await ask();
    expect([again.status, again.text]).toEqual([422, first.text]);
  });
});

describe('a calendar address that opens nothing', () => {
  const withoutInstance = ({ instance: _instance, ...body }: Body): Body => body;

  it('a calendar address that opens nothing gets the same answer if it never existed, is no token, was revoked or lost its key', async () => {
    const key = await service.makeKey('technician', 'short-lived');
    const orphan = await subscribe(key);
    const revoked = await subscribe(service.keys.technician);
    await service.store.keys.revoke('short-lived');
    expect(
      (await service.as('technician', 'delete', `/v1/calendar-subscriptions/${revoked.id}`)).status,
    ).toBe(204);
    const cut = (await subscribe(service.keys.owner)).path.replace(/.\.ics$/, '.ics');
    const answers = [];
    for (const path of [
      `/calendars/bwc_${'A'.repeat(43)}.ics`,
      '/calendars/x.ics',
      '/calendars/.ics',
      cut,
      orphan.path,
      revoked.path,
    ])
      answers.push(await read(path));
    for (const { status, body, headers } of answers) {
      expect([status, withoutInstance(body)]).toEqual([404, withoutInstance(answers[0]!.body)]);
      expect(headers['cache-control']).toBe('private, no-cache');
    }
  });

  it('a calendar address that opens nothing leaves every list when its key is revoked', async () => {
    const key = await service.makeKey('front-desk', 'leaving');
    const { id } = await subscribe(key);
    const listed = async () =>
      (await service.as('owner', 'get', '/v1/calendar-subscriptions?limit=200')).text.includes(id);
    expect(await listed()).toBe(true);
    await service.store.keys.revoke('leaving');
    expect(await listed()).toBe(false);
  });
});

describe('listing and revoking calendar addresses', () => {
  it('a key lists its own calendar addresses, and an owner lists all', async () => {
    const mine = await subscribe(service.keys['fleet-manager'], { name: 'mine' });
    const theirs = await subscribe(service.keys.technician, { name: 'theirs' });
    const list = async (role: 'fleet-manager' | 'owner') =>
      (await service.as(role, 'get', '/v1/calendar-subscriptions?limit=200')).body.items as Recorded[];
    const own = await list('fleet-manager');
    expect(new Set(own.map(({ createdBy }) => createdBy))).toEqual(new Set(['fleet-manager']));
    expect((await list('owner')).map(({ id }) => id)).toEqual(expect.arrayContaining([mine.id, theirs.id]));
    const remove = (role: 'fleet-manager' | 'owner', id: string) =>
      service.as(role, 'delete', `/v1/calendar-subscriptions/${id}`);
    expect((await remove('fleet-manager', theirs.id)).status).toBe(404);
    expect((await read(theirs.path)).status).toBe(200);
    expect([(await remove('owner', theirs.id)).status, (await read(theirs.path)).status]).toEqual([204, 404]);
    expect((await remove('owner', theirs.id)).status).toBe(404);
  });

  it('the list of calendar addresses is paged', async () => {
    const key = await service.makeKey('technician', 'pager');
    const ids: string[] = [];
    for (let index = 0; index < 5; index++) ids.push((await subscribe(key)).id);
    const seen: string[] = [];
    let cursor: string | null = '';
    while (cursor !== null) {
      const query: string = cursor && `&cursor=${cursor}`;
      const { body } = await service.withKey(key, 'get', `/v1/calendar-subscriptions?limit=2${query}`);
      seen.push(...(body.items as Recorded[]).map(({ id }) => id));
      cursor = body.nextCursor;
    }
    expect(seen).toEqual(ids);
  });

  it('creating and revoking an address each leave a line in the audit', async () => {
    const { id } = await subscribe(service.keys.technician);
    await service.as('owner', 'delete', `/v1/calendar-subscriptions/${id}`);
    const { body } = await service.as('owner', 'get', '/v1/audit?limit=200');
    const lines = (body.items as AuditEntry[]).filter(({ resourceId }) => resourceId === id);
    expect(lines.map(({ key, method, action, resource }) => [key, method, action, resource])).toEqual([
      ['technician', 'POST', 'created', 'calendar-subscription'],
      ['owner', 'DELETE', 'revoked', 'calendar-subscription'],
    ]);
  });
});

describe('a calendar program that polls', () => {
  it('a calendar program that polls gets 304 until something changes, and then a higher SEQUENCE', async () => {
    const { path } = await subscribe(service.keys.owner, { withinDays: 2000, fleet: FLEET });
    service.setClock('2026-03-10T12:00:30Z');
    const first = await read(path);
    service.setClock('2026-03-10T13:00:00Z');
    const unchanged = await read(path).set('If-None-Match', first.headers.etag!);
    expect([unchanged.status, unchanged.text]).toEqual([304, '']);
    await recordVisit(service, north.id, visitBody('2026-03-09', 60_500, worn));
    const changed = await read(path).set('If-None-Match', first.headers.etag!);
    expect(changed.status).toBe(200);
    expect(changed.headers.etag).not.toBe(first.headers.etag);
    const sequences = ({ text }: { text: string }) =>
      new Map(parseCalendar(text).events.map((e) => [valueOf(e, 'uid'), Number(valueOf(e, 'sequence'))]));
    const before = sequences(first);
    expect(before.size).toBe(2);
    for (const [uid, sequence] of sequences(changed)) expect(sequence).toBeGreaterThan(before.get(uid)!);
    service.setClock('2026-03-10T12:00:00Z');
  });

  it('a calendar program that polls too often gets 429 with Retry-After, and others do not', async () => {
    const limited = await startService({ rateLimitPerMinute: 100_000 });
    try {
      const paths = await Promise.all(
        [1, 2].map(async () => {
          const { body } = await limited.as('owner', 'post', '/v1/calendar-subscriptions').send({});
          return body.path as string;
        }),
      );
      const statuses = [];
      for (let asked = 0; asked < 62; asked++)
        statuses.push((await limited.anonymous('get', paths[0]!)).status);
      expect(statuses.filter((status) => status === 200)).toHaveLength(60);
      const refused = await limited.anonymous('get', paths[0]!);
      expect([refused.status, refused.body.code]).toEqual([429, 'too-many-requests']);
      expect(Number(refused.headers['retry-after'])).toBeGreaterThan(0);
      expect((await limited.anonymous('get', paths[1]!)).status).toBe(200);
      expect((await limited.anonymous('get', '/calendars/x.ics')).status).toBe(404);
    } finally {
      await limited.close();
    }
  });
});

describe('the log of calendar requests', () => {
  it('the log of calendar requests contains no token and no key, however the address is written', async () => {
    const lines: string[] = [];
    const stream = new Writable({
      write: (chunk: Buffer, _encoding, done) => {
        lines.push(chunk.toString('utf8'));
        done();
      },
    });
    const config = { timeZone: 'UTC', rateLimitPerMinute: 0 };
    const app = await buildApp({ store: service.store, config, logger: { ...logging('trace'), stream } });
    await app.ready();
    const { path } = await subscribe(service.keys.owner);
    const token = path.slice('/calendars/bwc_'.length, -'.ics'.length);
    const encoded = path.replace('/calendars/b', '/%63alendars/%62');
    const statuses = [];
    for (const address of [path, encoded, `${path}?x=1`, `${path}/more`, `${path}%zz`, `/v1${path}`]) {
      const { status } = await request(app.server)
        .get(address)
        .set('Authorization', `Bearer ${service.keys.owner}`);
      statuses.push(status);
    }
    await request(app.server).put(path);
    expect(statuses).toEqual([200, 200, 400, 404, 400, 404]);
    const log = lines.join('');
    expect(log).toContain('/calendars/[Redacted]');
    expect(log).not.toContain(token);
    expect(log).not.toContain(service.keys.owner);
    await app.close();
  });
});
