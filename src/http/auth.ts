import type { FastifyRequest } from 'fastify';
import fastifyPlugin from 'fastify-plugin';
import type { Role } from '../core/vocabulary/terms.js';
import { sha256 } from '../digest.js';
import type { KeyCaller } from '../store/contract/caller.js';
import type { KeyStore } from '../store/contract/keys.js';
import { HttpProblem } from './problems.js';
import { networkOf } from './networks.js';
import { rateLimiter } from './rateLimit.js';

declare module 'fastify' {
  interface FastifyRequest {
    /** The owner of the request's key; set on every route under /v1. */
    caller: KeyCaller;
  }
  interface FastifyContextConfig {
    /** Roles that may use the route; a route without roles is closed to everyone. */
    roles?: readonly Role[];
    /**
     * The answer contains a secret; a copy stored for an Idempotency-Key is encrypted so that only this caller can read
     * it.
     */
    holdsSecret?: boolean;
  }
}

export const EVERYONE: readonly Role[] = ['front-desk', 'technician', 'fleet-manager', 'owner'];
export const OWNER: readonly Role[] = ['owner'];
export const STAFF: readonly Role[] = ['front-desk', 'technician', 'owner'];

const BEARER = /^Bearer ([A-Za-z0-9_-]{1,200})$/i;

/** The API key of a request; undefined if it sent none. */
export const bearerOf = ({ headers }: FastifyRequest): string | undefined =>
  BEARER.exec(headers.authorization ?? '')?.[1];

interface Authentication {
  keys: KeyStore;
  /** Requests per minute for one key, and requests without a valid key per minute from one address; 0 is no limit. */
  rateLimitPerMinute: number;
  failedKeysPerMinute: number;
}

/** Requires a valid key at every address of its plugin, and one of the route's roles. */
export const authentication = fastifyPlugin<Authentication>(async (app, options) => {
  const { keys, rateLimitPerMinute, failedKeysPerMinute } = options;
  const countFailure = await rateLimiter(app, {
    id: 'failed-keys',
    name: 'failed-keys',
    perMinute: failedKeysPerMinute,
    by: ({ ip }) => networkOf(ip),
  });
  const countRequest = await rateLimiter(app, {
    id: 'api',
    name: 'default',
    perMinute: rateLimitPerMinute,
    by: ({ caller }) => caller.keyName,
  });
  app.decorateRequest('caller', null as unknown as KeyCaller);
  app.addHook('onRequest', async (request, reply) => {
    const token = bearerOf(request);
    const caller = token === undefined ? null : await keys.find(sha256(token));
    if (!caller) {
      await countFailure(request, reply);
      const detail = 'send Authorization: Bearer with a key that has not been revoked';
      throw new HttpProblem('key-needed', detail, [], { 'www-authenticate': 'Bearer realm="brake-wear"' });
    }
    request.caller = caller;
    // Requests answered 404 or 403 count too.
    await countRequest(request, reply);
    const { roles = [] } = request.routeOptions.config;
    if (!request.is404 && !roles.includes(caller.role)) {
      throw new HttpProblem('role-not-allowed', `a ${caller.role} key may not do this`);
    }
  });
});
