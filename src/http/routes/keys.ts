import { z } from 'zod';
import { OWNER } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { writeProblems } from '../problems.js';

/** Lists keys; only the command line creates and revokes them. */
export async function keyRoutes(app: ZodServer, { store }: RouteContext): Promise<void> {
  app.delete(
    '/keys/:keyName/sessions',
    {
      config: { roles: OWNER },
      schema: {
        operationId: 'revokeSessions',
        summary: 'End all sessions of a key',
        description:
          'Ends every browser session that was started with this key, at once. The key itself stays valid. To revoke it, use the command line.',
        tags: ['keys'],
        params: z.strictObject({
          keyName: z.string().min(1).max(60).meta({ description: 'The name of a key.', example: 'bay-2' }),
        }),
        response: {
          204: z.undefined().describe('All sessions of this key have ended.'),
          ...writeProblems('bad-parameter', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      await store.keys.endSessions(request.caller, request.params.keyName);
      return reply.code(204).send();
    },
  );
}
