import { z } from 'zod';
import { wearAnswer } from '../../core/assessment/outlook.js';
import { fullDate } from '../../core/vocabulary/quantities.js';
import { Wear } from '../../core/vocabulary/wear.js';
import { EVERYONE, scopeOf } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { exampleWear } from '../examples.js';
import { resourceProblems } from '../problems.js';
import { answerJson, JSON_ANSWER, vehicleParams } from '../schemas.js';

export async function wearRoutes(app: ZodServer, { store, today }: RouteContext): Promise<void> {
  app.get(
    '/vehicles/:vehicleId/wear',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'getWear',
        summary: 'Read wear, dates and rotor margins',
        description:
          'For every pad its wear per 1000 km and what remains above the governing limit; for every axle when the first pad will reach it; for every rotor its margin over discard. `low` and `early` are 10 % points, `high` and `late` 90 % points.',
        tags: ['wear'],
        params: vehicleParams,
        querystring: z.strictObject({
          asOf: fullDate.optional().meta({ description: 'Answer from what was known on this date.' }),
          until: fullDate.optional().meta({ description: 'The date of the next visit, for untilNextVisit.' }),
        }),
        response: {
          200: answerJson(Wear, 'The wear answer.', exampleWear),
          ...resourceProblems,
        },
      },
    },
    async (request, reply) => {
      const { vehicleId } = request.params;
      const { asOf, until = null } = request.query;
      const scope = scopeOf(request.caller);
      if (asOf) {
        const outlook = await store.outlooks.asOf(scope, vehicleId, asOf);
        return wearAnswer(vehicleId, outlook, { today: asOf, until });
      }
      const answer = await store.outlooks.wear(scope, vehicleId, { today: today(), until });
      return reply.type(JSON_ANSWER).send(answer as never);
    },
  );
}
