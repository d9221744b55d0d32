import { randomBytes } from 'node:crypto';
import { z } from 'zod';
import {
  CalendarSubscription,
  CalendarSubscriptionBody,
  EXAMPLE_CALENDAR_SUBSCRIPTION,
  NewCalendarSubscription,
} from '../../core/vocabulary/calendarSubscription.js';
import { dueSoonCalendar } from '../../render/calendar.js';
import { sha256 } from '../../digest.js';
import type { OpenedCalendar } from '../../store/contract/calendars.js';
import { EVERYONE } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { CALENDAR, calendarContent, calendarName, readDueSoonQuery } from '../dueSoon.js';
import { matchesNone } from '../etag.js';
import { keepFor, sendAnswer } from '../idempotency.js';
import { listOf, pagingQuery } from '../paging.js';
import { HttpProblem, listProblems, postProblems, problemResponses, writeProblems } from '../problems.js';
import { rateLimiter } from '../rateLimit.js';
import { answerJson, idempotencyHeader, ifNoneMatchHeader, JSON_ANSWER, notModified } from '../schemas.js';

declare module 'fastify' {
  interface FastifyRequest {
    /** The calendar that the address's token opens; null if none. */
    calendar: OpenedCalendar | null;
  }
}

/** Where calendars are read. Not under /v1: calendar programs send no key, only the token in the address. */
export const CALENDARS = '/calendars';

const CalendarSubscriptionList = listOf(CalendarSubscription, 'CalendarSubscriptionList');
const Position = z.tuple([z.int()]);
const example: CalendarSubscription = {
  id: '0197a2f0-6c1e-7d7a-9a55-2f6f1c0de005',
  version: 1,
  chance: null,
  axle: null,
  ...EXAMPLE_CALENDAR_SUBSCRIPTION,
  createdBy: 'depot',
  createdAt: '2026-03-02T09:15:00.000Z',
};

/** Creates, lists and revokes calendar addresses. */
export async function calendarSubscriptionRoutes(
  app: ZodServer,
  { store, paging, publicUrl }: RouteContext,
): Promise<void> {
  app.post(
    '/calendar-subscriptions',
    {
      config: { roles: EVERYONE, holdsSecret: true },
      onRequest: async (_request, reply) => void reply.header('cache-control', 'no-store'),
      schema: {
        operationId: 'addCalendarSubscription',
        summary: 'Create an address for a calendar program',
        description:
          'Calendar programs cannot send a key. The address created here contains a random 256-bit token instead. It gives the due-soon report with these parameters as iCalendar, and nothing else. It sees the same vehicles as the key that creates it and stops working when that key is revoked. The server shows the address only in this answer and stores only its hash. If you lose it, create another.',
        tags: ['reports'],
        headers: idempotencyHeader,
        body: CalendarSubscriptionBody,
        response: {
          201: answerJson(NewCalendarSubscription, 'The subscription and its address.', {
            ...example,
            path: `${CALENDARS}/bwc_${'A'.repeat(43)}.ics`,
            url: null,
          }),
          ...postProblems('invalid'),
        },
      },
    },
    async (request, reply) => {
      const token = `bwc_${randomBytes(32).toString('base64url')}`;
      const path = `${CALENDARS}/${token}.ics`;
      const answer = (subscription: CalendarSubscription) => ({
        status: 201,
        headers: { 'content-type': JSON_ANSWER },
        body: JSON.stringify({ ...subscription, path, url: publicUrl && `${publicUrl}${path}` }),
      });
      const subscription = await store.calendars.create(
        request.caller,
        request.body,
        sha256(token),
        keepFor(request, answer),
      );
      return sendAnswer(request, reply, answer, subscription);
    },
  );

  app.get(
    '/calendar-subscriptions',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'listCalendarSubscriptions',
        summary: 'List the calendar subscriptions',
        description:
          'The subscriptions that this key created, without their addresses. An owner’s key sees all. Subscriptions of revoked keys are not listed.',
        tags: ['reports'],
        querystring: z.strictObject(pagingQuery),
        response: {
          200: answerJson(CalendarSubscriptionList, 'A page of subscriptions.', {
            items: [example],
            nextCursor: null,
          }),
          ...listProblems,
        },
      },
    },
    async (request) => {
      const page = paging.readPage(request.query, {}, Position);
      const { items, next } = await store.calendars.list(request.caller, page);
      return { items, nextCursor: paging.nextCursor(next, {}) };
    },
  );

  app.delete(
    '/calendar-subscriptions/:subscriptionId',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'revokeCalendarSubscription',
        summary: 'Revoke a calendar subscription',
        description:
          'The address stops working at once and for good. A key can revoke its own subscriptions; an owner’s key can revoke any.',
        tags: ['reports'],
        params: z.strictObject({
          subscriptionId: z
            .string()
            .min(1)
            .max(100)
            .meta({ description: 'The `id` of a subscription.', example: example.id }),
        }),
        response: {
          204: z.undefined().describe('The subscription is revoked.'),
          ...writeProblems('bad-parameter', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      const { caller, params } = request;
      await store.calendars.revoke(caller, params.subscriptionId);
      return reply.code(204).send();
    },
  );
}

/** Calendar programs poll every few minutes at most. */
const MAX_PER_MINUTE = 60;

/**
 * Serves calendars by the token in the address. An unknown token, a revoked one and one whose key is gone get the same
 * answer. The lookup is by hash, so that timing does not reveal valid tokens.
 *
 * @param rateLimitPerMinute 0 is no limit
 */
export async function calendarRoutes(
  app: ZodServer,
  { store, today, now, rateLimitPerMinute }: RouteContext & { rateLimitPerMinute: number },
): Promise<void> {
  const countRequest = await rateLimiter(app, {
    id: 'calendar',
    name: 'calendar',
    perMinute: Math.min(rateLimitPerMinute, MAX_PER_MINUTE),
    by: ({ calendar, ip }) => calendar?.subscription.id ?? ip,
  });
  app.decorateRequest('calendar', null);
  app.addHook('onRequest', async (request, reply) => {
    reply.header('cache-control', 'private, no-cache');
    const { token = '' } = request.params as { token?: string };
    request.calendar = await store.calendars.open(sha256(token));
    await countRequest(request, reply);
  });

  app.get(
    `${CALENDARS}/:token.ics`,
    {
      schema: {
        operationId: 'getCalendar',
        summary: 'Get the due-soon report as a calendar',
        description:
          'No key is needed. The token in the address comes from POST /v1/calendar-subscriptions and opens this calendar only.',
        tags: ['reports'],
        security: [],
        params: z.strictObject({
          token: z.string().max(100).meta({ description: 'The secret token from the calendar’s address.' }),
        }),
        headers: ifNoneMatchHeader,
        response: {
          200: { description: 'The calendar.', content: calendarContent },
          304: notModified,
          ...problemResponses('bad-parameter', 'not-found', 'too-many-requests', 'unavailable'),
        },
      },
    },
    async (request, reply) => {
      if (!request.calendar)
        throw new HttpProblem('not-found', 'no calendar has this address; it may have been revoked');
      const { subscription, caller } = request.calendar;
      const query = await readDueSoonQuery(store, subscription, today());
      const { items } = await store.reports.dueSoon(caller, query, null);
      const name = subscription.name ?? calendarName(query);
      const calendar = dueSoonCalendar(items, { ...query, name, now: now() });
      const etag = `W/"${sha256(calendar.replace(/^DTSTAMP:.*$/gm, '')).slice(0, 32)}"`;
      reply.header('etag', etag);
      if (matchesNone(request.headers['if-none-match'], etag)) return reply.code(304).send();
      return reply.type(CALENDAR).send(calendar);
    },
  );
}
