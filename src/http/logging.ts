import { LogController, type FastifyReply, type FastifyRequest, type FastifyServerOptions } from 'fastify';
import type { Config } from '../config.js';
import type { KeyCaller } from '../store/contract/caller.js';
import { CALENDARS } from './routes/calendars.js';

/**
 * What the log says: a line an answer, with the name of the key. It holds no key, no token and nothing that tells a
 * vehicle by its registration or VIN, wherever one is in an address or a fault.
 */

/**
 * What an API key looks like, and anything else as long that could be the secret part of one; looked for where a word
 * begins alone, since every line is searched.
 */
const SECRET = /bws_[\w-]*|(?<![\w-])[\w-]{43,}/g;

const REDACTED = '[Redacted]';
/** Parameters whose values say nothing of a vehicle or a person. */
const LOGGED_PARAMETERS = new Set(
  (
    'limit format asOf until since withinDays chance axle months groupBy horizon dryRun dates status type ' +
    'includeVoided includeOutOfService'
  ).split(' '),
);
/** The steps of an address: words of this service, ids and versions. Anything else may be a registration or a VIN. */
const LOGGED_STEP = /^(?:[a-z][a-z.-]*|v1|[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}|)$/;

/** An address without what tells a vehicle, and without a calendar's token, which opens it. */
function addressToLog(url: string): string {
  const [sent, ...rest] = url.split('?');
  let path: string;
  try {
    path = decodeURIComponent(sent!);
  } catch {
    return '[unreadable]';
  }
  if (path.includes(`${CALENDARS}/`)) return `${CALENDARS}/${REDACTED}`;
  const steps = path.split('/').map((step) => (LOGGED_STEP.test(step) ? step : REDACTED));
  if (rest.length === 0) return steps.join('/');
  const parameters = [...new URLSearchParams(rest.join('?'))].map(([name, value]) => {
    const known = LOGGED_PARAMETERS.has(name);
    return `${/^\w{1,40}$/.test(name) ? name : REDACTED}=${known ? value : REDACTED}`;
  });
  return `${steps.join('/')}?${parameters.join('&')}`;
}

/** @param level the least that is logged */
export const logging = (level: Config['logLevel']) =>
  ({
    level,
    serializers: {
      req: ({ method, url, ip }: FastifyRequest) => ({ method, url: addressToLog(url), remoteAddress: ip }),
    },
    hooks: { streamWrite: (line: string) => line.replace(SECRET, '[key]') },
  }) satisfies FastifyServerOptions['logger'];

/** One line for every request, once it is answered; that it has come in is told where each step is followed. */
export class AnswerLog extends LogController {
  override incomingRequest(request: FastifyRequest): void {
    request.log.debug({ req: request }, 'incoming request');
  }

  override requestCompleted(
    error: Error | null | undefined,
    request: FastifyRequest,
    reply: FastifyReply,
  ): void {
    // Addresses outside /v1 and the pages have no caller.
    const key = (request.caller as KeyCaller | null | undefined)?.keyName;
    const told = { req: request, key, res: reply, responseTime: reply.elapsedTime };
    if (error) reply.log.error({ ...told, err: error }, 'request errored');
    else reply.log.info(told, 'request completed');
  }
}
