import fastifyPlugin from 'fastify-plugin';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Readable } from 'node:stream';
import { exactDigestOf } from '../digest.js';
import type { AnswerSlot, AnswerStore, Keep, KeptAnswer } from '../store/contract/idempotency.js';
import { bearerOf } from './auth.js';
import { HttpProblem } from './problems.js';
import { seal, unseal } from './sealing.js';

/**
 * Idempotency-Key on POST: the first answer is kept in the same transaction as what it did, and given again byte for
 * byte. Scope: API key, method and path.
 */

declare module 'fastify' {
  interface FastifyRequest {
    idempotency: {
      slot: AnswerSlot;
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

export const idempotency = fastifyPlugin<{ answers: AnswerStore }>(async (app, { answers }) => {
  const underWay = new Set<string>();
  const nameOf = ({ keyName, method, path, idempotencyKey }: AnswerSlot): string =>
    JSON.stringify([keyName, method, path, idempotencyKey]);

  app.decorateRequest('idempotency', null);

  /** True where the answer was given before and has been sent again. */
  async function claim(
    request: FastifyRequest,
    reply: FastifyReply,
    content: unknown,
    counts: (answer: KeptAnswer) => Promise<boolean> = async () => true,
  ): Promise<boolean> {
    if (!isAsked(request)) return false;
    const idempotencyKey = KEY.exec(String(request.headers['idempotency-key']))?.[1];
    if (!idempotencyKey) {
      const detail = 'must be 1 to 128 letters, digits, and _ . : -';
      throw new HttpProblem('bad-parameter', 'a header is not valid; see errors', [
        { detail, header: 'Idempotency-Key' },
      ]);
    }
    const { path, query } = addressOf(request);
    const slot = {
      keyName: request.caller.keyName,
      method: request.method,
      path,
      idempotencyKey,
      fingerprint: exactDigestOf([path + query, content]),
    };
    if (underWay.has(nameOf(slot))) {
      throw new HttpProblem(
        'request-under-way',
        'the first request with this Idempotency-Key has not been answered yet',
      );
    }
    underWay.add(nameOf(slot));
    // Set where the answer holds a secret.
    const secret = request.routeOptions.config.holdsSecret ? bearerOf(request)! : null;
    request.idempotency = {
      slot,
      kept: true,
      built: null,
      toKeep: (body) => (secret === null ? body : seal(secret, body)),
    };
    const found = await answers.find(slot);
    const known = found && (await counts(found)) ? found : null;
    if (found && !known) await answers.forget(slot);
    if (known && known.fingerprint !== slot.fingerprint) {
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
    answers
      .keep(asked.slot, { status, headers: headersOf(reply), body: asked.toKeep(payload) })
      .then(() => done(null, payload), done);
  });

  app.addHook('onResponse', (request, _reply, done) => {
    if (request.idempotency) underWay.delete(nameOf(request.idempotency.slot));
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
    slot: asked.slot,
    answer: (result) => {
      asked.kept = true;
      asked.built = answer(result);
      return { ...asked.built, body: asked.toKeep(asked.built.body) };
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
