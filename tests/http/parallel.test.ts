import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import request, { type Response } from 'supertest';
import { buildApp } from '../../src/app.js';
import { VisitBody } from '../../src/core/vocabulary/visit.js';
import { OPERATOR } from '../../src/store/contract/caller.js';
import type { OpenStore } from '../../src/store/open.js';
import { vehicleBody, visitBody, type Body } from '../support/bodies.js';
import { read, recordVehicle, recordVisit } from '../support/recording.js';
import { onSqlite, startService, type Method, type Service } from '../support/service.js';

/** Fifty requests at once, alternating between two servers with their own connections to one database. */
const AT_ONCE = 50;

let service: Service;
let servers: Parameters<typeof request>[0][];
let second: OpenStore;
let closeSecond: () => Promise<void>;

beforeAll(async () => {
  service = await startService();
  const clock = () => new Date('2026-03-10T12:00:00Z');
  second = await service.openAnother({ clock });
  const app = await buildApp({ store: second, config: { timeZone: 'UTC', rateLimitPerMinute: 0 }, clock });
  await app.listen({ host: '127.0.0.1', port: 0 });
  servers = [service.app.server, app.server];
  closeSecond = async () => {
    await app.close();
    await second.close();
  };
});
afterAll(async () => {
  await closeSecond();
  await service.close();
});

type Asked = { body: Body; headers?: Record<string, string> };

function atOnce(method: Method, path: string, ask: (index: number) => Asked): Promise<Response[]> {
  return Promise.all(
    Array.from({ length: AT_ONCE }, async (_, index) => {
      const { body, headers = {} } = ask(index);
      const server = request(servers[index % servers.length]!);
      return server[method](path)
        .set({ Authorization: `Bearer ${service.keys.owner}`, ...headers })
        .expect(service.contract.check)
        .send(headers['Content-Type'] ? JSON.stringify(body) : body);
    }),
  );
}

/** The number of answers by status and problem code. */
function tally(answers: Response[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const { status, body } of answers) {
    const name = [status, body.code].filter(Boolean).join(' ');
    counts[name] = (counts[name] ?? 0) + 1;
  }
  return counts;
}

const newVehicle = async () => (await recordVehicle(service, vehicleBody())).id;
const visitsOf = async (vehicleId: string) =>
  (await read<{ items: Body[] }>(service, `/v1/vehicles/${vehicleId}/visits?limit=200`)).items;
const versionsOf = async (path: string) =>
  (await read<{ items: { version: number }[] }>(service, `${path}/history`)).items.map(
    ({ version }) => version,
  );

describe('fifty requests at once', () => {
  it('of fifty requests with one Idempotency-Key one takes effect; the others get its answer or 409', async () => {
    const vehicleId = await newVehicle();
    const path = `/v1/vehicles/${vehicleId}/visits`;
    const ask = () => ({ body: visitBody('2026-03-02', 1000), headers: { 'Idempotency-Key': 'one' } });
    const answers = await atOnce('post', path, ask);
    expect(await visitsOf(vehicleId)).toHaveLength(1);
    const { '201': made = 0, '409 request-under-way': waiting = 0, ...others } = tally(answers);
    expect(others).toEqual({});
    expect([made > 0, made + waiting]).toEqual([true, AT_ONCE]);
    const texts = answers.filter(({ status }) => status === 201).map(({ text }) => text);
    expect(new Set(texts).size).toBe(1);
    const replays = await atOnce('post', path, ask);
    for (const { status, text, headers } of replays) {
      if (status === 409) continue;
      expect([status, text, headers['idempotent-replayed']]).toEqual([201, texts[0], 'true']);
    }
    expect(await visitsOf(vehicleId)).toHaveLength(1);
  });

  it('of fifty requests with one Idempotency-Key one takes effect, even if two processes looked it up before either wrote', async () => {
    const vehicleId = await newVehicle();
    const write = { keyName: 'owner', target: 'POST /v1/x', key: 'raced', fingerprint: 'f' };
    const keep = { write, outcome: () => '{}' };
    const everything = { ...OPERATOR, keyName: 'owner' };
    const body = VisitBody.parse(visitBody('2026-03-02', 1000));
    await service.store.visits.record(everything, vehicleId, body, keep);
    await expect(second.visits.record(everything, vehicleId, body, keep)).rejects.toMatchObject({
      code: 'request-under-way',
    });
    expect(await visitsOf(vehicleId)).toHaveLength(1);
  });

  it('of fifty requests with one work order and different keys one takes effect: equal content is known, other content is refused', async () => {
    for (const [notes, expectedStatus] of [
      [() => 'same', '200'],
      [(index: number) => `${index}`, '409 work-order-known'],
    ] as const) {
      const vehicleId = await newVehicle();
      const answers = await atOnce('post', `/v1/vehicles/${vehicleId}/visits`, (index) => ({
        body: { date: '2026-03-02', workOrder: 'WO-1', notes: notes(index) },
        headers: { 'Idempotency-Key': `${expectedStatus.slice(0, 3)}-${index}` },
      }));
      expect(tally(answers)).toEqual({ '201': 1, [expectedStatus]: AT_ONCE - 1 });
      expect(await visitsOf(vehicleId)).toHaveLength(1);
    }
  });

  it('of fifty changes to one version of a vehicle one takes effect', async () => {
    const vehicleId = await newVehicle();
    const answers = await atOnce('patch', `/v1/vehicles/${vehicleId}`, (index) => ({
      body: { description: `by ${index}` },
      headers: { 'If-Match': '"v1"', 'Content-Type': 'application/merge-patch+json' },
    }));
    expect(tally(answers)).toEqual({ '200': 1, '412 stale-version': AT_ONCE - 1 });
    const standing = await read<Body>(service, `/v1/vehicles/${vehicleId}`);
    expect(standing).toEqual(answers.find(({ status }) => status === 200)!.body);
    expect(await versionsOf(`/v1/vehicles/${vehicleId}`)).toEqual([1, 2]);
  });

  it.each<[string, (index: number) => Body]>([
    ['correct', (index) => ({ reason: 'typed wrong', changes: { notes: `by ${index}` } })],
    ['void', (index) => ({ reason: `by ${index}`, void: true })],
  ])('of fifty requests that %s one version of a visit one takes effect', async (_name, body) => {
    const { id } = await recordVisit(service, await newVehicle(), visitBody('2026-03-02', 1000));
    const answers = await atOnce('post', `/v1/visits/${id}/corrections`, (index) => ({
      body: body(index),
      headers: { 'If-Match': '"v1"' },
    }));
    expect(tally(answers)).toEqual({ '200': 1, '412 stale-version': AT_ONCE - 1 });
    const { findings, cautions, outlook, ...visit } = answers.find(({ status }) => status === 200)!.body;
    expect([findings, cautions, outlook]).not.toContain(undefined);
    expect(await read<Body>(service, `/v1/visits/${id}`)).toEqual(visit);
    expect(await versionsOf(`/v1/visits/${id}`)).toEqual([1, 2]);
  });

  it('a visit is corrected once with one Idempotency-Key', async () => {
    const { id } = await recordVisit(service, await newVehicle(), visitBody('2026-03-02', 1000));
    const answers = await atOnce('post', `/v1/visits/${id}/corrections`, () => ({
      body: { reason: 'typed wrong', changes: { notes: 'once' } },
      headers: { 'If-Match': '*', 'Idempotency-Key': 'correct-once' },
    }));
    const { '200': made = 0, '409 request-under-way': waiting = 0, ...others } = tally(answers);
    expect(others).toEqual({});
    expect([made > 0, made + waiting]).toEqual([true, AT_ONCE]);
    expect(await versionsOf(`/v1/visits/${id}`)).toEqual([1, 2]);
  });

  it('merging two records into each other at once leaves one of them with everything', async () => {
    const [a, b] = [await newVehicle(), await newVehicle()];
    const first = await recordVisit(service, a, visitBody('2026-03-01', 1000));
    const second = await recordVisit(service, b, visitBody('2026-03-02', 1100));
    const merges = ([into, from]: [string, string]) =>
      request(servers[into === a ? 0 : 1]!)
        .post(`/v1/vehicles/${into}/merge`)
        .set({ Authorization: `Bearer ${service.keys.owner}`, 'If-Match': '"v1"' })
        .send({ from, reason: 'recorded twice' });
    const answers = await Promise.all([merges([a, b]), merges([b, a])]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 404]);
    const standing = answers[0].status === 200 ? a : b;
    expect((await visitsOf(standing)).map(({ id }) => id)).toEqual([second.id, first.id]);
  });
});

describe.skipIf(onSqlite)('limits on two servers', () => {
  it('the requests of a key and the failures to sign in count across both servers', async () => {
    const limited = await startService({ rateLimitPerMinute: 30 });
    const store = await limited.openAnother();
    const config = { timeZone: 'UTC', rateLimitPerMinute: 30 };
    const app = await buildApp({ store, config, clock: limited.clock });
    const both = [limited.app, app];
    const ask = async (index: number) =>
      both[index % 2]!.inject({
        url: '/v1/gauges',
        headers: { authorization: `Bearer ${limited.keys.technician}` },
      });
    for (let index = 0; index < 24; index++) expect((await ask(index)).statusCode).toBe(200);
    // Each server learns within a second or two what the other has counted.
    await expect
      .poll(async () => (await Promise.all([ask(0), ask(1)])).map(({ statusCode }) => statusCode), {
        timeout: 10_000,
        interval: 500,
      })
      .toContain(429);

    const signIn = async (index: number) =>
      both[index % 2]!.inject({
        method: 'POST',
        url: '/sign-in',
        headers: { 'content-type': 'application/x-www-form-urlencoded', 'sec-fetch-site': 'same-origin' },
        payload: 'key=wrong',
      });
    const statuses = [];
    for (let index = 0; index < 21; index++) statuses.push((await signIn(index)).statusCode);
    expect(statuses).toEqual([...Array<number>(20).fill(401), 429]);
    await app.close();
    await store.close();
    await limited.close();
  });
});
