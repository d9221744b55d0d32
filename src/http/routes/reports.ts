import { z } from 'zod';
import { duePart } from '../../core/vocabulary/dueAxle.js';
import { date, instant, Reason, wholeNumber } from '../../core/vocabulary/quantities.js';
import { AXLES, GROUPINGS } from '../../core/vocabulary/terms.js';
import { dueSoonCalendar } from '../../render/calendar.js';
import { dueSoonCsv, unassessedCsv } from '../../render/csv.js';
import { EVERYONE } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import {
  AxlePosition,
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

const total = z.number().meta({ type: 'integer', description: 'The number of items on all pages.' });
const DueAxle = z
  .strictObject({
    ...forecastAxle,
    overdue: z.boolean().meta({
      description: 'True if a reading fails its limit, or if a limit has more likely than not been reached.',
    }),
    part: duePart,
    changedAt: instant.meta({ description: 'When the axle’s outlook last changed.' }),
  })
  .meta({ id: 'DueAxle' });
const dueCount = { total: wholeNumber, overdueCount: wholeNumber };
const dueTotals = {
  total,
  overdueCount: wholeNumber.meta({ description: 'How many of these axles are overdue.' }),
  byAxle: z.array(z.strictObject({ axle: z.enum(AXLES), ...dueCount }).meta({ id: 'DueByAxle' })),
};
const DueGroup = z
  .strictObject({
    fleet: z.string().nullable().optional(),
    model: z.string().nullable().optional(),
    ...dueTotals,
  })
  .meta({
    id: 'DueGroup',
    description: 'The due axles of one fleet or model. Null groups the vehicles without one.',
  });
const DueSoon = z
  .strictObject({
    today: date,
    horizon: date,
    chance: z.number(),
    ...dueTotals,
    unassessedCount: wholeNumber.meta({
      description: 'Axles without a forecast. The unassessed report lists them.',
    }),
    measureFirstCount: wholeNumber.meta({
      description:
        'Axles that are not due but should be measured before work is planned. The measure-first report lists them.',
    }),
    stopCount: wholeNumber.meta({
      description: 'Axles with a stop finding that are not in this list. The stops report lists them.',
    }),
    groups: z.array(DueGroup).optional().meta({
      description:
        'Totals of all pages by `groupBy`, in the order of the items. Only present with `groupBy`.',
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

const GroupedPosition = z.tuple([z.int(), z.string(), ...AxlePosition.def.items]);
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
          'Axles on which the linings, rotors or drums reach their limit by the horizon with a chance of at least `chance`. Overdue axles are included. The soonest early date comes first. As iCalendar, each axle is an all-day event. POST /v1/calendar-subscriptions creates an address for calendar programs.',
        tags: ['reports'],
        querystring: z.strictObject({
          ...dueSoonQuery,
          groupBy: z.enum(GROUPINGS).optional().meta({
            description:
              'Sorts the items by this first, in every format. JSON also gets the totals of each group.',
          }),
          format: z.enum(['json', 'csv', 'ics']).optional().meta({
            description: 'If missing, json. CSV and iCalendar are not paged.',
          }),
          ...pagingQuery,
        }),
        response: {
          200: {
            description: 'The due axles.',
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
      const { limit, cursor, format: requestedFormat, groupBy, ...filter } = request.query;
      const query = { ...(await readDueSoonQuery(store, filter, today())), groupBy };
      const { caller } = request;
      if (requestedFormat === 'csv') {
        const { items } = await store.reports.dueSoon(caller, query, null);
        return reply.type(CSV_CONTENT_TYPE).send(dueSoonCsv(items));
      }
      if (requestedFormat === 'ics') {
        const { items } = await store.reports.dueSoon(caller, query, null);
        const name = calendarName(query);
        return reply.type(CALENDAR).send(dueSoonCalendar(items, { ...query, name, now: now() }));
      }
      const position = groupBy ? GroupedPosition : AxlePosition;
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
        summary: 'List the axles without a forecast, and why',
        description:
          'Axles without a forecast, with the reason: never measured, no limit known or no odometer reading.',
        tags: ['reports'],
        querystring: z.strictObject({ fleet: fleetQuery, format: csvOrJson, ...pagingQuery }),
        response: {
          200: {
            description: 'The axles without a forecast.',
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
      const { limit, cursor, format: requestedFormat, ...filter } = request.query;
      const query = { today: today(), fleet: filter.fleet ?? null };
      const { caller } = request;
      if (requestedFormat === 'csv') {
        const { items } = await store.reports.unassessed(caller, query, null);
        return reply.type(CSV_CONTENT_TYPE).send(unassessedCsv(items));
      }
      const page = paging.readPage({ limit, cursor }, filter, UnassessedPosition);
      const { items, next, total } = await store.reports.unassessed(caller, query, page);
      return { total, items, nextCursor: paging.nextCursor(next, filter) };
    },
  );
}
