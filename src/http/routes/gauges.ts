import { z } from 'zod';
import { GAUGES } from '../../core/gauges.js';
import { GAUGE_KINDS } from '../../core/vocabulary/terms.js';
import { EVERYONE } from '../auth.js';
import type { ZodServer } from '../context.js';
import { listProblems } from '../problems.js';
import { answerJson } from '../schemas.js';

const Gauge = z
  .strictObject({
    name: z.string(),
    kind: z.enum(GAUGE_KINDS),
    resolutionMm: z.number(),
    standardUncertaintyMm: z
      .number()
      .meta({ description: 'Of one reading, rounding to the resolution included.' }),
  })
  .meta({ id: 'Gauge' });

export async function gaugeRoutes(app: ZodServer): Promise<void> {
  app.get(
    '/gauges',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'listGauges',
        summary: 'List the gauges known',
        description: 'A reading names one of these; where it names none, a coarse one is assumed.',
        tags: ['reference'],
        querystring: z.strictObject({}),
        response: {
          200: answerJson(
            z.object({ items: z.array(Gauge), nextCursor: z.null() }).meta({ id: 'GaugeList' }),
            'All gauges.',
            {
              items: [GAUGES[0]],
              nextCursor: null,
            },
          ),
          ...listProblems,
        },
      },
    },
    async () => ({ items: [...GAUGES], nextCursor: null }),
  );
}
