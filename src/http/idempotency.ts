import fastifyPlugin from 'fastify-plugin';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Readable } from 'node:stream';
import { exactDigestOf } from '../digest.js';
import type { IdempotencyKey, Keep, KeyedWrite, OutcomeStore } from '../store/contract/idempotency.js';
import { bearerOf } from './auth.js';
import { HttpProblem, PROBLEM_TYPE, problemBody, PROBLEMS } from './problems.js';
import { seal, unseal } from './sealing.js';

/**
 * Idempotency-Key on POST: the first answer is kept in the same transaction as what it did, and given again byte for
 * byte. Scope: API key, method and path.
 */

/** An answer to a write, as it is kept and sent again. */
export interface KeptAnswer {
  status: number;
  headers: Record<string, string>;
  body: string;
}

/** What is sent again where the data in the kept answer has been erased. */
const ERASED_ANSWER: KeptAnswer = {
  status: PROBLEMS['not-found'].status,
  headers: { 'content-type': `${PROBLEM_TYPE}; charset=utf-8` },
  body: problemBody('erased', 'not-found', 'the personal data in this answer has been erased'),
};

/** The body stands as it is behind the first line, so that what it says of a vehicle is found to be erased. */
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
      /** The body of an answer as it is kept. */
      toKeep: (body: string) => string;
      /** The answer that was built in the write's own transaction. */
      built: KeptAnswer | null;
    } | null;
  }
  interface FastifyInstance {
    /**
     * For a route whose body is a stream, once it has come in whole: what a hook does for every other route.
     *
     * @param sha256 of the body
     * @param counts whether an answer that was kept still stands; one that does not is forgotten
     * @returns true where the answer was given before and has been sent again
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
/** Answers that say nothing of the request itself. */
const notKept = (status: number): boolean => status === 401 || status === 429 || status >= 500;

/** Whether a request asks for its answer to be kept. */
const isAsked = ({ method, headers }: FastifyRequest): boolean =>
  method === 'POST' && headers['idempotency-key'] !== undefined;

export const idempotency = fastifyPlugin<{ outcomes: OutcomeStore }>(async (app, { outcomes }) => {
  const underWay = new Set<string>();
  const nameOf = ({ keyName, target, key }: IdempotencyKey): string => JSON.stringify([keyName, target, key]);

  app.decorateRequest('idempotency', null);

  /** True where the answer was given before and has been sent again. */
  async function claim(
    request: FastifyRequest,
    reply: FastifyReply,
    content: unknown,
    counts: (answer: KeptAnswer) => Promise<boolean> = async () => true,
  ): Promise<boolean> {
    if (!isAsked(request)) return false;
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
        'the first request with this Idempotency-Key has not been answered yet',
      );
    }
    underWay.add(nameOf(write));
    // Set where the answer holds a secret.
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
      throw new HttpProblem('idempotency-key-reused', 'this Idempotency-Key was used with another body');
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

  // What has nothing to wait for calls back at once: a promise for each hook is felt in the shortest answers.
  app.addHook('preValidation', (request, reply, done) => {
    if (!isAsked(request) || request.body instanceof Readable) {
      done();
      return;
    }
    claim(request, reply, request.body).then(
      // An answer that has been sent again ends the request.
      (answered) => answered || done(),
      done,
    );
  });

  app.addHook<string>('onSend', (request, reply, payload, done) => {
    const { idempotency: asked } = request;
    if (!asked || asked.kept || notKept(reply.statusCode)) {
      done(null, payload);
      return;
    }
    const { statusCode: status } = reply;
    const answer = { status, headers: headersOf(reply), body: asked.toKeep(payload) };
    outcomes.keep(asked.write, asOutcome(answer)).then(() => done(null, payload), done);
  });

  app.addHook('onResponse', (request, _reply, done) => {
    if (request.idempotency) underWay.delete(nameOf(request.idempotency.write));
    done();
  });
});

/**
 * The path as the route has it and the query string, with its question mark. Percent-encoding a character that needs
 * none gives another text for the same path, which must not be another scope.
 */
function addressOf({ url, params, routeOptions }: FastifyRequest): { path: string; query: string } {
  const [sent, ...rest] = url.split('?');
  const path = routeOptions.url?.replace(/:(\w+)/g, (_, name: string) =>
    encodeURIComponent((params as Record<string, string>)[name]!),
  );
  return { path: path ?? sent!, query: rest.length > 0 ? `?${rest.join('?')}` : '' };
}

/** A key that was rotated since cannot read what was sealed with the one before. */
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
 * Asks the store to keep a write's answer in the write's own transaction.
 *
 * @param answer the answer to the write, as it will be sent
 */
export function keepFor<Result>(
  request: FastifyRequest,
  answer: (result: Result) => KeptAnswer,
): Keep<Result> | null {
  const { idempotency: asked } = request;
  if (!asked) return null;
  return {
    write: asked.write,
    outcome: (result) => {
      asked.kept = true;
      asked.built = answer(result);
      return asOutcome({ ...asked.built, body: asked.toKeep(asked.built.body) });
    },
  };
}

/**
 * Sends the answer to a write. One that was kept is sent as it is: built again it might differ, since it depends on the
 * day.
 *
 * @param answer what was given to {@link keepFor}
 */
export function sendAnswer<Result>(
  request: FastifyRequest,
  reply: FastifyReply,
  answer: (result: Result) => KeptAnswer,
  result: Result,
): FastifyReply {
  const { status, headers, body } = request.idempotency?.built ?? answer(result);
  return reply.code(status).headers(headers).send(body);
}
