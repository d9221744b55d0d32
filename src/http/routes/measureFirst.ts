import { z } from 'zod';
import { measureReasons } from '../../core/assessment/measureFirst.js';
import { DEFAULT_POLICY } from '../../core/assessment/policy.js';
import { DecisionReason } from '../../core/vocabulary/wear.js';
import { measureFirstCsv } from '../../render/csv.js';
import { EVERYONE } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { date } from '../../core/vocabulary/quantities.js';
import { exampleDue } from '../examples.js';
import { forecastAxle } from '../dueSoon.js';
import { notDueHandler, notDueQuery } from '../notDue.js';
import { csvContent } from '../schemas.js';
import { listProblems } from '../problems.js';

const MeasureFirstAxle = z
  .strictObject({
    ...forecastAxle,
    reasons: z.array(DecisionReason).meta({
      description: 'Why, and what to measure: `reading-overdue`, `dates-too-far-apart`.',
    }),
  })
  .meta({ id: 'MeasureFirstAxle' });
const MeasureFirst = z
  .strictObject({
    today: date,
    horizon: date,
    chance: z.number(),
    total: z.number().meta({ type: 'integer', description: 'The number of items on all pages.' }),
    items: z.array(MeasureFirstAxle),
    nextCursor: z.string().nullable(),
  })
  .meta({ id: 'MeasureFirst' });

const { overdue: _overdue, part: _part, changedAt: _changedAt, ...forecast } = exampleDue;
const example: z.infer<typeof MeasureFirst> = {
  today: '2026-03-05',
  horizon: '2026-05-04',
  chance: 0.1,
  total: 1,
  items: [
    {
      ...forecast,
      chance: 0.041,
      earlyDate: '2026-05-20',
      medianDate: '2026-09-14',
      lateDate: '2027-03-02',
      reasons: measureReasons(
        {
          measureDate: '2026-04-20',
          expectedDate: '2026-08-31',
          earlyDate: '2026-05-20',
          lateDate: '2027-03-02',
          lastReadingDate: '2026-03-02',
          chance: 0.041,
        },
        { today: '2026-03-05', horizon: '2026-05-04' },
        DEFAULT_POLICY,
      ),
    },
  ],
  nextCursor: null,
};

export async function measureFirstRoutes(app: ZodServer, context: RouteContext): Promise<void> {
  app.get(
    '/reports/measure-first',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'listAxlesToMeasureFirst',
        summary: 'List the axles to measure before planning work, and why',
        description:
          'Axles with a forecast that the due-soon report with the same parameters leaves out, and that need a reading first. One reason is that the axle was not measured for longer than the policy’s `longestDaysWithoutReading`. The other is that its early and late dates are farther apart than the vehicle’s visits, and the chance of reaching the limit rises to 5 % by the horizon and before the next expected visit, or the vehicle has missed a visit. The soonest early date comes first. Axles without a forecast are in the unassessed report.',
        tags: ['reports'],
        querystring: notDueQuery,
        response: {
          200: {
            description: 'The axles to measure.',
            content: { 'application/json': { schema: MeasureFirst, example }, ...csvContent },
          },
          ...listProblems,
        },
      },
    },
    notDueHandler(context, {
      list: context.store.reports.measureFirst,
      csv: measureFirstCsv,
      repeatQuery: ({ today, horizon, chance }) => ({ today, horizon, chance }),
    }),
  );
}
