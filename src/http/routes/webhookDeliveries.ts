import { z } from 'zod';
import { Delivery } from '../../core/vocabulary/events.js';
import { DELIVERY_STATES, EVENT_TYPES } from '../../core/vocabulary/terms.js';
import type { DeliveryFilter } from '../../store/contract/webhooks.js';
import type { RouteContext, ZodServer } from '../context.js';
import { sendVersioned } from '../etag.js';
import { exampleDelivery } from '../examples.js';
import { listOf, pagingQuery } from '../paging.js';
import { listProblems, resourceProblems } from '../problems.js';
import { answerJson, deliveryParams, idempotencyHeader, ifNoneMatchHeader, notModified } from '../schemas.js';
import { config, queuedProblems, sendQueued, tags } from '../webhookAnswers.js';

const DeliveryList = listOf(Delivery, 'WebhookDeliveryList');

const DeliveryPosition = z.tuple([z.int()]);

export function deliveryRoutes(app: ZodServer, { store, paging }: RouteContext): void {
  const { webhooks } = store;

  app.get(
    '/webhook-deliveries',
    {
      config,
      schema: {
        operationId: 'listWebhookDeliveries',
        summary: 'List webhook deliveries',
        description:
          'One delivery for each event and endpoint, latest first. Deliveries are kept for 90 days.',
        tags,
        querystring: z.strictObject({
          endpointId: z
            .string()
            .min(1)
            .max(100)
            .optional()
            .meta({ description: 'Only deliveries to this endpoint.' }),
          status: z
            .enum(DELIVERY_STATES)
            .optional()
            .meta({ description: 'Only deliveries in this state.', example: 'given-up' }),
          type: z.enum(EVENT_TYPES).optional().meta({ description: 'Only deliveries of this event.' }),
          ...pagingQuery,
        }),
        response: {
          200: answerJson(DeliveryList, 'A page of deliveries.', {
            items: [exampleDelivery],
            nextCursor: null,
          }),
          ...listProblems,
        },
      },
    },
    async (request) => {
      const { limit, cursor, endpointId = null, status = null, type = null } = request.query;
      const filter: DeliveryFilter = { endpointId, status, type };
      const page = paging.readPage({ limit, cursor }, filter, DeliveryPosition);
      const { items, next } = await webhooks.deliveries(filter, page);
      return { items, nextCursor: paging.nextCursor(next, filter) };
    },
  );

  app.get(
    '/webhook-deliveries/:deliveryId',
    {
      config,
      schema: {
        operationId: 'getWebhookDelivery',
        summary: 'Read a delivery',
        description: 'The event as it is sent, with its latest attempts.',
        tags,
        params: deliveryParams,
        headers: ifNoneMatchHeader,
        response: {
          200: answerJson(Delivery, 'The delivery.', exampleDelivery),
          304: notModified,
          ...resourceProblems,
        },
      },
    },
    async (request, reply) =>
      sendVersioned(request, reply, await webhooks.delivery(request.params.deliveryId)) as Delivery,
  );

  app.post(
    '/webhook-deliveries/:deliveryId/replay',
    {
      config,
      schema: {
        operationId: 'replayWebhookDelivery',
        summary: 'Deliver an event again',
        description:
          'Queues the delivery again with the same webhook-id and body. The retry schedule starts from the beginning.',
        tags,
        params: deliveryParams,
        headers: idempotencyHeader,
        response: {
          202: answerJson(Delivery, 'The delivery, pending.', exampleDelivery),
          ...queuedProblems,
        },
      },
    },
    async (request, reply) =>
      sendQueued(request, reply, (keep) => webhooks.replay(request.caller, request.params.deliveryId, keep)),
  );
}
