import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { RETRY_DELAYS_MS } from '../../src/core/events/retries.js';
import type { AuditEntry } from '../../src/core/vocabulary/records.js';
import type { Delivery } from '../../src/core/vocabulary/events.js';
import { webhookSender } from '../../src/webhooks/sending.js';
import { fourPads, vehicleBody, visitBody } from '../support/bodies.js';
import { recordVehicle, recordVisit } from '../support/recording.js';
import { startService, type Service } from '../support/service.js';
import {
  changeEndpoint,
  createEndpoint,
  deliveries,
  startReceiver,
  verified,
  workerOf,
} from '../support/webhooks.js';

/** Deliveries to a receiver on this machine, with a clock that the test sets. */

const START = Date.parse('2026-03-10T12:00:00Z');

let service: Service;
let receiver: Awaited<ReturnType<typeof startReceiver>>;
let worker: ReturnType<typeof workerOf>;
let abandoned: object[];
beforeEach(async () => {
  service = await startService({ webhookAllowPrivate: true });
  receiver = await startReceiver();
  abandoned = [];
  worker = workerOf(service, {
    onAbandoned: ({ webhookId, tries }, last) => abandoned.push({ webhookId, tries, ...last }),
  });
});
afterEach(async () => {
  await worker.stop();
  await receiver.close();
  await service.close();
});

const at = (ms: number): void => service.setClock(new Date(START + ms).toISOString());
const endpoint = (more: object = {}) => createEndpoint(service, { url: receiver.url, ...more });
const test = async (id: string): Promise<Delivery> =>
  (await service.as('owner', 'post', `/v1/webhook-endpoints/${id}/test`)).body as Delivery;
const only = async (): Promise<Delivery> => {
  const all = await deliveries(service);
  expect(all).toHaveLength(1);
  return all[0]!;
};

describe('a webhook', () => {
  it('a webhook is posted unchanged, and the reference library accepts its signature', async () => {
    const { secret } = await endpoint({ eventTypes: ['limit.passed'] });
    const vehicle = await recordVehicle(service, vehicleBody());
    await recordVisit(service, vehicle.id, visitBody('2026-03-02', 61_000, fourPads([2, 6, 6, 6])));
    at(700);
    await worker.sendDue();
    const [request, ...others] = receiver.take();
    expect(others).toEqual([]);
    const delivery = await only();
    expect(verified(request!, secret)).toEqual(delivery.event);
    expect(delivery.event).toMatchObject({ type: 'limit.passed', data: { vehicleId: vehicle.id } });
    expect(request!.headers).toMatchObject({
      'content-type': 'application/json',
      'webhook-id': delivery.webhookId,
      'webhook-timestamp': String(START / 1000),
    });
    expect(delivery.webhookId).not.toContain('.');
    expect(delivery).toMatchObject({
      status: 'delivered',
      attempts: [{ at: '2026-03-10T12:00:00.700Z', status: 204, detail: '' }],
      nextAttemptAt: null,
      deliveredAt: '2026-03-10T12:00:00.700Z',
    });
    expect(() => verified({ ...request!, body: `${request!.body} ` }, secret)).toThrow(
      'No matching signature',
    );
    await worker.sendDue();
    expect(receiver.take()).toEqual([]);
  });

  it('a webhook is retried on the schedule under the same id, then given up, and can be replayed', async () => {
    const { id, secret } = await endpoint();
    await test(id);
    receiver.answerWith({ status: 500, body: 'the\nreceiver is\u0007 ill '.padEnd(5000, '.') });
    let since = 0;
    const ids = new Set<unknown>();
    const bodies = new Set<string>();
    for (const [index, delay] of RETRY_DELAYS_MS.entries()) {
      since += delay;
      if (delay > 0) {
        at(since - 1);
        await worker.sendDue();
        expect([index, receiver.take()]).toEqual([index, []]);
      }
      at(since);
      await worker.sendDue();
      const [request, ...others] = receiver.take();
      expect([index, others]).toEqual([index, []]);
      expect(request!.headers['webhook-timestamp']).toBe(String(Math.floor((START + since) / 1000)));
      verified(request!, secret);
      ids.add(request!.headers['webhook-id']);
      bodies.add(request!.body);
    }
    expect([ids.size, bodies.size]).toEqual([1, 1]);
    const givenUp = await only();
    expect(givenUp).toMatchObject({ status: 'given-up', nextAttemptAt: null, deliveredAt: null });
    expect(givenUp.attempts).toHaveLength(10);
    expect(givenUp.attempts[0]!.detail).toMatch(/^the receiver is {1,2}ill \.+$/);
    expect(givenUp.attempts[0]!.detail).toHaveLength(200);
    // The operator's log has a line about the webhook.
    expect(abandoned).toEqual([
      expect.objectContaining({ webhookId: [...ids][0], tries: 9, status: 500, detail: expect.any(String) }),
    ]);

    receiver.answerWith({ status: 200 });
    const replayed = await service.as('owner', 'post', `/v1/webhook-deliveries/${givenUp.id}/replay`);
    expect([replayed.status, replayed.body.status]).toEqual([202, 'pending']);
    await worker.sendDue();
    const [again] = receiver.take();
    expect([again!.headers['webhook-id'], again!.body]).toEqual([[...ids][0], [...bodies][0]]);
    expect(await only()).toMatchObject({ status: 'delivered', attempts: { length: 11 } });
    // A successful delivery can be replayed too.
    await service.as('owner', 'post', `/v1/webhook-deliveries/${givenUp.id}/replay`);
    await worker.sendDue();
    expect(receiver.take()).toHaveLength(1);
  });

  it('a random delay is added to the schedule', async () => {
    const { id } = await endpoint();
    await test(id);
    receiver.answerWith({ status: 500 });
    const jittered = workerOf(service, { chance: () => 1 });
    await jittered.sendDue();
    expect((await only()).nextAttemptAt).toBe('2026-03-10T12:00:05.500Z');
  });

  it.each([
    ['a redirect', 302, { location: '/elsewhere' }],
    ['not found', 404, {}],
    ['a fault', 503, {}],
    ['not changed', 304, {}],
  ])('a delivery fails if the answer is %s', async (_name, status, headers) => {
    const { id } = await endpoint();
    await test(id);
    receiver.answerWith({ status, headers });
    await worker.sendDue();
    expect(receiver.take().map(({ path }) => path)).toEqual(['/hooks']);
    expect(await only()).toMatchObject({
      status: 'pending',
      attempts: [{ status }],
      nextAttemptAt: '2026-03-10T12:00:05.000Z',
    });
  });

  it.each([
    ['200', 200],
    ['201', 201],
    ['299', 299],
  ])('a delivery succeeds if the answer is %s', async (_name, status) => {
    const { id } = await endpoint();
    await test(id);
    receiver.answerWith({ status });
    await worker.sendDue();
    expect((await only()).status).toBe('delivered');
  });

  it('a delivery fails if the receiver does not answer or does not exist', async () => {
    const { id } = await endpoint();
    await test(id);
    receiver.answerWith(() => new Promise(() => undefined));
    const impatient = workerOf(service, { send: webhookSender(true, 100) });
    await impatient.sendDue();
    expect((await only()).attempts).toMatchObject([{ status: null, detail: 'no answer in time' }]);
    await receiver.close();
    at(5_000);
    await impatient.sendDue();
    expect((await only()).attempts[1]).toMatchObject({ status: null, detail: 'no answer: ECONNREFUSED' });
  });

  it('nothing is sent to a private address that is no longer allowed', async () => {
    const { id } = await endpoint();
    await test(id);
    const strict = workerOf(service, { send: webhookSender(false) });
    await strict.sendDue();
    expect(receiver.take()).toEqual([]);
    expect((await only()).attempts).toMatchObject([
      { status: null, detail: 'the address must be an https address' },
    ]);
  });
});

describe('a receiver of webhooks', () => {
  it('a receiver that answers 410 gets nothing more until its owner enables it again', async () => {
    const { id } = await endpoint();
    await test(id);
    await test(id);
    receiver.answerWith({ status: 410 });
    const one = workerOf(service);
    await one.sendDue();
    const states = (await deliveries(service)).map(({ status, nextAttemptAt }) => [status, nextAttemptAt]);
    expect(states).toEqual(Array(2).fill(['given-up', null]));
    const { body } = await service.as('owner', 'get', `/v1/webhook-endpoints/${id}`);
    expect(body).toMatchObject({ enabled: false, version: 2 });
    expect(body.disabledBecause).toContain('410 Gone');
    const audit = await service.as('owner', 'get', '/v1/audit?limit=200');
    const last = (audit.body.items as AuditEntry[]).at(-1)!;
    expect([last.key, last.method, last.action, last.resourceId]).toEqual([null, null, 'disabled', id]);

    receiver.take();
    receiver.answerWith({ status: 204 });
    expect(await changeEndpoint(service, id, { enabled: true })).toMatchObject({ disabledBecause: null });
    const [given] = await deliveries(service);
    await service.as('owner', 'post', `/v1/webhook-deliveries/${given!.id}/replay`);
    await worker.sendDue();
    expect(receiver.take()).toHaveLength(1);
  });

  it.each([
    ['seconds', '120', 120_000],
    ['a date', new Date(START + 7_200_000).toUTCString(), 7_200_000],
    ['more than a day', '999999', 86_400_000],
  ])(
    'a receiver that asks for a delay in %s gets it for every pending delivery',
    async (_name, asked, waits) => {
      const { id } = await endpoint();
      await test(id);
      receiver.answerWith({ status: 429, headers: { 'retry-after': asked } });
      await worker.sendDue();
      expect((await only()).nextAttemptAt).toBe(new Date(START + waits).toISOString());
      receiver.take();
      receiver.answerWith({ status: 204 });
      await test(id);
      at(waits - 1);
      await worker.sendDue();
      expect(receiver.take()).toEqual([]);
      at(waits);
      await worker.sendDue();
      expect(receiver.take()).toHaveLength(2);
    },
  );

  it.each(['1', 'soon', '-5', ''])(
    'a receiver that sends Retry-After %j gets the usual schedule',
    async (asked) => {
      const { id } = await endpoint();
      await test(id);
      receiver.answerWith({ status: 503, headers: { 'retry-after': asked } });
      await worker.sendDue();
      expect((await only()).nextAttemptAt).toBe('2026-03-10T12:00:05.000Z');
    },
  );

  it('a receiver that hangs delays neither another receiver nor a write', async () => {
    const other = await startReceiver();
    const slow = await endpoint();
    const quick = await createEndpoint(service, { url: other.url });
    for (let index = 0; index < 12; index++) await test(slow.id);
    for (let index = 0; index < 5; index++) await test(quick.id);
    let letGo = (): void => undefined;
    const held = new Promise<void>((resolve) => (letGo = resolve));
    receiver.answerWith(async () => {
      await held;
      return { status: 204 };
    });
    const sending = worker.sendDue();
    await expect.poll(() => other.received.length).toBe(5);
    // At most two are in flight to the receiver that hangs.
    expect(receiver.received).toHaveLength(2);
    await recordVehicle(service, vehicleBody());
    letGo();
    await sending;
    expect(receiver.received).toHaveLength(12);
    await other.close();
  });
});

describe('a webhook secret during rotation', () => {
  it('the old secret signs beside the new one until its time is up', async () => {
    const { id, secret: old } = await endpoint();
    const rotation = await service
      .as('owner', 'post', `/v1/webhook-endpoints/${id}/rotate-secret`)
      .send({ overlapHours: 2 });
    const { secret, previousSecretUntil, version } = rotation.body;
    expect([rotation.status, version, previousSecretUntil]).toEqual([200, 2, '2026-03-10T14:00:00.000Z']);
    expect(secret).not.toBe(old);
    const sent = async () => {
      await test(id);
      await worker.sendDue();
      return receiver.take()[0]!;
    };
    at(7_199_999);
    const during = await sent();
    expect(String(during.headers['webhook-signature']).split(' ')).toHaveLength(2);
    expect(verified(during, old)).toEqual(verified(during, secret));
    at(7_200_000);
    const after = await sent();
    expect(String(after.headers['webhook-signature']).split(' ')).toHaveLength(1);
    verified(after, secret);
    expect(() => verified(after, old)).toThrow('No matching signature');
    const shown = await service.as('owner', 'get', `/v1/webhook-endpoints/${id}`);
    expect(shown.body.previousSecretUntil).toBeNull();
  });

  it('the old secret ends at once without an overlap', async () => {
    const { id, secret: old } = await endpoint();
    const rotation = await service
      .as('owner', 'post', `/v1/webhook-endpoints/${id}/rotate-secret`)
      .send({ overlapHours: 0 });
    await test(id);
    await worker.sendDue();
    const [request] = receiver.take();
    verified(request!, rotation.body.secret);
    expect(() => verified(request!, old)).toThrow('No matching signature');
  });
});

describe('a server process that sends webhooks', () => {
  it('after a crash the next process sends the webhook under the same id', async () => {
    const { id } = await endpoint();
    await test(id);
    // Taken by a process that is killed before it records the result.
    const [claimed] = await service.store.outbox.claim({ perEndpoint: 2, inAll: 10 }, new Map());
    await worker.sendDue();
    expect(receiver.take()).toEqual([]);
    at(59_999);
    await worker.sendDue();
    expect(receiver.take()).toEqual([]);
    at(60_000);
    await worker.sendDue();
    expect(receiver.take().map(({ headers }) => headers['webhook-id'])).toEqual([claimed!.webhookId]);
    expect((await only()).status).toBe('delivered');
    // A process that was only delayed no longer records its result.
    const late = { at: service.clock().toISOString(), status: 500, detail: '' };
    await service.store.outbox.settle(claimed!, late, { status: 500, retryAfterMs: null }, 0);
    expect(await only()).toMatchObject({ status: 'delivered', attempts: { length: 1 } });
  });

  it('two processes on one database never send the same webhook', async () => {
    const { id } = await endpoint();
    const ids = [];
    for (let index = 0; index < 30; index++) ids.push((await test(id)).webhookId);
    const second = await service.openAnother();
    const beside = workerOf(service, { outbox: second.outbox });
    await Promise.all([worker.sendDue(), beside.sendDue()]);
    await second.close();
    expect(
      receiver
        .take()
        .map(({ headers }) => headers['webhook-id'])
        .sort(),
    ).toEqual(ids.sort());
    expect(new Set((await deliveries(service)).map(({ status }) => status))).toEqual(new Set(['delivered']));
  });

  it('a started process sends on its own, including events that a new day causes', async () => {
    await endpoint({ eventTypes: ['axle.due'] });
    const vehicle = await recordVehicle(service, vehicleBody());
    await recordVisit(service, vehicle.id, visitBody('2025-03-03', 20_000, fourPads([10, 10, 10, 10])));
    await recordVisit(service, vehicle.id, visitBody('2025-09-01', 40_000, fourPads([9, 9, 9, 9])));
    await recordVisit(service, vehicle.id, visitBody('2026-03-02', 61_000, fourPads([8, 8, 8, 8])));
    worker.start();
    at(1000 * 86_400_000);
    await expect.poll(() => receiver.received.length, { timeout: 10_000 }).toBe(1);
    expect(JSON.parse(receiver.received[0]!.body)).toMatchObject({
      type: 'axle.due',
      data: { vehicleId: vehicle.id, overdue: true },
    });
  });

  it('a stopping process takes no more deliveries and finishes those in flight', async () => {
    const { id } = await endpoint();
    for (let index = 0; index < 6; index++) await test(id);
    receiver.answerWith(async () => {
      await new Promise((resolve) => setTimeout(resolve, 150));
      return { status: 204 };
    });
    const sending = worker.sendDue();
    await expect.poll(() => receiver.received.length).toBe(2);
    await worker.stop();
    await sending;
    const states = (await deliveries(service)).map(({ status }) => status);
    expect(states.filter((status) => status === 'delivered')).toHaveLength(2);
    expect(states.filter((status) => status === 'pending')).toHaveLength(4);
    expect(receiver.received).toHaveLength(2);
  });
});

describe('old deliveries', () => {
  it('old deliveries are deleted after 90 days', async () => {
    const { id } = await endpoint();
    await test(id);
    await worker.sendDue();
    at(89 * 86_400_000);
    await worker.sendDue();
    expect(await service.rowCounts()).toMatchObject({ events: 1, webhook_deliveries: 1 });
    at(91 * 86_400_000);
    await worker.sendDue();
    expect(await service.rowCounts()).toMatchObject({ events: 0, webhook_deliveries: 0 });
  });
});
