import { openPointsOf } from '../../core/assessment/openPoints.js';
import { OpenPoints } from '../../core/vocabulary/openPoints.js';
import { EVERYONE } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { exampleHistory, exampleOutlook, exampleVisit } from '../examples.js';
import { resourceProblems } from '../problems.js';
import { answerJson, visitParams } from '../schemas.js';

const example = (): OpenPoints => {
  const items = openPointsOf(exampleHistory, exampleOutlook().axles);
  return { visitId: exampleVisit.id, complete: items.length === 0, items };
};

export async function openPointRoutes(app: ZodServer, { store }: RouteContext): Promise<void> {
  app.get(
    '/visits/:visitId/open-points',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'getOpenPoints',
        summary: 'List a visit’s open points',
        description:
          'What is missing before the job is complete: findings not answered by work, by a part’s recorded condition or by a repeated reading; a decision to replace, machine or measure that has not been carried out; linings not measured on an axle that was worked on; hydraulics opened without bleeding or new fluid; torques not recorded or outside their specification; work on one side only; no road test, or one that leaves out pull, pulsation or noise. Another visit within a week can close a point. Open points block nothing, and an empty list does not mean that the vehicle is safe.',
        tags: ['visits'],
        params: visitParams,
        response: {
          200: answerJson(OpenPoints, 'The open points.', example),
          ...resourceProblems,
        },
      },
    },
    async (request) => store.openPoints.ofVisit(request.caller, request.params.visitId),
  );
}
