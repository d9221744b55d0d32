import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Delivery } from '../core/vocabulary/events.js';
import type { Keep } from '../store/contract/idempotency.js';
import { OWNER } from './auth.js';
import { etagOf } from './etag.js';
import { keepFor, sendAnswer, type KeptAnswer } from './idempotency.js';
import { postProblems } from './problems.js';
import { JSON_ANSWER } from './schemas.js';

/** Shared by the routes of webhook endpoints and deliveries. */

export const tags = ['webhooks'];

export const config = { roles: OWNER };

export const queuedProblems = postProblems('bad-parameter', 'not-found', 'webhook-endpoint-disabled');

/** Builds the stored answer to a write of one resource under an address. */
export const answerAt =
  (status: number, address: string) =>
  (resource: { id: string; version: number }): KeptAnswer => ({
    status,
    headers: {
      'content-type': JSON_ANSWER,
      location: `/v1/${address}/${resource.id}`,
      etag: etagOf(resource.version),
    },
    body: JSON.stringify(resource),
  });

const answerToQueued = answerAt(202, 'webhook-deliveries');

/** Answers 202 with the delivery that a request queues. */
export async function sendQueued<Reply extends FastifyReply>(
  request: FastifyRequest,
  reply: Reply,
  queue: (keep: Keep<Delivery> | null) => Promise<Delivery>,
): Promise<Reply> {
  const queued = await queue(keepFor(request, answerToQueued));
  return sendAnswer(request, reply, answerToQueued, queued);
}
