import rateLimit from '@fastify/rate-limit';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { ZodServer } from './context.js';
import { HttpProblem } from './problems.js';

/** Limits requests per minute and announces the limits as in draft-ietf-httpapi-ratelimit-headers. */

const WINDOW_SECONDS = 60;

interface Policy {
  /** The policy's name in the header fields. */
  name: string;
  /** 0 is no limit. */
  perMinute: number;
  /** What is counted; by default the address, or for IPv6 its network. */
  by?: (request: FastifyRequest) => string;
}

export type Count = (request: FastifyRequest, reply: FastifyReply) => Promise<void>;

/**
 * Creates a function that counts a request and sets the rate limit headers.
 *
 * @returns a function that throws HttpProblem 429 above the limit
 */
export async function rateLimiter(app: ZodServer, { name, perMinute, by }: Policy): Promise<Count> {
  if (perMinute === 0) return async () => undefined;
  if (!app.hasDecorator('createRateLimit')) await app.register(rateLimit, { global: false });
  const count = app.createRateLimit({
    max: perMinute,
    timeWindow: WINDOW_SECONDS * 1000,
    ...(by ? { keyGenerator: by } : {}),
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
