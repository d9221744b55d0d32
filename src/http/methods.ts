import type { IncomingMessage } from 'node:http';
import type { FastifyInstance, HTTPMethods } from 'fastify';
import { EVERYONE } from './auth.js';
import { HttpProblem } from './problems.js';

const METHODS: HTTPMethods[] = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS', 'TRACE'];
const ROUTED = new Set<string>([...METHODS, 'HEAD']);

/**
 * Node reads some twenty methods more. No address takes one of them, and a route for each would slow every start, so
 * all are routed as one that no address takes either. To be given to Fastify as its `rewriteUrl`.
 */
export function routeOtherMethods(request: Pick<IncomingMessage, 'method' | 'url'>): string {
  if (!ROUTED.has(request.method!)) request.method = 'TRACE';
  return request.url!;
}

/** Notes the methods of every route registered from now on; addresses are without the prefix. */
export function noteMethods(app: FastifyInstance): ReadonlyMap<string, ReadonlySet<string>> {
  const noted = new Map<string, Set<string>>();
  app.addHook('onRoute', ({ url, method, prefix, schema }) => {
    if (schema?.hide) return;
    const address = url.slice(prefix.length);
    noted.set(address, new Set([...(noted.get(address) ?? []), ...[method].flat()]));
  });
  return noted;
}

/** Answers 405 with Allow where a known address is asked with another method; to be registered after the routes. */
export function refuseOtherMethods(
  app: FastifyInstance,
  noted: ReadonlyMap<string, ReadonlySet<string>>,
): void {
  for (const [url, methods] of [...noted]) {
    const others = METHODS.filter((method) => !methods.has(method));
    if (others.length === 0) continue;
    const allow = [...methods].sort().join(', ');
    app.route({
      method: others,
      url,
      config: { roles: EVERYONE },
      schema: { hide: true },
      // Before the body is looked at, whatever its type.
      onRequest: async () => {
        throw new HttpProblem('method-not-allowed', `this address takes ${allow}`, [], { allow });
      },
      handler: async () => undefined,
    });
  }
}
