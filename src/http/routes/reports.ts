import { z } from 'zod';
import { toDay, toFullDate } from '../../core/calendar.js';
import { Reason, text } from '../../core/vocabulary/quantities.js';
import { AXLES, LINING_POSITIONS, SIDES } from '../../core/vocabulary/terms.js';
import { dueSoonCsv, unassessedCsv } from '../../render/csv.js';
import { EVERYONE, scopeOf } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { nextCursor, pagingQuery, readPage } from '../paging.js';
import { listProblems } from '../problems.js';

const identity = {
  vehicleId: z.string(),
  externalId: z.string().nullable(),
  registration: z.string().nullable(),
  fleet: z.string().nullable(),
  model: z.string().nullable(),
  axle: z.enum(AXLES),
};
const date = z.string().meta({ format: 'date' });

const DueAxle = z
  .strictObject({
    ...identity,
    overdue: z.boolean(),
    chance: z.number().meta({ description: 'That the governing limit has been reached by the horizon.' }),
    earlyDate: date.nullable(),
    medianDate: date.nullable(),
    lateDate: date.nullable(),
    governingPad: z.strictObject({ side: z.enum(SIDES), pad: z.enum(LINING_POSITIONS) }).nullable(),
    limitMm: z.number().nullable(),
    limitSource: z.string().nullable(),
    lastReadingDate: date.nullable(),
  })
  .meta({ id: 'DueAxle' });
const total = z.number().meta({ type: 'integer', description: 'Over all pages.' });
const DueSoon = z
  .strictObject({
    today: date,
    horizon: date,
    chance: z.number(),
    total,
    unassessedCount: z
      .number()
      .meta({ type: 'integer', description: 'Axles with no projection; see the unassessed report.' }),
    items: z.array(DueAxle),
    nextCursor: z.string().nullable(),
  })
  .meta({ id: 'DueSoon' });
const UnassessedAxle = z
  .strictObject({ ...identity, lastReadingDate: date.nullable(), reason: Reason })
  .meta({ id: 'UnassessedAxle' });
const Unassessed = z
  .strictObject({ total, items: z.array(UnassessedAxle), nextCursor: z.string().nullable() })
  .meta({ id: 'Unassessed' });

const EXAMPLE_DUE = {
  vehicleId: 'v-1',
  externalId: 'FD-1007',
  registration: 'KR 4471',
  fleet: 'north-depot',
  model: 'parcel-van-3t5',
  axle: 'front',
  overdue: false,
  chance: 0.31,
  earlyDate: '2026-04-11',
  medianDate: '2026-05-23',
  lateDate: '2026-07-19',
  governingPad: { side: 'left', pad: 'inner' },
  limitMm: 3,
  limitSource: 'wear-indicator',
  lastReadingDate: '2026-03-02',
};

const format = z
  .enum(['json', 'csv'])
  .optional()
  .meta({ description: 'json where it is missing; CSV is never paged.' });
const fleet = text(100).optional();
/** What the due-soon report is asked for, in the interface and on its page. */
export const dueSoonQuery = {
  withinDays: z
    .string()
    .regex(/^\d{1,5}$/, 'must be a whole number of days')
    .transform(Number)
    .refine((days) => days <= 10_957, 'must be at most 10957 days, thirty years')
    .optional()
    .meta({
      description: 'Days from today to the horizon; the policy’s where it is missing, 60 by default.',
      example: '60',
    }),
  chance: z
    .string()
    .regex(/^(\d+(\.\d+)?|\.\d+)$/, 'must be a number from 0 to 1')
    .transform(Number)
    .refine((chance) => chance <= 1, 'must be from 0 to 1')
    .optional()
    .meta({ description: 'The policy’s where it is missing, 0.1 by default.', example: '0.1' }),
  fleet,
};
const DuePosition = z.tuple([z.string(), z.int(), z.enum(AXLES)]);
const UnassessedPosition = z.tuple([z.int(), z.enum(AXLES)]);

const CSV = 'text/csv; charset=utf-8; header=present';
const csvContent = {
  'text/csv': { schema: z.string().meta({ description: 'RFC 4180, with a header row.' }) },
};

export async function reportRoutes(app: ZodServer, { store, today }: RouteContext): Promise<void> {
  app.get(
    '/reports/due-soon',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'getDueSoon',
        summary: 'List the axles that are due soon',
        description:
          'Axles whose chance of reaching the governing limit by the horizon is at least `chance`; soonest early date first, overdue ones included.',
        tags: ['reports'],
        querystring: z.strictObject({
          ...dueSoonQuery,
          axle: z.enum(AXLES).optional(),
          format,
          ...pagingQuery,
        }),
        response: {
          200: {
            description: 'The axles that are due.',
            content: {
              'application/json': {
                schema: DueSoon,
                example: {
                  today: '2026-03-05',
                  horizon: '2026-05-04',
                  chance: 0.1,
                  total: 1,
                  unassessedCount: 0,
                  items: [EXAMPLE_DUE],
                  nextCursor: null,
                },
              },
              ...csvContent,
            },
          },
          ...listProblems,
        },
      },
    },
    async (request, reply) => {
      const { limit, cursor, format: asked, ...filter } = request.query;
      const { dueSoon } = (await store.settings.policy()).body;
      const { withinDays = dueSoon.withinDays, chance = dueSoon.chance } = filter;
      const date = today();
      const horizon = toFullDate(toDay(date) + withinDays);
      const query = { today: date, horizon, chance, fleet: filter.fleet ?? null, axle: filter.axle ?? null };
      const scope = scopeOf(request.caller);
      if (asked === 'csv') {
        const { items } = await store.reports.dueSoon(scope, query, null);
        return reply.type(CSV).send(dueSoonCsv(items) as never);
      }
      const bound = { ...filter, withinDays, chance, date };
      const page = readPage({ limit, cursor }, bound, DuePosition);
      const { items, next, total, unassessedCount } = await store.reports.dueSoon(scope, query, page);
      return {
        today: date,
        horizon,
        chance,
        total,
        unassessedCount,
        items,
        nextCursor: nextCursor(next, bound),
      };
    },
  );

  app.get(
    '/reports/unassessed',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'getUnassessed',
        summary: 'List the axles with no projection, and why',
        description: 'What nobody can tell the date of: never measured, no limit known, no odometer reading.',
        tags: ['reports'],
        querystring: z.strictObject({ fleet, format, ...pagingQuery }),
        response: {
          200: {
            description: 'The axles that are not assessed.',
            content: {
              'application/json': { schema: Unassessed, example: { total: 0, items: [], nextCursor: null } },
              ...csvContent,
            },
          },
          ...listProblems,
        },
      },
    },
    async (request, reply) => {
      const { limit, cursor, format: asked, ...filter } = request.query;
      const query = { today: today(), fleet: filter.fleet ?? null };
      const scope = scopeOf(request.caller);
      if (asked === 'csv') {
        const { items } = await store.reports.unassessed(scope, query, null);
        return reply.type(CSV).send(unassessedCsv(items) as never);
      }
      const page = readPage({ limit, cursor }, filter, UnassessedPosition);
      const { items, next, total } = await store.reports.unassessed(scope, query, page);
      return { total, items, nextCursor: nextCursor(next, filter) };
    },
  );
}
