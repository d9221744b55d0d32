import { LogController, type FastifyReply, type FastifyRequest, type FastifyServerOptions } from 'fastify';
import type { Config } from '../config.js';
import type { KeyCaller } from '../store/contract/caller.js';
import { CALENDARS } from './routes/calendars.js';

/**
 * The request log: one line per answer, with the key's name. Keys, tokens, registrations and VINs are removed from
 * addresses and error messages.
 */

/**
 * Matches API keys and any other token at least as long as a key's secret part. The look-behind keeps the scan of every
 * line fast.
 */
const SECRET = /bws_[\w-]*|(?<![\w-])[\w-]{43,}/g;

const REDACTED = '[Redacted]';
/** Parameters whose values identify neither a vehicle nor a person. */
const LOGGED_PARAMETERS = new Set(
  (
    'limit format asOf until since withinDays chance axle months groupBy horizon dryRun dates status type ' +
    'includeVoided includeOutOfService'
  ).split(' '),
);
/**
 * Path segments that may be logged: words of this service, ids and versions. Anything else may be a registration or a
 * VIN.
 */
const LOGGED_STEP = /^(?:[a-z][a-z.-]*|v1|[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}|)$/;

/** An address without registrations, VINs or calendar tokens; a calendar token alone gives access. */
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

/** @param level minimum level that is logged */
export const logging = (level: Config['logLevel']) =>
  ({
    level,
    serializers: {
      req: ({ method, url, ip }: FastifyRequest) => ({ method, url: addressToLog(url), remoteAddress: ip }),
    },
    hooks: { streamWrite: (line: string) => line.replace(SECRET, '[key]') },
  }) satisfies FastifyServerOptions['logger'];

/** Logs one line per answered request, and the incoming request at debug level. */
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
    const fields = { req: request, key, res: reply, responseTime: reply.elapsedTime };
    if (error) reply.log.error({ ...fields, err: error }, 'request errored');
    else reply.log.info(fields, 'request completed');
  }
}
