import type { FastifyServerOptions } from 'fastify';
import type { Config } from '../config.js';
import { CALENDARS } from './routes/calendars.js';

/** What the log may say: no key and no token, wherever one stands in a line, in an address or a fault. */

/**
 * What an API key looks like, and anything else as long that could be the secret part of one; looked for where a word
 * begins alone, since every line is searched.
 */
const SECRET = /bws_[\w-]*|(?<![\w-])[\w-]{43,}/g;

/** A calendar's address opens it, however it is encoded. */
function withoutToken(url: string): string {
  try {
    return decodeURIComponent(url).includes(`${CALENDARS}/`) ? `${CALENDARS}/[Redacted]` : url;
  } catch {
    return '[unreadable]';
  }
}

/** @param level the least that is logged */
export const logging = (level: Config['logLevel']) =>
  ({
    level,
    redact: {
      paths: ['req.url', 'req.headers.authorization', 'req.headers.cookie'],
      censor: (value: unknown, path: string[]) =>
        path.at(-1) === 'url' ? withoutToken(String(value)) : '[Redacted]',
    },
    hooks: { streamWrite: (line: string) => line.replace(SECRET, '[key]') },
  }) satisfies FastifyServerOptions['logger'];
