import rateLimit from '@fastify/rate-limit';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { ZodServer } from './context.js';
import type { SharedCounts } from '../store/contract/counts.js';
import { HttpProblem } from './problems.js';
import { sharedRates } from './sharedRates.js';

/** Limits requests per minute and announces the limits as in draft-ietf-httpapi-ratelimit-headers. */

const WINDOW_SECONDS = 60;

interface Policy {
  /** Keeps its counts apart from those of other limits. */
  id: string;
  /** The policy's name in the header fields. */
  name: string;
  /** 0 is no limit. */
  perMinute: number;
  /** Whose requests are counted together. */
  by: (request: FastifyRequest) => string;
}

export type Count = (request: FastifyRequest, reply: FastifyReply) => Promise<void>;

/**
 * Prepares an app for its limits.
 *
 * @param counts null if one server has the database to itself
 */
export async function prepareRateLimits(app: ZodServer, counts: SharedCounts | null): Promise<void> {
  const onFault = (err: unknown): void =>
    app.log.error({ err }, 'could not share request counts with the other servers');
  await app.register(rateLimit, { global: false, ...(counts && { store: sharedRates(counts, onFault) }) });
}

/**
 * Creates a function that counts a request and sets the rate limit headers.
 *
 * @returns a function that throws HttpProblem 429 above the limit
 */
export async function rateLimiter(app: ZodServer, { id, name, perMinute, by }: Policy): Promise<Count> {
  if (perMinute === 0) return async () => undefined;
  const count = app.createRateLimit({
    max: perMinute,
    timeWindow: WINDOW_SECONDS * 1000,
    keyGenerator: (request) => `${id} ${by(request)}`,
  });
  return async (request, reply) => {
    const counted = await count(request);
    if (counted.isAllowed) return;
    const { remaining, ttlInSeconds, isExceeded } = counted;
    reply.header('ratelimit-policy', `"${name}";q=${perMinute};w=${WINDOW_SECONDS}`);
    reply.header('ratelimit', `"${name}";r=${remaining};t=${ttlInSeconds}`);
    if (isExceeded) {
      const detail = `more than ${perMinute} requests a minute; try again in ${ttlInSeconds} s`;
      throw new HttpProblem('too-many-requests', detail, [], { 'retry-after': String(ttlInSeconds) });
    }
  };
}
