import { z } from 'zod';
import type { RouteContext, ZodServer } from '../context.js';
import { HttpProblem, problemResponses } from '../problems.js';
import { answerJson } from '../schemas.js';

const Health = z.strictObject({ status: z.literal('ok') }).meta({ id: 'Health' });

const healthProblems = problemResponses('bad-parameter', 'unavailable');

export async function healthRoutes(app: ZodServer, { store }: RouteContext): Promise<void> {
  app.get(
    '/health/live',
    {
      schema: {
        operationId: 'getLiveness',
        summary: 'Read whether the process is up',
        description: 'Answers as long as the process does. Needs no key.',
        tags: ['health'],
        security: [],
        response: {
          200: answerJson(Health, 'It is.', { status: 'ok' }),
          ...healthProblems,
        },
      },
    },
    async () => ({ status: 'ok' as const }),
  );
  app.get(
    '/health/ready',
    {
      schema: {
        operationId: 'getReadiness',
        summary: 'Read whether it can answer from its database',
        description: 'Answers 503 while the database cannot be read or the service is closing. Needs no key.',
        tags: ['health'],
        security: [],
        response: {
          200: answerJson(Health, 'It can.', { status: 'ok' }),
          ...healthProblems,
        },
      },
    },
    async (request) => {
      await store.check().catch((error: unknown) => {
        request.log.error({ err: error }, 'the database cannot be read');
        throw new HttpProblem('unavailable', 'the database cannot be read just now', [], {
          'retry-after': '5',
        });
      });
      return { status: 'ok' as const };
    },
  );
}
