import type { FastifyInstance, FastifyRequest } from 'fastify';
import { faultInNames } from './json.js';
import { HttpProblem } from './problems.js';

/**
 * What a body may be: JSON, not nested beyond all use, or a merge patch where the method is PATCH. A route may ask for
 * a file instead; it gets the stream.
 */

declare module 'fastify' {
  interface FastifyContextConfig {
    /** The media type of a route's body where it is not JSON. */
    bodyType?: string;
  }
}

export const MERGE_PATCH = 'application/merge-patch+json';
export const CSV_TYPE = 'text/csv';
export const JSON_LINES = 'application/x-ndjson';
const JSON_TYPE = 'application/json';
const DEEPEST = 32;

export function readBodies(app: FastifyInstance): void {
  const parse = app.getDefaultJsonParser('error', 'error');
  app.removeContentTypeParser(['application/json', 'text/plain']);
  app.addContentTypeParser([JSON_TYPE, MERGE_PATCH], { parseAs: 'string' }, (request, text, done) => {
    void parse(request, text as string, (error, body) => {
      const refusal = error ? null : unreadable(text as string, body);
      done(refusal === null ? error : new HttpProblem('malformed-request', refusal), body);
    });
  });
  app.addContentTypeParser([CSV_TYPE, JSON_LINES], (_request, stream, done) => done(null, stream));
  app.addHook('preParsing', (request, _reply, payload, done) => {
    refuseOtherTypes(request);
    done(null, payload);
  });
}

/** Before the body is read, so that a type that is known but out of place is refused as any other. */
function refuseOtherTypes({ method, headers, routeOptions }: FastifyRequest): void {
  const [type, ...parameters] = (headers['content-type'] ?? '').toLowerCase().split(';');
  if (!type || (method !== 'POST' && method !== 'PATCH' && method !== 'PUT')) return;
  const expected = method === 'PATCH' ? MERGE_PATCH : (routeOptions.config.bodyType ?? JSON_TYPE);
  const header = method === 'PATCH' ? 'accept-patch' : 'accept';
  const refuse = (detail: string): never => {
    throw new HttpProblem('media-type-not-supported', detail, [], { [header]: expected });
  };
  if (type.trim() !== expected) refuse(`send the body as ${expected}`);
  const charset = parameters.map((text) => /^\s*charset="?([^"]*)"?\s*$/.exec(text)?.[1]).find(Boolean);
  if (charset && !/^utf-?8$/.test(charset.trim())) refuse('send the body in UTF-8');
}

/** Why well-formed JSON is not read; null where it is. */
function unreadable(text: string, body: unknown): string | null {
  if (depthOver(body, DEEPEST)) return `the body is nested more than ${DEEPEST} deep`;
  return faultInNames(text);
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
