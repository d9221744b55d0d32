import { randomUUID } from 'node:crypto';
import { STATUS_CODES } from 'node:http';
import type { Socket } from 'node:net';
import { PROBLEMS, PROBLEM_TYPE, problemBody, type ProblemCode } from './problems.js';

/** What Node itself refuses, before there is a request: a problem as any other, and the end of the connection. */

const CODES: Record<string, ProblemCode> = {
  HPE_HEADER_OVERFLOW: 'headers-too-large',
  HPE_CHUNK_EXTENSIONS_OVERFLOW: 'body-too-large',
  ERR_HTTP_REQUEST_TIMEOUT: 'request-too-slow',
};

/** To be given to Fastify as its `clientErrorHandler`. */
export function answerUnreadable({ code: fault = '' }: { code?: string }, socket: Socket): void {
  if (fault === 'ECONNRESET' || !socket.writable) {
    socket.destroy();
    return;
  }
  const code = CODES[fault] ?? 'malformed-request';
  const { status, title } = PROBLEMS[code];
  const id = randomUUID();
  const body = problemBody(id, code, title);
  const head = [
    `HTTP/1.1 ${status} ${STATUS_CODES[status]}`,
    `content-type: ${PROBLEM_TYPE}; charset=utf-8`,
    `content-length: ${Buffer.byteLength(body)}`,
    `request-id: ${id}`,
    'x-content-type-options: nosniff',
    'cache-control: no-store',
    'connection: close',
  ];
  socket.end(`${head.join('\r\n')}\r\n\r\n${body}`);
}
