import { z } from 'zod';
import { duePart } from '../../core/vocabulary/dueAxle.js';
import { date, instant, Reason, wholeNumber } from '../../core/vocabulary/quantities.js';
import { AXLES, GROUPINGS } from '../../core/vocabulary/terms.js';
import { dueSoonCalendar } from '../../render/calendar.js';
import { dueSoonCsv, unassessedCsv } from '../../render/csv.js';
import { EVERYONE } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import {
  CALENDAR,
  calendarContent,
  calendarName,
  dueSoonQuery,
  forecastAxle,
  readDueSoonQuery,
  reportedAxle,
} from '../dueSoon.js';
import { pagingQuery } from '../paging.js';
import { exampleDue } from '../examples.js';
import { listProblems } from '../problems.js';
import { csvContent, CSV_CONTENT_TYPE, csvOrJson, fleetQuery } from '../schemas.js';

const total = z.number().meta({ type: 'integer', description: 'Over all pages.' });
const DueAxle = z
  .strictObject({
    ...forecastAxle,
    overdue: z.boolean().meta({
      description: 'A reading fails its limit, or more likely than not a limit has been reached.',
    }),
    part: duePart,
    changedAt: instant.meta({ description: 'When its outlook last changed.' }),
  })
  .meta({ id: 'DueAxle' });
const dueCount = { total: wholeNumber, overdueCount: wholeNumber };
const dueTotals = {
  total,
  overdueCount: wholeNumber.meta({ description: 'How many of them are overdue.' }),
  byAxle: z.array(z.strictObject({ axle: z.enum(AXLES), ...dueCount }).meta({ id: 'DueByAxle' })),
};
const DueGroup = z
  .strictObject({
    fleet: z.string().nullable().optional(),
    model: z.string().nullable().optional(),
    ...dueTotals,
  })
  .meta({ id: 'DueGroup', description: 'What is due of one fleet or model; null is what has none.' });
const DueSoon = z
  .strictObject({
    today: date,
    horizon: date,
    chance: z.number(),
    ...dueTotals,
    unassessedCount: wholeNumber.meta({
      description: 'Axles with no projection; see the unassessed report.',
    }),
    measureFirstCount: wholeNumber.meta({
      description:
        'Axles that are not due, and better measured than planned for; see the measure-first report.',
    }),
    stopCount: wholeNumber.meta({
      description: 'Axles with a stop finding that are not in this list; see the stops report.',
    }),
    groups: z.array(DueGroup).optional().meta({
      description: 'Totals over all pages by `groupBy`, in the order of the items; only where asked.',
    }),
    items: z.array(DueAxle),
    nextCursor: z.string().nullable(),
  })
  .meta({ id: 'DueSoon' });
const UnassessedAxle = z
  .strictObject({ ...reportedAxle, lastReadingDate: date.nullable(), reason: Reason })
  .meta({ id: 'UnassessedAxle' });
const Unassessed = z
  .strictObject({ total, items: z.array(UnassessedAxle), nextCursor: z.string().nullable() })
  .meta({ id: 'Unassessed' });

const DuePosition = z.tuple([z.string(), z.int(), z.enum(AXLES)]);
const GroupedPosition = z.tuple([z.int(), z.string(), ...DuePosition.def.items]);
const UnassessedPosition = z.tuple([z.int(), z.enum(AXLES)]);

export async function reportRoutes(
  app: ZodServer,
  { store, paging, today, now }: RouteContext,
): Promise<void> {
  app.get(
    '/reports/due-soon',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'listDueAxles',
        summary: 'List the axles that are due soon',
        description:
          'Axles of which a part, the linings or the rotors or drums, reaches its limit by the horizon with a chance of at least `chance`; soonest early date first, overdue ones included. As iCalendar, an all-day event for each; POST /v1/calendar-subscriptions makes an address of it for calendar programs.',
        tags: ['reports'],
        querystring: z.strictObject({
          ...dueSoonQuery,
          groupBy: z.enum(GROUPINGS).optional().meta({
            description: 'Orders the items by this first, in every format, and adds its totals to JSON.',
          }),
          format: z.enum(['json', 'csv', 'ics']).optional().meta({
            description: 'json where it is missing; CSV and iCalendar are never paged.',
          }),
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
                  overdueCount: 0,
                  byAxle: [{ axle: 'front', total: 1, overdueCount: 0 }],
                  unassessedCount: 0,
                  measureFirstCount: 2,
                  stopCount: 0,
                  groups: [
                    {
                      fleet: 'north-depot',
                      total: 1,
                      overdueCount: 0,
                      byAxle: [{ axle: 'front', total: 1, overdueCount: 0 }],
                    },
                  ],
                  items: [exampleDue],
                  nextCursor: null,
                },
              },
              ...csvContent,
              ...calendarContent,
            },
          },
          ...listProblems,
        },
      },
    },
    async (request, reply) => {
      const { limit, cursor, format: asked, groupBy, ...filter } = request.query;
      const query = { ...(await readDueSoonQuery(store, filter, today())), groupBy };
      const { caller } = request;
      if (asked === 'csv') {
        const { items } = await store.reports.dueSoon(caller, query, null);
        return reply.type(CSV_CONTENT_TYPE).send(dueSoonCsv(items));
      }
      if (asked === 'ics') {
        const { items } = await store.reports.dueSoon(caller, query, null);
        const name = calendarName(query);
        return reply.type(CALENDAR).send(dueSoonCalendar(items, { ...query, name, now: now() }));
      }
      const position = groupBy ? GroupedPosition : DuePosition;
      const page = paging.readPage({ limit, cursor }, query, position);
      const { items, next, groups, ...totals } = await store.reports.dueSoon(caller, query, page);
      return {
        today: query.today,
        horizon: query.horizon,
        chance: query.chance,
        ...totals,
        ...(groupBy ? { groups: groups.map(({ group, ...own }) => ({ [groupBy]: group, ...own })) } : {}),
        items,
        nextCursor: paging.nextCursor(next, query),
      };
    },
  );

  app.get(
    '/reports/unassessed',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'listUnassessedAxles',
        summary: 'List the axles with no projection, and why',
        description: 'What nobody can tell the date of: never measured, no limit known, no odometer reading.',
        tags: ['reports'],
        querystring: z.strictObject({ fleet: fleetQuery, format: csvOrJson, ...pagingQuery }),
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
      const { caller } = request;
      if (asked === 'csv') {
        const { items } = await store.reports.unassessed(caller, query, null);
        return reply.type(CSV_CONTENT_TYPE).send(unassessedCsv(items));
      }
      const page = paging.readPage({ limit, cursor }, filter, UnassessedPosition);
      const { items, next, total } = await store.reports.unassessed(caller, query, page);
      return { total, items, nextCursor: paging.nextCursor(next, filter) };
    },
  );
}
