import type { FastifyInstance, HTTPMethods } from 'fastify';
import { HttpProblem } from './problems.js';

const METHODS: HTTPMethods[] = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'];

/** Answers 405 with Allow where a known address is asked with another method; to be registered after the routes. */
export function refuseOtherMethods(
  app: FastifyInstance,
  allowed: ReadonlyMap<string, ReadonlySet<string>>,
): void {
  for (const [url, methods] of allowed) {
    const others = METHODS.filter((method) => !methods.has(method));
    if (others.length === 0) continue;
    const allow = [...methods].sort().join(', ');
    app.route({
      method: others,
      url,
      schema: { hide: true },
      // Before the body is looked at, whatever its type.
      onRequest: async () => {
        throw new HttpProblem('method-not-allowed', `this address takes ${allow}`, [], { allow });
      },
      handler: async () => undefined,
    });
  }
}
