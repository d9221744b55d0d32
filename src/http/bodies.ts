import { isUtf8 } from 'node:buffer';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { faultInJson } from './json.js';
import { HttpProblem } from './problems.js';

/** Parses bodies: JSON in UTF-8, or a merge patch for PATCH. A route that accepts a file gets the stream instead. */

declare module 'fastify' {
  interface FastifyContextConfig {
    /** The media type of the route's body if it is not JSON. */
    bodyType?: string;
  }
}

export const MERGE_PATCH = 'application/merge-patch+json';
export const CSV_TYPE = 'text/csv';
export const JSON_LINES = 'application/x-ndjson';
const JSON_TYPE = 'application/json';

export function readBodies(app: FastifyInstance): void {
  const parse = app.getDefaultJsonParser('error', 'error');
  app.removeContentTypeParser(['application/json', 'text/plain']);
  app.addContentTypeParser([JSON_TYPE, MERGE_PATCH], { parseAs: 'buffer' }, (request, bytes, done) => {
    // Decoding would silently replace invalid bytes, and the replacement characters would be stored.
    if (!isUtf8(bytes as Buffer)) {
      done(new HttpProblem('malformed-request', 'the body is not UTF-8'));
      return;
    }
    const text = (bytes as Buffer).toString('utf8');
    const fault = faultInJson(text);
    if (fault !== null) {
      done(new HttpProblem('malformed-request', fault));
      return;
    }
    void parse(request, text, done);
  });
  app.addContentTypeParser([CSV_TYPE, JSON_LINES], (_request, stream, done) => done(null, stream));
  app.addHook('preParsing', (request, _reply, payload, done) => {
    refuseOtherTypes(request);
    done(null, payload);
  });
}

/** Runs before the body is read, so that a known media type on the wrong route is refused like an unknown one. */
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
