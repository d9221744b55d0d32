import { randomUUID } from 'node:crypto';
import { STATUS_CODES, type IncomingMessage, type ServerResponse } from 'node:http';
import type { Socket } from 'node:net';
import { PROBLEMS, PROBLEM_TYPE, problemBody, type ProblemCode } from './problems.js';

/** Answers with a problem and closes the connection where Node would send an empty error. */

const CODES: Record<string, ProblemCode> = {
  HPE_HEADER_OVERFLOW: 'headers-too-large',
  HPE_CHUNK_EXTENSIONS_OVERFLOW: 'body-too-large',
  ERR_HTTP_REQUEST_TIMEOUT: 'request-too-slow',
};

/** Pass to Fastify as `clientErrorHandler`. */
export function answerUnreadable({ code: fault = '' }: { code?: string }, socket: Socket): void {
  if (fault === 'ECONNRESET' || !socket.writable) {
    socket.destroy();
    return;
  }
  const code = CODES[fault] ?? 'malformed-request';
  const { status } = PROBLEMS[code];
  const { headers, body } = problemAndEnd(code);
  const head = Object.entries(headers).map(([name, value]) => `${name}: ${value}`);
  socket.end(`HTTP/1.1 ${status} ${STATUS_CODES[status]}\r\n${head.join('\r\n')}\r\n\r\n${body}`);
}

/** Handler for Node's `checkExpectation` event: an Expect header other than 100-continue. */
export function refuseExpectation(_request: IncomingMessage, response: ServerResponse): void {
  const { headers, body } = problemAndEnd('expectation-failed');
  response.writeHead(PROBLEMS['expectation-failed'].status, headers).end(body);
}

function problemAndEnd(code: ProblemCode): { headers: Record<string, string | number>; body: string } {
  const id = randomUUID();
  const body = problemBody(id, code, PROBLEMS[code].title);
  const headers = {
    'content-type': `${PROBLEM_TYPE}; charset=utf-8`,
    'content-length': Buffer.byteLength(body),
    'request-id': id,
    'x-content-type-options': 'nosniff',
    'cache-control': 'no-store',
    connection: 'close',
  };
  return { headers, body };
}
