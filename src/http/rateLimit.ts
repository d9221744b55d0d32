import rateLimit from '@fastify/rate-limit';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { ZodServer } from './context.js';
import { HttpProblem } from './problems.js';

/** How many requests may be made in a minute, and by whom; told as draft-ietf-httpapi-ratelimit-headers has it. */

const WINDOW_SECONDS = 60;

interface Policy {
  /** As the header fields name it. */
  name: string;
  /** 0 is no limit. */
  perMinute: number;
  /** Who is counted; an address where it is missing, or its network where it is of IPv6. */
  by?: (request: FastifyRequest) => string;
}

export type Count = (request: FastifyRequest, reply: FastifyReply) => Promise<void>;

/**
 * Makes what counts a request and says in its answer how many are left.
 *
 * @returns a function that throws HttpProblem 429 where one is too many
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
      const detail = `more than ${perMinute} a minute; try again in ${ttlInSeconds} s`;
      throw new HttpProblem('too-many-requests', detail, [], { 'retry-after': String(ttlInSeconds) });
    }
  };
}
