import { z } from 'zod';
import { wearAnswer } from '../../core/assessment/wearAnswer.js';
import { axlePicture } from '../../core/assessment/picture.js';
import { notFound } from '../../core/refusal.js';
import { fullDate } from '../../core/vocabulary/quantities.js';
import { AXLES } from '../../core/vocabulary/terms.js';
import { Wear } from '../../core/vocabulary/wear.js';
import { wearSvg } from '../../render/wearSvg.js';
import { sha256 } from '../../digest.js';
import { EVERYONE } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { isKnownAs } from '../etag.js';
import { exampleWear } from '../examples.js';
import { resourceProblems } from '../problems.js';
import { answerJson, ifNoneMatchHeader, JSON_ANSWER, notModified, vehicleParams } from '../schemas.js';

const asOf = fullDate.optional().meta({ description: 'Answers from what was known on this date.' });

export async function wearRoutes(app: ZodServer, { store, today }: RouteContext): Promise<void> {
  app.get(
    '/vehicles/:vehicleId/wear',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'getWear',
        summary: 'Get wear, dates and rotor margins',
        description:
          'For every pad, the wear per 1,000 km and the thickness left above the governing limit. For every axle, when the first pad will reach that limit. For every rotor, the margin above its discard thickness. `low` and `early` are 10 % points; `high` and `late` are 90 % points.',
        tags: ['wear'],
        params: vehicleParams,
        querystring: z.strictObject({
          asOf,
          until: fullDate.optional().meta({ description: 'The date of the next visit, for untilNextVisit.' }),
        }),
        response: {
          200: answerJson(Wear, 'The wear of every axle.', exampleWear),
          ...resourceProblems,
        },
      },
    },
    async (request, reply) => {
      const { vehicleId } = request.params;
      const { asOf, until = null } = request.query;
      const { caller } = request;
      if (asOf) {
        const outlook = await store.outlooks.asOf(caller, vehicleId, asOf);
        return wearAnswer(vehicleId, outlook, { today: asOf, until });
      }
      const answer = await store.outlooks.wear(caller, vehicleId, { today: today(), until });
      return reply.type(JSON_ANSWER).send(answer as never);
    },
  );

  app.get(
    '/vehicles/:vehicleId/wear.svg',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'getWearPicture',
        summary: 'Draw the wear of one axle',
        description:
          'Charts of the linings and of the rotors or drums: readings with the 95 % interval of their gauges, replacements, limits, and the forecast with its 50 % and 80 % intervals. The figures are those of the wear answer. The title and description of the picture say the same in words.',
        tags: ['wear'],
        params: vehicleParams,
        querystring: z.strictObject({
          axle: z.enum(AXLES).meta({ description: 'The axle to draw.', example: 'front' }),
          asOf,
        }),
        headers: ifNoneMatchHeader,
        response: {
          200: {
            description: 'The picture.',
            content: { 'image/svg+xml': { schema: z.string().meta({ description: 'SVG 1.1, in UTF-8.' }) } },
          },
          304: notModified,
          ...resourceProblems,
        },
      },
    },
    async (request, reply) => {
      const { vehicleId } = request.params;
      const { axle, asOf = null } = request.query;
      const { caller } = request;
      const { history, outlook } = await store.outlooks.withHistory(caller, vehicleId, asOf);
      const date = asOf ?? today();
      const wear = wearAnswer(vehicleId, outlook, { today: date, until: null });
      const picture = axlePicture(history, wear, axle, date);
      if (!picture) throw notFound('axle', `the vehicle has no ${axle} axle`);
      const svg = wearSvg(picture, history.vehicle);
      if (isKnownAs(request, reply, `"${sha256(svg)}"`)) return reply.send(undefined);
      return reply.type('image/svg+xml; charset=utf-8').send(svg);
    },
  );
}
