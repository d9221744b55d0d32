import type { IncomingMessage } from 'node:http';
import type { FastifyInstance, HTTPMethods } from 'fastify';
import { EVERYONE } from './auth.js';
import { HttpProblem } from './problems.js';

const METHODS: HTTPMethods[] = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS', 'TRACE'];
const ROUTED = new Set<string>([...METHODS, 'HEAD']);

/**
 * Node parses some twenty more methods. No address accepts them, and a route for each would slow every start, so they
 * are all rewritten to one method that no address accepts. Pass to Fastify as `rewriteUrl`.
 */
export function routeOtherMethods(request: Pick<IncomingMessage, 'method' | 'url'>): string {
  if (!ROUTED.has(request.method!)) request.method = 'TRACE';
  return request.url!;
}

/** Records the methods of every route registered from now on; addresses are without the prefix. */
export function noteMethods(app: FastifyInstance): ReadonlyMap<string, ReadonlySet<string>> {
  const noted = new Map<string, Set<string>>();
  app.addHook('onRoute', ({ url, method, prefix, schema }) => {
    if (schema?.hide) return;
    const address = url.slice(prefix.length);
    noted.set(address, new Set([...(noted.get(address) ?? []), ...[method].flat()]));
  });
  return noted;
}

/** Answers 405 with Allow if an address exists but does not support the method. Register after the routes. */
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
      // Runs before the body is parsed, whatever its type.
      onRequest: async () => {
        throw new HttpProblem('method-not-allowed', `this address supports only ${allow}`, [], { allow });
      },
      handler: async () => undefined,
    });
  }
}
