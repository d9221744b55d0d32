import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Expected } from '../store/contract/expected.js';
import { HttpProblem } from './problems.js';

/** Strong entity tags that name one resource's version, RFC 9110 section 8.8.3. */
export const etagOf = (version: number): string => `"v${version}"`;

/** Sends one resource with its tag, or 304 if the caller already has this version. */
export function sendVersioned<Resource extends { version: number }>(
  request: FastifyRequest,
  reply: FastifyReply,
  resource: Resource,
): Resource | FastifyReply {
  return isKnownAs(request, reply, etagOf(resource.version)) ? reply.send() : resource;
}

/** Tags an answer without a version number. Returns true, with status 304 set, if the caller already has it. */
export function isKnownAs(request: FastifyRequest, reply: FastifyReply, etag: string): boolean {
  reply.header('etag', etag);
  if (!matchesNone(request.headers['if-none-match'], etag)) return false;
  reply.code(304);
  return true;
}

/** If-None-Match compares weakly, RFC 9110 section 13.1.2. */
export function matchesNone(header: string | undefined, etag: string): boolean {
  if (header === undefined) return false;
  const opaque = (tag: string): string => tag.trim().replace(/^W\//, '');
  return header.trim() === '*' || header.split(',').some((tag) => opaque(tag) === opaque(etag));
}

/**
 * The versions that If-Match allows. It compares strongly, so weak tags match nothing.
 *
 * @throws HttpProblem 428 when the header is missing
 */
export function expectedVersions(request: FastifyRequest): Expected {
  const header = request.headers['if-match'];
  if (header === undefined) {
    const detail = 'send If-Match with the ETag of the version to change';
    throw new HttpProblem('precondition-needed', detail, [{ detail, header: 'If-Match' }]);
  }
  if (header.trim() === '*') return '*';
  if (/^(W\/)?v?\d+$/.test(header.trim())) {
    const detail = `an ETag needs quotes: send If-Match: "${header.trim().replace(/^(W\/)?v?/, 'v')}"`;
    throw new HttpProblem('stale-version', detail, [{ detail, header: 'If-Match' }]);
  }
  return header.split(',').flatMap((tag) => {
    const version = /^"v(\d+)"$/.exec(tag.trim())?.[1];
    return version === undefined ? [] : [Number(version)];
  });
}
