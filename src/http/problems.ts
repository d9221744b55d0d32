import { group } from 'd3-array';
import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { Refusal, type RefusalKind } from '../core/refusal.js';
import { Busy, Damaged, StorageFull, StoreFault } from '../store/contract/faults.js';
import { UNKNOWN_FIELD } from '../core/vocabulary/issueWords.js';
import { schemaIssues, type SchemaIssue } from '../core/vocabulary/issues.js';

/** Every error answer is an RFC 9457 problem; this is the complete list. */
export const PROBLEMS = {
  'malformed-request': { status: 400, title: 'The request cannot be read' },
  'bad-parameter': { status: 400, title: 'A parameter or header is not valid' },
  'key-needed': { status: 401, title: 'A valid API key is needed' },
  'role-not-allowed': { status: 403, title: 'The key’s role does not allow this' },
  'form-from-elsewhere': { status: 403, title: 'The form was not sent from a page of this service' },
  'not-found': { status: 404, title: 'There is no such resource' },
  'method-not-allowed': { status: 405, title: 'The resource does not support this method' },
  'request-too-slow': { status: 408, title: 'The request took too long to arrive' },
  'duplicate-vehicle': { status: 409, title: 'The vehicle is already recorded' },
  'work-order-known': { status: 409, title: 'The work order is already recorded with different content' },
  'vehicle-erased': { status: 409, title: 'The personal data of the vehicle was erased' },
  'road-test-recorded': { status: 409, title: 'The visit already has a road test' },
  'visit-voided': { status: 409, title: 'The visit is voided' },
  'visit-not-voided': { status: 409, title: 'The visit is not voided' },
  'work-orders-collide': { status: 409, title: 'Both records have a visit with the same work order' },
  'too-many-webhook-endpoints': { status: 409, title: 'The maximum number of webhook endpoints is reached' },
  'webhook-endpoint-disabled': { status: 409, title: 'The webhook endpoint is disabled' },
  'request-under-way': { status: 409, title: 'A request with this Idempotency-Key is still in progress' },
  'stale-version': { status: 412, title: 'The resource has changed since it was read' },
  'body-too-large': { status: 413, title: 'The body is too large' },
  'media-type-not-supported': { status: 415, title: 'The body’s media type is not supported' },
  'expectation-failed': { status: 417, title: 'The server does not support this Expect header' },
  invalid: { status: 422, title: 'The request is well-formed but not valid' },
  'import-refused': { status: 422, title: 'The file has errors and nothing was imported' },
  'idempotency-key-reused': {
    status: 422,
    title: 'The Idempotency-Key was already used with a different body',
  },
  'precondition-needed': { status: 428, title: 'If-Match is needed' },
  'headers-too-large': { status: 431, title: 'The header fields are too large' },
  'too-many-requests': { status: 429, title: 'Too many requests' },
  'internal-error': { status: 500, title: 'The server failed to answer' },
  unavailable: { status: 503, title: 'The service is temporarily unavailable' },
  'storage-full': { status: 507, title: 'The server has no disk space left' },
} as const;

export type ProblemCode = keyof typeof PROBLEMS;

/** One error in the request, with its location: in the body, a parameter or a header. */
export interface ProblemError {
  detail: string;
  pointer?: string;
  parameter?: string;
  header?: string;
  /** In a file: the line on which the row begins, and the column's name. */
  line?: number;
  column?: string | null;
  code?: string;
}

export const Problem = z
  .object({
    type: z.string().meta({ description: 'Identifies the kind of problem.' }),
    title: z.string(),
    status: z.number().meta({ type: 'integer' }),
    detail: z.string(),
    code: z
      .enum(Object.keys(PROBLEMS) as [ProblemCode, ...ProblemCode[]])
      .meta({ description: 'Stable, kebab-case. Later versions may add codes.' }),
    instance: z.string().meta({ description: 'The request ID, as it appears in the log.' }),
    errors: z
      .array(
        z.object({
          detail: z.string(),
          pointer: z
            .string()
            .optional()
            .meta({ description: 'JSON pointer into the body, such as #/readings/0/value.' }),
          parameter: z.string().optional(),
          header: z.string().optional(),
          line: z.number().meta({ type: 'integer' }).optional(),
          column: z.string().nullish(),
          code: z.string().optional(),
        }),
      )
      .optional(),
    vehicleId: z
      .string()
      .optional()
      .meta({ description: 'The conflicting vehicle, or the vehicle that this record was merged into.' }),
    visitId: z.string().optional().meta({ description: 'The conflicting visit.' }),
    importId: z.string().optional(),
    rows: z.number().meta({ type: 'integer' }).optional(),
    errorsTotal: z
      .number()
      .meta({
        type: 'integer',
        description: 'The number of errors in the file. `errors` lists the first 1,000.',
      })
      .optional(),
  })
  .meta({ id: 'Problem', description: 'RFC 9457 problem details.' });

/** An error raised by the HTTP layer itself. */
export class HttpProblem extends Error {
  constructor(
    readonly code: ProblemCode,
    detail: string,
    readonly errors: ProblemError[] = [],
    readonly headers: Record<string, string> = {},
    readonly members: Record<string, string | number> = {},
  ) {
    super(detail);
  }
}

/** A parameter error that a schema cannot detect. */
export const badParameter = (...errors: { detail: string; parameter: string }[]): HttpProblem =>
  new HttpProblem('bad-parameter', 'a parameter is not valid; see errors', errors);

export type InputPart = 'body' | 'querystring' | 'params' | 'headers';

/** Input that does not match its schema. */
export class InputRejected extends Error {
  constructor(
    readonly part: InputPart,
    readonly issues: readonly z.core.$ZodIssue[],
  ) {
    super('the input does not match its schema');
  }
}

/** A path as a JSON pointer in URI fragment form, RFC 6901. `encodeURI` throws on half of a surrogate pair. */
export function pointerTo(path: readonly PropertyKey[]): string {
  const escape = (step: PropertyKey): string =>
    encodeURI(String(step).toWellFormed().replaceAll('~', '~0').replaceAll('/', '~1'));
  return `#${path.map((step) => `/${escape(step)}`).join('')}`;
}

const MAX_ERRORS = 100;
export const PROBLEM_TYPE = 'application/problem+json';

export function errorsOf(issues: readonly z.core.$ZodIssue[]): SchemaIssue[] {
  return schemaIssues(issues).slice(0, MAX_ERRORS);
}

function describeRejection({ part, issues }: InputRejected): {
  code: ProblemCode;
  detail: string;
  errors: ProblemError[];
} {
  const errors = errorsOf(issues);
  if (part === 'body') {
    return {
      code: 'invalid',
      detail: 'the request is well-formed but not valid; see errors',
      errors: errors.map(({ path, detail }) => ({ detail, pointer: pointerTo(path) })),
    };
  }
  const where = part === 'headers' ? 'header' : 'parameter';
  return {
    code: 'bad-parameter',
    detail: `a ${where} is not valid; see errors`,
    errors: errors.map(({ path, detail }) => ({
      detail: detail === UNKNOWN_FIELD ? `unknown ${where}` : detail,
      [where]: path.map(String).join('.'),
    })),
  };
}

const KIND_CODES: Record<RefusalKind, ProblemCode> = {
  'not-found': 'not-found',
  conflict: 'duplicate-vehicle',
  invalid: 'invalid',
  stale: 'stale-version',
};

/** Fastify's own errors, raised before a route is reached. */
const FASTIFY_CODES: Record<string, ProblemCode> = {
  FST_ERR_CTP_BODY_TOO_LARGE: 'body-too-large',
  FST_ERR_CTP_INVALID_MEDIA_TYPE: 'media-type-not-supported',
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: 'malformed-request',
  FST_ERR_CTP_EMPTY_JSON_BODY: 'malformed-request',
  FST_ERR_CTP_INVALID_JSON_BODY: 'malformed-request',
  FST_ERR_BAD_URL: 'malformed-request',
  FST_ERR_ASYNC_CONSTRAINT: 'malformed-request',
};

const STORAGE_FULL: Described = {
  code: 'storage-full',
  detail: 'the server has no disk space left; nothing was stored',
};

/** File system errors that mean there is no space for an uploaded file. */
const NO_ROOM = /^(ENOSPC|EDQUOT)$/;

const faultDetail = (fault: StoreFault): string => {
  if (fault instanceof Busy) return 'the database is busy and nothing was stored; try again';
  if (fault instanceof Damaged)
    return 'the database is damaged and nothing was stored; tell the operator of the service';
  return 'the database is unavailable and nothing was stored; try again later';
};

export interface Described {
  code: ProblemCode;
  detail: string;
  errors?: ProblemError[];
  members?: Record<string, string | number>;
  headers?: Record<string, string>;
}

/** Describes an error, independently of the answer's format. */
export function describe(error: unknown): Described {
  if (error instanceof InputRejected) return describeRejection(error);
  if (error instanceof HttpProblem)
    return {
      code: error.code,
      detail: error.message,
      errors: error.errors,
      headers: error.headers,
      members: error.members,
    };
  if (error instanceof Refusal) {
    const code = error.code in PROBLEMS ? (error.code as ProblemCode) : KIND_CODES[error.kind];
    const errors = error.issues.map(({ path, detail }) => ({ detail, pointer: pointerTo(path) }));
    return { code, detail: error.message, errors, members: error.members };
  }
  const { code = '', statusCode = 500 } = error as Partial<FastifyError>;
  if (error instanceof StorageFull || NO_ROOM.test(code)) return STORAGE_FULL;
  if (error instanceof StoreFault)
    return { code: 'unavailable', detail: faultDetail(error), headers: { 'retry-after': '1' } };
  const known = FASTIFY_CODES[code];
  if (known) return { code: known, detail: (error as Error).message };
  if (statusCode >= 400 && statusCode < 500)
    return { code: 'malformed-request', detail: 'the request cannot be read' };
  return {
    code: 'internal-error',
    detail: 'the server logged the error under the `instance` of this answer',
  };
}

export async function sendProblem(
  request: FastifyRequest,
  reply: FastifyReply,
  described: Described,
): Promise<void> {
  const { code, detail, errors = [], members = {}, headers = {} } = described;
  const body = problemBody(request.id, code, detail, {
    ...(errors.length > 0 ? { errors } : {}),
    ...members,
  });
  await reply.code(PROBLEMS[code].status).headers(headers).type(PROBLEM_TYPE).send(body);
}

/** The body of a problem answer. */
export function problemBody(
  requestId: string,
  code: ProblemCode,
  detail: string,
  members: object = {},
): string {
  const { status, title } = PROBLEMS[code];
  const type = `urn:brake-wear:problem:${code}`;
  return JSON.stringify({
    type,
    title,
    status,
    detail,
    code,
    instance: `urn:request:${requestId}`,
    ...members,
  });
}

export function problemHandlers(app: FastifyInstance): void {
  app.setErrorHandler(async (error, request, reply) => {
    const described = describe(error);
    if (PROBLEMS[described.code].status >= 500) request.log.error({ err: error }, 'request failed');
    await sendProblem(request, reply, described);
    return reply;
  });
}

/** The answer for an address that does not exist. */
export async function sendNotFound(request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
  await sendProblem(request, reply, { code: 'not-found', detail: 'this address does not exist' });
  return reply;
}

const RETRY_AFTER = {
  'Retry-After': { type: 'string', description: 'Seconds to wait before asking again.' },
};
const PROBLEM_HEADERS: Record<number, object> = {
  401: { 'WWW-Authenticate': { type: 'string', description: 'The authentication scheme to use.' } },
  429: RETRY_AFTER,
  503: RETRY_AFTER,
};

/** An operation's error answers, for the OpenAPI document. */
export function problemResponses(...codes: ProblemCode[]) {
  const byStatus = group(new Set(codes), (code) => PROBLEMS[code].status);
  return Object.fromEntries(
    [...byStatus].map(([status, own]) => [
      status,
      {
        description: own.map((code) => `${PROBLEMS[code].title} (\`${code}\`)`).join('; '),
        ...(status in PROBLEM_HEADERS ? { headers: PROBLEM_HEADERS[status] } : {}),
        content: { [PROBLEM_TYPE]: { schema: Problem } },
      },
    ]),
  );
}

/** Errors common to all writes, and the given ones. */
export const writeProblems = (...further: ProblemCode[]) =>
  problemResponses(
    'malformed-request',
    'key-needed',
    'role-not-allowed',
    'body-too-large',
    'media-type-not-supported',
    ...further,
    'too-many-requests',
    'unavailable',
    'storage-full',
  );

/** Errors common to all POSTs, which accept an Idempotency-Key, and the given ones. */
export const postProblems = (...further: ProblemCode[]) =>
  writeProblems(...further, 'request-under-way', 'idempotency-key-reused');

/** Errors of a change that needs If-Match. */
export const IF_MATCH_PROBLEMS = ['stale-version', 'precondition-needed'] as const;

/** Errors of reading a list or a report. */
export const listProblems = problemResponses(
  'bad-parameter',
  'key-needed',
  'role-not-allowed',
  'too-many-requests',
  'unavailable',
);

/** Errors of reading one resource or its parts. */
export const resourceProblems = problemResponses(
  'bad-parameter',
  'key-needed',
  'role-not-allowed',
  'not-found',
  'too-many-requests',
  'unavailable',
);
