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
      'The coming visits, such as the seasonal changes of tyres, repeated or with commas between them; where it is missing, the next six by the vehicle’s rhythm or the policy’s interval.',
    example: ['2026-12-01', '2027-04-10'],
  });

const example = replacementPlan(
  exampleVehicle.id,
  exampleHistory,
  exampleOutlook,
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
        summary: 'Read at which visit to fit new linings',
        description:
          'For each coming visit and axle the chance that the limit is reached before it, and how much lining is thrown away if the job is done then. With `costTooLate` and `costPerMmWasted` the visit with the least expected cost is recommended; only the ratio of the two decides, so any unit will do. Without them it is the last visit at which the chance of coming too late is at most `chance`. It takes for granted that the job is done at one of these visits, costs the same at each, and that coming too late costs the same however late. Of an axle that is overdue no coming visit is recommended: the job is due now. Worked out anew at each call, like a wear answer with `asOf`.',
        tags: ['wear'],
        params: vehicleParams,
        querystring: z.strictObject({
          dates: datesQuery,
          costTooLate: amountQuery(
            'What it costs when the limit comes first: a rotor, a breakdown, a day lost.',
            500,
          ),
          costPerMmWasted: amountQuery('What a millimetre of lining costs that is thrown away.', 12),
          chance: chanceQuery(
            'The greatest chance of coming too late that is still taken where no costs are given; the policy’s where it is missing, 0.1 by default.',
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
    .map((date) => ({ detail: `${date} lies in the past`, parameter: 'dates' }));
  if (errors.length > 0) throw badParameter(...errors);
}

function costsOf(tooLate: number | undefined, perMmWasted: number | undefined): PlanPreference['costs'] {
  if (tooLate !== undefined && perMmWasted !== undefined) return { tooLate, perMmWasted };
  if (tooLate === undefined && perMmWasted === undefined) return null;
  const parameter = tooLate === undefined ? 'costTooLate' : 'costPerMmWasted';
  throw badParameter({ detail: 'is needed beside the other cost: only their ratio decides', parameter });
}
