import { IncomingMessage, ServerResponse } from 'node:http';
import { Socket } from 'node:net';
import helmet from 'helmet';

/**
 * Security headers, the same for every answer. Computed once: calling helmet per request takes a sixth of a short
 * answer's time.
 */
export function securityHeaders(): Record<string, string> {
  const response = new ServerResponse(new IncomingMessage(new Socket()));
  helmet({ contentSecurityPolicy: false })(response.req, response, () => undefined);
  return response.getHeaders() as Record<string, string>;
}
