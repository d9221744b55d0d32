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
        summary: 'Check that the process is running',
        description: 'The server answers 200 while the process runs. No key is needed.',
        tags: ['health'],
        security: [],
        response: {
          200: answerJson(Health, 'The process is running.', { status: 'ok' }),
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
        summary: 'Check that the server can use its database',
        description:
          'The server answers 503 while it cannot read its database or is shutting down. No key is needed.',
        tags: ['health'],
        security: [],
        response: {
          200: answerJson(Health, 'The server is ready.', { status: 'ok' }),
          ...healthProblems,
        },
      },
    },
    async (request) => {
      await store.check().catch((error: unknown) => {
        request.log.error({ err: error }, 'the database cannot be read');
        throw new HttpProblem('unavailable', 'the server cannot read its database; try again later', [], {
          'retry-after': '5',
        });
      });
      return { status: 'ok' as const };
    },
  );
}
