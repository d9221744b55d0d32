import assert from 'node:assert/strict';
import { createServer, type IncomingHttpHeaders } from 'node:http';
import type { AddressInfo } from 'node:net';
import { Webhook } from 'standardwebhooks';
import { vi } from 'vitest';
import type {
  Delivery,
  Endpoint,
  EndpointWithSecret,
  WebhookEvent,
} from '../../src/core/vocabulary/events.js';
import { deliverer, type DelivererOptions } from '../../src/webhooks/deliverer.js';
import { webhookSender } from '../../src/webhooks/sending.js';
import type { Body } from './bodies.js';
import type { Service } from './service.js';

/** A receiver of webhooks on this machine, and a worker that delivers to it when the test asks. */

export interface Received {
  path: string;
  headers: IncomingHttpHeaders;
  body: string;
}
interface Reply {
  status: number;
  headers?: Record<string, string>;
  body?: string;
}

export async function startReceiver() {
  const received: Received[] = [];
  let reply: (request: Received) => Reply | Promise<Reply> = () => ({ status: 204 });
  const server = createServer((request, response) => {
    const chunks: Buffer[] = [];
    request.on('data', (chunk: Buffer) => chunks.push(chunk));
    request.on('end', () => {
      const body = Buffer.concat(chunks).toString('utf8');
      const one = { path: request.url!, headers: request.headers, body };
      received.push(one);
      void Promise.resolve(reply(one)).then(({ status, headers = {}, body: said = '' }) => {
        response.writeHead(status, headers).end(said);
      });
    });
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return {
    received,
    url: `http://127.0.0.1:${port}/hooks`,
    answerWith: (next: Reply | typeof reply): void => {
      reply = typeof next === 'function' ? next : () => next;
    },
    /** What has arrived since the last call. */
    take: (): Received[] => received.splice(0),
    close: (): Promise<void> =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}

/** A worker on a service's outbox, with the service's clock and without jitter. */
export function workerOf(service: Service, options: Partial<DelivererOptions> = {}) {
  const faults: unknown[] = [];
  const worker = deliverer({
    outbox: service.store.outbox,
    send: webhookSender(true, 2_000),
    clock: service.clock,
    today: () => service.clock().toISOString().slice(0, 10),
    chance: () => 0,
    onFault: (fault) => faults.push(fault),
    ...options,
  });
  return {
    ...worker,
    sendDue: async (): Promise<void> => {
      await worker.sendDue();
      assert.deepEqual(faults, []);
    },
  };
}

/**
 * The content of a webhook, after the reference library has verified its signature at its timestamp.
 *
 * @throws WebhookVerificationError
 */
export function verified({ headers, body }: Received, secret: string): WebhookEvent {
  vi.setSystemTime(Number(headers['webhook-timestamp']) * 1000);
  try {
    return new Webhook(secret).verify(body, headers as Record<string, string>) as WebhookEvent;
  } finally {
    vi.useRealTimers();
  }
}

/** @throws when the answer is not 201 */
export async function createEndpoint(service: Service, body: Body): Promise<EndpointWithSecret> {
  const response = await service.as('owner', 'post', '/v1/webhook-endpoints').send(body);
  assert.equal(response.status, 201, response.text);
  return response.body as EndpointWithSecret;
}

export async function changeEndpoint(service: Service, id: string, patch: Body): Promise<Endpoint> {
  const response = await service
    .as('owner', 'patch', `/v1/webhook-endpoints/${id}`)
    .set({ 'If-Match': '*', 'Content-Type': 'application/merge-patch+json' })
    .send(JSON.stringify(patch));
  assert.equal(response.status, 200, response.text);
  return response.body as Endpoint;
}

/** All deliveries, earliest first. */
export async function deliveries(service: Service, query = ''): Promise<Delivery[]> {
  const response = await service.as('owner', 'get', `/v1/webhook-deliveries?limit=200${query}`);
  assert.equal(response.status, 200, response.text);
  return (response.body.items as Delivery[]).reverse();
}
