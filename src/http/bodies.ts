import type { FastifyInstance, FastifyRequest } from 'fastify';
import { HttpProblem } from './problems.js';

/** What a body may be: JSON, or a merge patch where the method is PATCH, and not nested beyond all use. */

export const MERGE_PATCH = 'application/merge-patch+json';
const JSON_TYPE = 'application/json';
const DEEPEST = 32;

export function readBodies(app: FastifyInstance): void {
  const parse = app.getDefaultJsonParser('error', 'error');
  app.removeContentTypeParser(['application/json', 'text/plain']);
  app.addContentTypeParser([JSON_TYPE, MERGE_PATCH], { parseAs: 'string' }, (request, text, done) => {
    void parse(request, text as string, (error, body) => {
      if (!error && depthOver(body, DEEPEST)) {
        done(new HttpProblem('malformed-request', `the body is nested more than ${DEEPEST} deep`));
      } else {
        done(error, body);
      }
    });
  });
  app.addHook('preParsing', async (request) => refuseOtherTypes(request));
}

/** Before the body is read, so that a type that is known but out of place is refused as any other. */
function refuseOtherTypes({ method, headers }: FastifyRequest): void {
  const type = headers['content-type']?.split(';')[0]!.trim().toLowerCase();
  if (type === undefined || (method !== 'POST' && method !== 'PATCH' && method !== 'PUT')) return;
  const expected = method === 'PATCH' ? MERGE_PATCH : JSON_TYPE;
  if (type === expected) return;
  const header = method === 'PATCH' ? 'accept-patch' : 'accept';
  throw new HttpProblem('media-type-not-supported', `send the body as ${expected}`, [], {
    [header]: expected,
  });
}

/** Level by level, since a recursion would end where the nesting is meant to be caught. */
function depthOver(body: unknown, deepest: number): boolean {
  let level: unknown[] = [body];
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > deepest) return true;
    level = level.flatMap((value) =>
      typeof value === 'object' && value !== null ? Object.values(value) : [],
    );
  }
  return false;
}
