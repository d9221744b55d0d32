import { IncomingMessage, ServerResponse } from 'node:http';
import { Socket } from 'node:net';
import helmet from 'helmet';

/**
 * The headers that keep a browser careful. They are the same for every answer, and helmet is asked for them once:
 * asked at each request it takes a sixth of the time of a short answer.
 */
export function securityHeaders(): Record<string, string> {
  const response = new ServerResponse(new IncomingMessage(new Socket()));
  helmet({ contentSecurityPolicy: false })(response.req, response, () => undefined);
  return response.getHeaders() as Record<string, string>;
}
