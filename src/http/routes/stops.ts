import { z } from 'zod';
import { StopFinding } from '../../core/vocabulary/wear.js';
import { stopsCsv } from '../../render/csv.js';
import { EVERYONE } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { date } from '../../core/vocabulary/quantities.js';
import { exampleDue } from '../examples.js';
import { AxlePosition, dueSoonQuery, readDueSoonQuery, reportedAxle } from '../dueSoon.js';
import { pagingQuery } from '../paging.js';
import { listProblems } from '../problems.js';
import { csvContent, CSV_CONTENT_TYPE, csvOrJson } from '../schemas.js';

const StoppedAxle = z
  .strictObject({
    ...reportedAxle,
    earlyDate: date.nullable(),
    lastReadingDate: date.nullable(),
    stops: z.array(StopFinding).meta({
      description: 'The codes of the stop findings. The wear answer has their messages.',
    }),
  })
  .meta({ id: 'StoppedAxle' });
const Stops = z
  .strictObject({
    today: date,
    total: z.number().meta({ type: 'integer', description: 'The number of items on all pages.' }),
    items: z.array(StoppedAxle),
    nextCursor: z.string().nullable(),
  })
  .meta({ id: 'Stops' });

const { vehicleId, externalId, registration, fleet, model, axle } = exampleDue;
const example: z.infer<typeof Stops> = {
  today: '2026-03-05',
  total: 1,
  items: [
    {
      vehicleId,
      externalId,
      registration,
      fleet,
      model,
      axle,
      earlyDate: '2027-01-20',
      lastReadingDate: '2026-03-02',
      stops: [{ code: 'rotor-cracked', side: 'left', pad: null }],
    },
  ],
  nextCursor: null,
};

export async function stopsRoutes(app: ZodServer, { store, paging, today }: RouteContext): Promise<void> {
  app.get(
    '/reports/stops',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'listStoppedAxles',
        summary: 'List the axles with a stop finding that are not due',
        description:
          'Axles with a finding of severity `stop` that the due-soon report with the same parameters leaves out because their forecast is not due: a cracked rotor with thick pads, a leaking caliper, an axle without a forecast. Both lists together hold every axle that needs work now. The soonest early date comes first.',
        tags: ['reports'],
        querystring: z.strictObject({ ...dueSoonQuery, format: csvOrJson, ...pagingQuery }),
        response: {
          200: {
            description: 'The axles with a stop finding.',
            content: { 'application/json': { schema: Stops, example }, ...csvContent },
          },
          ...listProblems,
        },
      },
    },
    async (request, reply) => {
      const { limit, cursor, format, ...filter } = request.query;
      const query = await readDueSoonQuery(store, filter, today());
      const { caller } = request;
      if (format === 'csv') {
        const { items } = await store.reports.stopped(caller, query, null);
        return reply.type(CSV_CONTENT_TYPE).send(stopsCsv(items));
      }
      const page = paging.readPage({ limit, cursor }, query, AxlePosition);
      const { items, next, total } = await store.reports.stopped(caller, query, page);
      return { today: query.today, total, items, nextCursor: paging.nextCursor(next, query) };
    },
  );
}
