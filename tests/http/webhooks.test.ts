import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildApp } from '../../src/app.js';
import type { EndpointWithSecret } from '../../src/core/vocabulary/events.js';
import type { Role } from '../../src/core/vocabulary/terms.js';
import type { AuditEntry } from '../../src/core/vocabulary/records.js';
import type { Body } from '../support/bodies.js';
import { startService, type Method, type Service } from '../support/service.js';
import { changeEndpoint, createEndpoint, deliveries } from '../support/webhooks.js';

/** Endpoints and the list of deliveries, as their owner sees them. */

const URL = 'https://desk.example.com/hooks?for=us';
const MERGE = { 'Content-Type': 'application/merge-patch+json' };

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.close());

const owner = (method: Method, path: string) => service.as('owner', method, `/v1${path}`);

describe('a webhook endpoint', () => {
  it('a webhook endpoint is created with its own secret, shown once', async () => {
    const response = await owner('post', '/webhook-endpoints').send({ url: URL });
    const { secret, ...shown } = response.body as EndpointWithSecret;
    expect([response.status, response.headers.etag, response.headers.location]).toEqual([
      201,
      '"v1"',
      `/v1/webhook-endpoints/${shown.id}`,
    ]);
    expect(shown).toMatchObject({
      url: URL,
      eventTypes: null,
      fleets: null,
      enabled: true,
      disabledBecause: null,
      previousSecretUntil: null,
    });
    expect(secret).toMatch(/^whsec_[A-Za-z0-9+/]+=*$/);
    expect(Buffer.from(secret.slice(6), 'base64')).toHaveLength(32);
    const again = await owner('get', `/webhook-endpoints/${shown.id}`);
    expect(again.body).toEqual(shown);
    const { secret: other } = await createEndpoint(service, { url: URL });
    expect(other).not.toBe(secret);

    await owner('post', `/webhook-endpoints/${shown.id}/test`);
    const answers = [
      '/webhook-endpoints',
      '/webhook-deliveries',
      '/audit',
      '/exports/visits',
      '/exports/vehicles',
    ];
    for (const path of answers) {
      const answer = await owner('get', path);
      expect([path, answer.status, answer.text.includes('whsec_')]).toEqual([path, 200, false]);
    }
  });

  it('a webhook endpoint repeated under its Idempotency-Key gets the same answer with the secret, and is created once', async () => {
    const post = () => owner('post', '/webhook-endpoints').set('Idempotency-Key', 'e-1').send({ url: URL });
    const first = await post();
    const second = await post();
    expect([second.text, second.headers['idempotent-replayed']]).toEqual([first.text, 'true']);
    await owner('delete', `/webhook-endpoints/${first.body.id}`);
  });

  it.each<[string, Body, string]>([
    ['no address', {}, '#/url'],
    ['http', { url: 'http://desk.example.com/' }, '#/url'],
    ['this machine', { url: 'https://127.0.0.1/' }, '#/url'],
    ['a private network', { url: 'https://[fd00::1]/' }, '#/url'],
    ['a password in the address', { url: 'https://a:b@desk.example.com/' }, '#/url'],
    ['an unknown event', { url: URL, eventTypes: ['axle.lost'] }, '#/eventTypes/0'],
    ['no event', { url: URL, eventTypes: [] }, '#/eventTypes'],
    ['no fleet', { url: URL, fleets: [] }, '#/fleets'],
    ['the caller’s own secret', { url: URL, secret: 'whsec_AAAA' }, '#/secret'],
  ])('a webhook endpoint is refused with %s', async (_name, body, pointer) => {
    const response = await owner('post', '/webhook-endpoints').send(body);
    expect([response.status, response.body.errors?.[0].pointer]).toEqual([422, pointer]);
  });

  it('a merge patch with If-Match changes a webhook endpoint', async () => {
    const { id } = await createEndpoint(service, { url: URL, fleets: ['a'] });
    const patch = (body: Body, ifMatch?: string) => {
      const request = owner('patch', `/webhook-endpoints/${id}`).set(MERGE);
      return (ifMatch ? request.set('If-Match', ifMatch) : request).send(JSON.stringify(body));
    };
    expect((await patch({ enabled: false })).status).toBe(428);
    expect((await patch({ enabled: false }, '"v4"')).status).toBe(412);
    const changed = await patch({ eventTypes: ['axle.due'], fleets: null }, '"v1"');
    expect([changed.status, changed.headers.etag]).toEqual([200, '"v2"']);
    expect(changed.body).toMatchObject({ url: URL, eventTypes: ['axle.due'], fleets: null, enabled: true });
    expect((await patch({ url: 'https://localhost/' }, '"v2"')).body.errors[0].pointer).toBe('#/url');
    expect((await patch({ url: null }, '"v2"')).status).toBe(422);
    const unchanged = await owner('get', `/webhook-endpoints/${id}`).set('If-None-Match', '"v2"');
    expect(unchanged.status).toBe(304);
  });

  it('a disabled webhook endpoint accepts no test and no replay', async () => {
    const { id } = await createEndpoint(service, { url: URL });
    const queued = await owner('post', `/webhook-endpoints/${id}/test`);
    expect([queued.status, queued.body]).toMatchObject([
      202,
      { type: 'webhook.test', status: 'pending', attempts: [], event: { data: { endpointId: id } } },
    ]);
    await changeEndpoint(service, id, { enabled: false });
    for (const path of [`/webhook-endpoints/${id}/test`, `/webhook-deliveries/${queued.body.id}/replay`]) {
      const refused = await owner('post', path);
      expect([refused.status, refused.body.code]).toEqual([409, 'webhook-endpoint-disabled']);
    }
  });

  it('deleting a webhook endpoint deletes its deliveries and its secret', async () => {
    const { id } = await createEndpoint(service, { url: URL });
    await owner('post', `/webhook-endpoints/${id}/test`);
    const before = await service.rowCounts();
    const removed = await owner('delete', `/webhook-endpoints/${id}`);
    expect([removed.status, removed.text]).toEqual([204, '']);
    const after = await service.rowCounts();
    for (const table of ['webhook_endpoints', 'webhook_deliveries', 'events']) {
      expect([table, after[table]]).toEqual([table, before[table]! - 1]);
    }
    expect((await owner('get', `/webhook-endpoints/${id}`)).status).toBe(404);
    expect((await owner('delete', `/webhook-endpoints/${id}`)).status).toBe(404);
  });

  it('there are at most twenty webhook endpoints', async () => {
    let last = await owner('post', '/webhook-endpoints').send({ url: URL });
    for (let made = 0; made < 20 && last.status === 201; made++)
      last = await owner('post', '/webhook-endpoints').send({ url: URL });
    expect([last.status, last.body.code]).toEqual([409, 'too-many-webhook-endpoints']);
    const { body } = await owner('get', '/webhook-endpoints');
    expect(body.items).toHaveLength(20);
    for (const { id } of body.items.slice(3)) await owner('delete', `/webhook-endpoints/${id}`);
  });
});

describe('WEBHOOK_ALLOW_PRIVATE', () => {
  it('http and this machine are accepted, and a password in the address is still refused', async () => {
    const open = await startService({ webhookAllowPrivate: true });
    await createEndpoint(open, { url: 'http://127.0.0.1:4800/hooks' });
    const response = await open
      .as('owner', 'post', '/v1/webhook-endpoints')
      .send({ url: 'http://a:b@[::1]/' });
    expect(response.status).toBe(422);
    await open.close();
  });

  it('a private endpoint can be disabled once private addresses are off again, but not enabled or moved', async () => {
    const open = await startService({ webhookAllowPrivate: true });
    const { id } = await createEndpoint(open, { url: 'http://127.0.0.1:4800/hooks' });
    const config = { timeZone: 'UTC', rateLimitPerMinute: 0, webhookAllowPrivate: false };
    const strict = await buildApp({ store: open.store, config, clock: open.clock });
    const patch = (body: Body) =>
      strict.inject({
        method: 'PATCH',
        url: `/v1/webhook-endpoints/${id}`,
        headers: {
          authorization: `Bearer ${open.keys.owner}`,
          'if-match': '*',
          'content-type': MERGE['Content-Type'],
        },
        payload: JSON.stringify(body),
      });
    expect((await patch({ enabled: false })).statusCode).toBe(200);
    expect((await patch({ url: 'http://127.0.0.1:4801/hooks' })).statusCode).toBe(422);
    await strict.close();
    await open.close();
  });
});

describe('webhook operations', () => {
  it('only the owner may use webhook operations', async () => {
    const { id } = await createEndpoint(service, { url: URL });
    const queued = await owner('post', `/webhook-endpoints/${id}/test`);
    const operations: [Method, string, Body?][] = [
      ['get', '/webhook-endpoints'],
      ['post', '/webhook-endpoints', { url: URL }],
      ['get', `/webhook-endpoints/${id}`],
      ['patch', `/webhook-endpoints/${id}`, {}],
      ['delete', `/webhook-endpoints/${id}`],
      ['post', `/webhook-endpoints/${id}/rotate-secret`, {}],
      ['post', `/webhook-endpoints/${id}/test`],
      ['get', '/webhook-deliveries'],
      ['get', `/webhook-deliveries/${queued.body.id}`],
      ['post', `/webhook-deliveries/${queued.body.id}/replay`],
    ];
    const before = await service.rowCounts();
    for (const role of ['front-desk', 'technician', 'fleet-manager'] as Role[]) {
      for (const [method, path, body] of operations) {
        const request = service.as(role, method, `/v1${path}`).set(method === 'patch' ? MERGE : {});
        const response = await (body ? request.send(JSON.stringify(body)).type(typeOf(method)) : request);
        expect([role, method, path, response.status]).toEqual([role, method, path, 403]);
      }
    }
    expect(await service.rowCounts()).toEqual(before);
    expect((await service.anonymous('get', '/v1/webhook-endpoints')).status).toBe(401);
  });

  it('every change leaves a line in the audit, without address or secret', async () => {
    service.setClock('2026-03-11T09:00:00Z');
    const { id, secret } = await createEndpoint(service, { url: URL });
    await changeEndpoint(service, id, { fleets: ['a'] });
    const rotated = await owner('post', `/webhook-endpoints/${id}/rotate-secret`).send({});
    const queued = await owner('post', `/webhook-endpoints/${id}/test`);
    await owner('post', `/webhook-deliveries/${queued.body.id}/replay`);
    await owner('delete', `/webhook-endpoints/${id}`);
    const response = await owner('get', '/audit?since=2026-03-11T09:00:00Z');
    const lines = (response.body.items as AuditEntry[]).map(
      ({ key, method, action, resource, resourceId }) => [key, method, action, resource, resourceId],
    );
    expect(lines).toEqual([
      ['owner', 'POST', 'created', 'webhook-endpoint', id],
      ['owner', 'PATCH', 'changed', 'webhook-endpoint', id],
      ['owner', 'POST', 'secret-rotated', 'webhook-endpoint', id],
      ['owner', 'POST', 'tested', 'webhook-endpoint', id],
      ['owner', 'POST', 'replayed', 'webhook-delivery', queued.body.id],
      ['owner', 'DELETE', 'removed', 'webhook-endpoint', id],
    ]);
    for (const hidden of [secret, rotated.body.secret, 'example.com'])
      expect(response.text).not.toContain(hidden);
  });
});

const typeOf = (method: Method): string => (method === 'patch' ? MERGE['Content-Type'] : 'application/json');

describe('the list of deliveries', () => {
  it('the list of deliveries is paged and filtered, latest first', async () => {
    const [one, two] = [
      await createEndpoint(service, { url: URL }),
      await createEndpoint(service, { url: URL }),
    ];
    for (let index = 0; index < 3; index++) await owner('post', `/webhook-endpoints/${one.id}/test`);
    await owner('post', `/webhook-endpoints/${two.id}/test`);
    const ofOne = await deliveries(service, `&endpointId=${one.id}`);
    expect(ofOne.map(({ endpointId, type }) => [endpointId, type])).toEqual(
      Array(3).fill([one.id, 'webhook.test']),
    );
    expect(await deliveries(service, `&endpointId=${one.id}&status=delivered`)).toEqual([]);
    expect(await deliveries(service, `&endpointId=${one.id}&type=axle.due`)).toEqual([]);
    expect(await deliveries(service, '&endpointId=none')).toEqual([]);
    const paged: string[] = [];
    let cursor: string | null = null;
    do {
      const page = await owner(
        'get',
        `/webhook-deliveries?endpointId=${one.id}&limit=2${cursor ? `&cursor=${cursor}` : ''}`,
      );
      paged.push(...page.body.items.map(({ id }: { id: string }) => id));
      cursor = page.body.nextCursor;
    } while (cursor);
    expect(paged.reverse()).toEqual(ofOne.map(({ id }) => id));
    const first = await owner('get', `/webhook-deliveries?endpointId=${one.id}&limit=2`);
    const elsewhere = await owner('get', `/webhook-deliveries?limit=2&cursor=${first.body.nextCursor}`);
    expect(elsewhere.status).toBe(400);
    expect((await owner('get', '/webhook-deliveries?status=lost')).status).toBe(400);
    expect((await owner('get', '/webhook-deliveries/none')).status).toBe(404);
  });
});
