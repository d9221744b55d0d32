import { LogController, type FastifyReply, type FastifyRequest, type FastifyServerOptions } from 'fastify';
import type { Config } from '../config.js';
import { CALENDARS } from './routes/calendars.js';

/** What the log says: a line an answer, and no key and no token, wherever one stands in an address or a fault. */

/**
 * What an API key looks like, and anything else as long that could be the secret part of one; looked for where a word
 * begins alone, since every line is searched.
 */
const SECRET = /bws_[\w-]*|(?<![\w-])[\w-]{43,}/g;

/** A calendar's address opens it, however it is encoded. */
function withoutToken(url: string): string {
  try {
    const plain = url.includes('%') ? decodeURIComponent(url) : url;
    return plain.includes(`${CALENDARS}/`) ? `${CALENDARS}/[Redacted]` : url;
  } catch {
    return '[unreadable]';
  }
}

/** @param level the least that is logged */
export const logging = (level: Config['logLevel']) =>
  ({
    level,
    serializers: {
      req: ({ method, url, ip }: FastifyRequest) => ({ method, url: withoutToken(url), remoteAddress: ip }),
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
    const told = { req: request, res: reply, responseTime: reply.elapsedTime };
    if (error) reply.log.error({ ...told, err: error }, 'request errored');
    else reply.log.info(told, 'request completed');
  }
}
