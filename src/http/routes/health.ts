import { z } from 'zod';
import type { RouteContext, ZodServer } from '../context.js';
import { HttpProblem, problemResponses } from '../problems.js';
import { answerJson } from '../schemas.js';

const Health = z.strictObject({ status: z.literal('ok') }).meta({ id: 'Health' });

export async function healthRoutes(app: ZodServer, { store }: RouteContext): Promise<void> {
  app.get(
    '/health/live',
    {
      schema: {
        operationId: 'getLiveness',
        summary: 'Is the process up?',
        description: 'Needs no key.',
        tags: ['health'],
        security: [],
        response: {
          200: answerJson(Health, 'It is.', { status: 'ok' }),
          ...problemResponses('bad-parameter', 'unavailable'),
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
        summary: 'Can it answer from its database?',
        description: 'Needs no key.',
        tags: ['health'],
        security: [],
        response: {
          200: answerJson(Health, 'It can.', { status: 'ok' }),
          ...problemResponses('bad-parameter', 'unavailable'),
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
