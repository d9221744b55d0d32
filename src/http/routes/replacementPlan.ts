import { z } from 'zod';
import { DEFAULT_POLICY } from '../../core/assessment/policy.js';
import { experienceOf, STARTING } from '../../core/assessment/whichExperience.js';
import { replacementPlan } from '../../core/planning/replacementPlan.js';
import type { PlanPreference } from '../../core/planning/planRule.js';
import { ReplacementPlan } from '../../core/vocabulary/planning.js';
import { fullDate } from '../../core/vocabulary/quantities.js';
import { EVERYONE } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { exampleHistory, exampleOutlook, exampleVehicle } from '../examples.js';
import { badParameter, resourceProblems } from '../problems.js';
import { amountQuery, answerJson, chanceQuery, vehicleParams } from '../schemas.js';

const MAX_DATES = 24;

const datesQuery = z
  .any()
  .pipe(
    z
      .union([z.string(), z.array(z.string())])
      .transform((dates) => [dates].flat().flatMap((text) => text.split(',')))
      .pipe(z.array(fullDate).max(MAX_DATES)),
  )
  .optional()
  .meta({
    type: 'array',
    items: { type: 'string', format: 'date' },
    maxItems: MAX_DATES,
    description:
      'The dates of the coming visits, such as seasonal tyre changes. Repeat the parameter or separate the dates with commas. If missing, the next six visits by the vehicle’s own interval or the policy’s.',
    example: ['2026-12-01', '2027-04-10'],
  });

const example = () =>
  replacementPlan(
    exampleVehicle.id,
    exampleHistory,
    exampleOutlook(),
    experienceOf(exampleHistory.vehicle, STARTING),
    DEFAULT_POLICY,
    {
      today: '2026-03-02',
      dates: ['2026-12-01', '2027-04-10'],
      costs: { tooLate: 500, perMmWasted: 12 },
      greatestChance: 0.1,
    },
  );

export async function replacementPlanRoutes(app: ZodServer, { store, today }: RouteContext): Promise<void> {
  app.get(
    '/vehicles/:vehicleId/replacement-plan',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'getReplacementPlan',
        summary: 'Get the visit at which to fit new linings',
        description:
          'For each coming visit and axle, the chance that the limit is reached before it and how much lining is wasted if the job is done then. With `costTooLate` and `costPerMmWasted`, the server recommends the visit with the lowest expected cost. Only the ratio of the two matters, so any currency will do. Without costs, it recommends the last visit at which the chance of being too late is at most `chance`. It assumes that the job is done at one of these visits, that it costs the same at each, and that being too late costs the same however late. For an overdue axle it recommends no visit: the job is due now. The server computes the plan on every call, like a wear answer with `asOf`.',
        tags: ['wear'],
        params: vehicleParams,
        querystring: z.strictObject({
          dates: datesQuery,
          costTooLate: amountQuery(
            'The cost of reaching the limit before the visit: a ruined rotor, a breakdown, a lost day.',
            500,
          ),
          costPerMmWasted: amountQuery('The cost of one millimetre of wasted lining.', 12),
          chance: chanceQuery(
            'The maximum accepted chance of being too late, if no costs are given. If missing, the policy’s value, which is 0.1 by default.',
          ),
        }),
        response: {
          200: answerJson(ReplacementPlan, 'The plan.', example),
          ...resourceProblems,
        },
      },
    },
    async (request) => {
      const { dates = null, costTooLate, costPerMmWasted, chance } = request.query;
      const date = today();
      if (dates) refusePast(dates, date);
      const { dueSoon } = (await store.settings.policy()).body;
      return store.planning.replacement(request.caller, request.params.vehicleId, {
        today: date,
        dates,
        costs: costsOf(costTooLate, costPerMmWasted),
        greatestChance: chance ?? dueSoon.chance,
      });
    },
  );
}

function refusePast(dates: readonly string[], today: string): void {
  const errors = dates
    .filter((date) => date < today)
    .map((date) => ({ detail: `${date} is in the past`, parameter: 'dates' }));
  if (errors.length > 0) throw badParameter(...errors);
}

function costsOf(tooLate: number | undefined, perMmWasted: number | undefined): PlanPreference['costs'] {
  if (tooLate !== undefined && perMmWasted !== undefined) return { tooLate, perMmWasted };
  if (tooLate === undefined && perMmWasted === undefined) return null;
  const parameter = tooLate === undefined ? 'costTooLate' : 'costPerMmWasted';
  throw badParameter({ detail: 'is missing: give both costs or neither', parameter });
}
