import jsonMergePatch from 'json-merge-patch';
import { z } from 'zod';
import { invalid } from '../../core/refusal.js';
import {
  Delivery,
  Endpoint,
  EndpointBody,
  EndpointWithSecret,
  RotationBody,
} from '../../core/vocabulary/events.js';
import { urlIssue } from '../../webhooks/addresses.js';
import { MERGE_PATCH } from '../bodies.js';
import type { RouteContext, ZodServer } from '../context.js';
import { etagOf, expectedVersions, sendVersioned } from '../etag.js';
import { exampleDelivery, exampleEndpoint, exampleEndpointWithSecret } from '../examples.js';
import { keepFor, sendAnswer } from '../idempotency.js';
import {
  IF_MATCH_PROBLEMS,
  InputRejected,
  listProblems,
  postProblems,
  resourceProblems,
  writeProblems,
} from '../problems.js';
import {
  answerJson,
  endpointParams,
  idempotencyHeader,
  ifMatchHeader,
  ifNoneMatchHeader,
  notModified,
} from '../schemas.js';
import { answerAt, config, queuedProblems, sendQueued, tags } from '../webhookAnswers.js';
import { deliveryRoutes } from './webhookDeliveries.js';

const EndpointList = z
  .object({ items: z.array(Endpoint), nextCursor: z.null() })
  .meta({ id: 'WebhookEndpointList' });

/** @throws Refusal if events may not be posted to the address */
function refuseUrl({ url }: EndpointBody, allowPrivate: boolean): void {
  const issue = urlIssue(url, allowPrivate);
  if (issue) throw invalid([{ path: ['url'], detail: issue }]);
}

/** @throws InputRejected or Refusal if the patched result is not a valid endpoint */
function patchEndpoint(body: EndpointBody, patch: unknown, allowPrivate: boolean): EndpointBody {
  const { url } = body;
  const changed = EndpointBody.safeParse(jsonMergePatch.apply(body, patch));
  if (!changed.success) throw new InputRejected('body', changed.error.issues);
  // An endpoint whose address is no longer allowed can still be disabled.
  if (changed.data.url !== url) refuseUrl(changed.data, allowPrivate);
  return changed.data;
}

export async function webhookRoutes(app: ZodServer, context: RouteContext): Promise<void> {
  endpointRoutes(app, context);
  endpointChangeRoutes(app, context);
  endpointActionRoutes(app, context);
  deliveryRoutes(app, context);
}

function endpointRoutes(app: ZodServer, { store, webhookAllowPrivate }: RouteContext): void {
  const { webhooks } = store;

  app.post(
    '/webhook-endpoints',
    {
      config: { ...config, holdsSecret: true },
      schema: {
        operationId: 'addWebhookEndpoint',
        summary: 'Create a webhook endpoint',
        description:
          'The server posts events from now on. It posts nothing for axles that are already due; the due-soon report lists them. The answer contains the secret that signs the events. No later answer shows it.',
        tags,
        headers: idempotencyHeader,
        body: EndpointBody,
        response: {
          201: answerJson(EndpointWithSecret, 'The endpoint with its secret.', exampleEndpointWithSecret),
          ...postProblems('invalid', 'too-many-webhook-endpoints'),
        },
      },
    },
    async (request, reply) => {
      refuseUrl(request.body, webhookAllowPrivate);
      const answer = answerAt(201, 'webhook-endpoints');
      const made = await webhooks.create(request.caller, request.body, keepFor(request, answer));
      return sendAnswer(request, reply, answer, made);
    },
  );

  app.get(
    '/webhook-endpoints',
    {
      config,
      schema: {
        operationId: 'listWebhookEndpoints',
        summary: 'List the webhook endpoints',
        description: 'All endpoints, earliest first, without their secrets.',
        tags,
        response: {
          200: answerJson(EndpointList, 'All endpoints.', { items: [exampleEndpoint], nextCursor: null }),
          ...listProblems,
        },
      },
    },
    async () => ({ items: await webhooks.list(), nextCursor: null }),
  );

  app.get(
    '/webhook-endpoints/:endpointId',
    {
      config,
      schema: {
        operationId: 'getWebhookEndpoint',
        summary: 'Read a webhook endpoint',
        description: 'The endpoint without its secret. The answer carries the ETag, which a change needs.',
        tags,
        params: endpointParams,
        headers: ifNoneMatchHeader,
        response: {
          200: answerJson(Endpoint, 'The endpoint.', exampleEndpoint),
          304: notModified,
          ...resourceProblems,
        },
      },
    },
    async (request, reply) =>
      sendVersioned(request, reply, await webhooks.get(request.params.endpointId)) as Endpoint,
  );
}

function endpointChangeRoutes(app: ZodServer, { store, webhookAllowPrivate }: RouteContext): void {
  const { webhooks } = store;

  app.patch(
    '/webhook-endpoints/:endpointId',
    {
      config,
      schema: {
        operationId: 'changeWebhookEndpoint',
        summary: 'Change a webhook endpoint',
        description:
          'An RFC 7396 merge patch of the address, the filters or `enabled`. While the endpoint is disabled, the server raises no events for it. Pending deliveries continue when it is enabled again. Needs If-Match.',
        tags,
        consumes: [MERGE_PATCH],
        params: endpointParams,
        headers: ifMatchHeader,
        body: z.record(z.string(), z.unknown()).meta({
          description: 'Any part of a WebhookEndpointBody.',
          examples: [{ enabled: false }],
        }),
        response: {
          200: answerJson(Endpoint, 'The changed endpoint.', { ...exampleEndpoint, version: 2 }),
          ...writeProblems(...IF_MATCH_PROBLEMS, 'bad-parameter', 'invalid', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      const { endpointId } = request.params;
      const changed = await webhooks.change(request.caller, endpointId, expectedVersions(request), (body) =>
        patchEndpoint(body, request.body, webhookAllowPrivate),
      );
      reply.header('etag', etagOf(changed.version));
      return changed;
    },
  );

  app.delete(
    '/webhook-endpoints/:endpointId',
    {
      config,
      schema: {
        operationId: 'removeWebhookEndpoint',
        summary: 'Remove a webhook endpoint',
        description: 'Deletes the endpoint with its secret and its deliveries, for good.',
        tags,
        params: endpointParams,
        response: {
          204: z.undefined().describe('The endpoint is deleted.'),
          ...writeProblems('bad-parameter', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      await webhooks.remove(request.caller, request.params.endpointId);
      return reply.code(204).send();
    },
  );
}

function endpointActionRoutes(app: ZodServer, { store }: RouteContext): void {
  const { webhooks } = store;

  app.post(
    '/webhook-endpoints/:endpointId/rotate-secret',
    {
      config: { ...config, holdsSecret: true },
      schema: {
        operationId: 'rotateWebhookSecret',
        summary: 'Rotate the secret',
        description:
          'The server creates a new secret. For `overlapHours` it signs with both the new and the previous secret, and the signature header holds two signatures. This gives you time to change the receiver over.',
        tags,
        params: endpointParams,
        headers: idempotencyHeader,
        body: RotationBody,
        response: {
          200: answerJson(EndpointWithSecret, 'The endpoint with its new secret.', {
            ...exampleEndpointWithSecret,
            version: 2,
            previousSecretUntil: '2026-03-03T09:15:00.000Z',
          }),
          ...postProblems('bad-parameter', 'invalid', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      const answer = answerAt(200, 'webhook-endpoints');
      const { overlapHours } = request.body;
      const keep = keepFor(request, answer);
      const { endpointId } = request.params;
      const made = await webhooks.rotateSecret(request.caller, endpointId, overlapHours, keep);
      return sendAnswer(request, reply, answer, made);
    },
  );

  app.post(
    '/webhook-endpoints/:endpointId/test',
    {
      config,
      schema: {
        operationId: 'testWebhookEndpoint',
        summary: 'Send a test event',
        description:
          'Queues a `webhook.test` event, whatever the endpoint’s filters. The delivery shows the result.',
        tags,
        params: endpointParams,
        headers: idempotencyHeader,
        response: {
          202: answerJson(Delivery, 'The delivery, pending.', exampleDelivery),
          ...queuedProblems,
        },
      },
    },
    async (request, reply) =>
      sendQueued(request, reply, (keep) => webhooks.test(request.caller, request.params.endpointId, keep)),
  );
}
