import fastifyPlugin from 'fastify-plugin';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Readable } from 'node:stream';
import { exactDigestOf } from '../digest.js';
import type { IdempotencyKey, Keep, KeyedWrite, OutcomeStore } from '../store/contract/idempotency.js';
import { bearerOf } from './auth.js';
import { HttpProblem, PROBLEM_TYPE, problemBody, PROBLEMS } from './problems.js';
import { seal, unseal } from './sealing.js';

/**
 * Idempotency-Key on POST: the first answer is stored in the same transaction as the write and replayed byte for byte.
 * Scope: API key, method and path.
 */

/** A write's answer, stored for replay. */
export interface KeptAnswer {
  status: number;
  headers: Record<string, string>;
  body: string;
}

/** Replayed in place of an answer whose personal data has been erased. */
const ERASED_ANSWER: KeptAnswer = {
  status: PROBLEMS['not-found'].status,
  headers: { 'content-type': `${PROBLEM_TYPE}; charset=utf-8` },
  body: problemBody('erased', 'not-found', 'the personal data in this answer has been erased'),
};

/** The body follows the first line unescaped, so that an erasure can find the vehicle's data in it. */
const asOutcome = ({ status, headers, body }: KeptAnswer): string =>
  `${status} ${JSON.stringify(headers)}\n${body}`;

function asAnswer(outcome: string | null): KeptAnswer {
  if (outcome === null) return ERASED_ANSWER;
  const end = outcome.indexOf('\n');
  return {
    status: Number(outcome.slice(0, 3)),
    headers: JSON.parse(outcome.slice(4, end)) as Record<string, string>,
    body: outcome.slice(end + 1),
  };
}

declare module 'fastify' {
  interface FastifyRequest {
    idempotency: {
      write: KeyedWrite;
      kept: boolean;
      /** Turns an answer's body into the form that is stored. */
      toKeep: (body: string) => string;
      /** The answer built inside the write's transaction. */
      built: KeptAnswer | null;
    } | null;
  }
  interface FastifyInstance {
    /**
     * For a route with a streamed body, called once the body is complete; a hook does the same for all other routes.
     *
     * @param sha256 of the body
     * @param counts whether a stored answer is still valid; an invalid one is deleted
     * @returns true if a stored answer was replayed
     */
    claimAnswer: (
      request: FastifyRequest,
      reply: FastifyReply,
      sha256: string,
      counts: (answer: KeptAnswer) => Promise<boolean>,
    ) => Promise<boolean>;
  }
}

const KEY = /^"?([A-Za-z0-9_.:-]{1,128})"?$/;
const KEPT_HEADERS = ['content-type', 'location', 'etag'];
/** Answers that depend on more than the request are not stored. */
const isNotStored = (status: number): boolean => status === 401 || status === 429 || status >= 500;

/** Whether a request has an Idempotency-Key, on a method that accepts one. */
const hasKey = ({ method, headers }: FastifyRequest): boolean =>
  method === 'POST' && headers['idempotency-key'] !== undefined;

export const idempotency = fastifyPlugin<{ outcomes: OutcomeStore }>(async (app, { outcomes }) => {
  const underWay = new Set<string>();
  const nameOf = ({ keyName, target, key }: IdempotencyKey): string => JSON.stringify([keyName, target, key]);

  app.decorateRequest('idempotency', null);

  /** Returns true if a stored answer was replayed. */
  async function claim(
    request: FastifyRequest,
    reply: FastifyReply,
    content: unknown,
    counts: (answer: KeptAnswer) => Promise<boolean> = async () => true,
  ): Promise<boolean> {
    if (!hasKey(request)) return false;
    const key = KEY.exec(String(request.headers['idempotency-key']))?.[1];
    if (!key) {
      const detail = 'must be 1 to 128 letters, digits, and _ . : -';
      throw new HttpProblem('bad-parameter', 'a header is not valid; see errors', [
        { detail, header: 'Idempotency-Key' },
      ]);
    }
    const { path, query } = addressOf(request);
    const write = {
      keyName: request.caller.keyName,
      target: `${request.method} ${path}`,
      key,
      fingerprint: exactDigestOf([path + query, content]),
    };
    if (underWay.has(nameOf(write))) {
      throw new HttpProblem(
        'request-under-way',
        'the first request with this Idempotency-Key is still in progress; try again later',
      );
    }
    underWay.add(nameOf(write));
    // The key that encrypts a stored answer which contains a secret.
    const secret = request.routeOptions.config.holdsSecret ? bearerOf(request)! : null;
    request.idempotency = {
      write,
      kept: true,
      built: null,
      toKeep: (body) => (secret === null ? body : seal(secret, body)),
    };
    const found = await outcomes.find(write);
    const first = found && asAnswer(found.outcome);
    const known = first && (await counts(first)) ? first : null;
    if (found && !known) await outcomes.forget(write);
    if (known && found!.fingerprint !== write.fingerprint) {
      throw new HttpProblem(
        'idempotency-key-reused',
        'this Idempotency-Key was already used with a different body; send a new key',
      );
    }
    if (known) {
      await reply
        .code(known.status)
        .headers({ ...known.headers, 'idempotent-replayed': 'true' })
        .send(secret === null ? known.body : readSealed(secret, known.body));
      return true;
    }
    request.idempotency.kept = false;
    return false;
  }

  app.decorate('claimAnswer', claim);

  // Call back synchronously when there is nothing to wait for: a promise per hook slows the shortest answers
  // noticeably.
  app.addHook('preValidation', (request, reply, done) => {
    if (!hasKey(request) || request.body instanceof Readable) {
      done();
      return;
    }
    claim(request, reply, request.body).then(
      // A replayed answer ends the request.
      (answered) => answered || done(),
      done,
    );
  });

  app.addHook<string>('onSend', (request, reply, payload, done) => {
    const { idempotency: pending } = request;
    if (!pending || pending.kept || isNotStored(reply.statusCode)) {
      done(null, payload);
      return;
    }
    const { statusCode: status } = reply;
    const answer = { status, headers: headersOf(reply), body: pending.toKeep(payload) };
    outcomes.keep(pending.write, asOutcome(answer)).then(() => done(null, payload), done);
  });

  app.addHook('onResponse', (request, _reply, done) => {
    if (request.idempotency) underWay.delete(nameOf(request.idempotency.write));
    done();
  });
});

/**
 * The route's path with its parameters, and the query string with its question mark. The path is rebuilt because a
 * client may percent-encode the same path differently, and that must not create another scope.
 */
function addressOf({ url, params, routeOptions }: FastifyRequest): { path: string; query: string } {
  const [sent, ...rest] = url.split('?');
  const path = routeOptions.url?.replace(/:(\w+)/g, (_, name: string) =>
    encodeURIComponent((params as Record<string, string>)[name]!),
  );
  return { path: path ?? sent!, query: rest.length > 0 ? `?${rest.join('?')}` : '' };
}

/** A rotated key cannot decrypt an answer that was encrypted with the previous one. */
function readSealed(secret: string, sealed: string): string {
  try {
    return unseal(secret, sealed);
  } catch {
    const detail =
      'this Idempotency-Key was used before the API key was rotated; only the old key can read the answer';
    throw new HttpProblem('idempotency-key-reused', detail);
  }
}

function headersOf(reply: FastifyReply): Record<string, string> {
  return Object.fromEntries(
    KEPT_HEADERS.flatMap((name) => (reply.hasHeader(name) ? [[name, String(reply.getHeader(name))]] : [])),
  );
}

/**
 * Asks the store to save a write's answer in the write's own transaction.
 *
 * @param answer builds the answer to the write, as it will be sent
 */
export function keepFor<Result>(
  request: FastifyRequest,
  answer: (result: Result) => KeptAnswer,
): Keep<Result> | null {
  const { idempotency: pending } = request;
  if (!pending) return null;
  return {
    write: pending.write,
    outcome: (result) => {
      pending.kept = true;
      pending.built = answer(result);
      return asOutcome({ ...pending.built, body: pending.toKeep(pending.built.body) });
    },
  };
}

/**
 * Sends the answer to a write. A stored answer goes out unchanged, because rebuilding it on another date might change
 * it.
 *
 * @param answer the function given to {@link keepFor}
 */
export function sendAnswer<Result, Reply extends FastifyReply>(
  request: FastifyRequest,
  reply: Reply,
  answer: (result: Result) => KeptAnswer,
  result: Result,
): Reply {
  const { status, headers, body } = request.idempotency?.built ?? answer(result);
  reply.code(status).headers(headers).send(body);
  return reply;
}
