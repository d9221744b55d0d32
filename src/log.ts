import type { FastifyServerOptions } from 'fastify';
import type { Config } from './config.js';

/** What an API key looks like, and anything else as long that could be the secret part of one. */
const SECRET = /(?:bws_[\w-]*|[\w-]{43,})/g;

/** The log's settings: wherever a key stands in a line, in an address or a fault, it is left out. */
export const logOptions = (level: Config['logLevel']) =>
  ({
    level,
    redact: ['req.headers.authorization', 'req.headers.cookie'],
    hooks: { streamWrite: (line: string) => line.replace(SECRET, '[key]') },
  }) satisfies FastifyServerOptions['logger'];
