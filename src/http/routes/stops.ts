import { z } from 'zod';
import { StopFinding } from '../../core/vocabulary/wear.js';
import { stopsCsv } from '../../render/csv.js';
import { EVERYONE } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { date } from '../../core/vocabulary/quantities.js';
import { exampleDue } from '../examples.js';
import { reportedAxle } from '../dueSoon.js';
import { notDueHandler, notDueQuery } from '../notDue.js';
import { listProblems } from '../problems.js';
import { csvContent } from '../schemas.js';

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

export async function stopsRoutes(app: ZodServer, context: RouteContext): Promise<void> {
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
        querystring: notDueQuery,
        response: {
          200: {
            description: 'The axles with a stop finding.',
            content: { 'application/json': { schema: Stops, example }, ...csvContent },
          },
          ...listProblems,
        },
      },
    },
    notDueHandler(context, {
      list: context.store.reports.stopped,
      csv: stopsCsv,
      repeatQuery: ({ today }) => ({ today }),
    }),
  );
}
