import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { Refusal, type Issue } from '../../core/refusal.js';
import { schemaIssues } from '../../core/vocabulary/issues.js';
import { termInWords } from '../../core/words.js';
import type { Places } from '../../forms/places.js';
import { exactDigestOf } from '../../digest.js';
import type { IdempotencyKey, Keep, OutcomeStore } from '../../store/contract/idempotency.js';
import { HttpProblem } from '../problems.js';
import { mayWrite } from '../../render/pages/layout.js';
import { refuseForeignForm } from './sessions.js';

/**
 * Forms that write. Each form carries its own token, so that a double tap, a lost connection or the back button saves
 * once: the first answer is stored in the write's transaction, as for an Idempotency-Key.
 */

/** A posted form, one text per field; of a repeated field, the last. */
export const FormBody = z
  .record(z.string().max(200), z.union([z.string().max(20_000), z.array(z.string().max(20_000)).max(20)]))
  .nullish()
  .transform((body) =>
    Object.fromEntries(
      Object.entries(body ?? {}).map(([name, value]) => [
        name,
        Array.isArray(value) ? (value.at(-1) ?? '') : value,
      ]),
    ),
  );

const TOKEN = /^[A-Za-z0-9-]{16,80}$/;
/** The key under which all forms' outcomes are stored, whatever their page. */
const FORMS = '/pages/forms';

/**
 * Lets the back button show the form with its old token. A reloaded form would get a new token, and the values the
 * browser restores could be recorded twice.
 */
export const keepForBackButton = (reply: FastifyReply): FastifyReply =>
  reply.header('cache-control', 'private, max-age=0');

/** @throws HttpProblem 403 if the form comes from another site, or the user may not write */
export function refuseUnlessWriter(request: FastifyRequest): void {
  if (request.method === 'POST') refuseForeignForm(request);
  const { role } = request.caller;
  if (!mayWrite(role))
    throw new HttpProblem('role-not-allowed', `a ${termInWords(role)} key may read but not record`);
}

const keyOf = (request: FastifyRequest, token: string): IdempotencyKey => ({
  keyName: request.caller.keyName,
  target: FORMS,
  key: token,
});

/** The result of a form: the next page and its message. */
export interface FormOutcome {
  location: string;
  said: string[];
}

export interface FormOnce {
  /** The form's own token. */
  token: string;
  /**
   * The outcome of an earlier post of the same form; null if this is the first. `isSame` if the content was the same.
   */
  earlier(): Promise<{ outcome: FormOutcome; isSame: boolean } | null>;
  /** Asks the store to save the outcome in the write's own transaction. */
  keep<Result>(outcome: (result: Result) => FormOutcome): Keep<Result>;
}

/** @throws HttpProblem if the form has no token */
export function formOnce(
  outcomes: OutcomeStore,
  request: FastifyRequest,
  fields: Record<string, string>,
): FormOnce {
  const token = fields.once ?? '';
  if (!TOKEN.test(token))
    throw new HttpProblem('malformed-request', 'the form has lost its token; open the page again');
  const write = { ...keyOf(request, token), fingerprint: exactDigestOf([request.url, fields]) };
  return {
    token,
    async earlier() {
      const known = await outcomes.find(write);
      if (!known) return null;
      if (known.outcome === null)
        throw new HttpProblem('not-found', 'the data recorded with this form has since been erased');
      return {
        outcome: JSON.parse(known.outcome) as FormOutcome,
        isSame: known.fingerprint === write.fingerprint,
      };
    },
    keep: (outcome) => ({
      write,
      outcome: (result) => JSON.stringify(outcome(result)),
    }),
  };
}

/** The message to show after a form's redirect, by the form's token; null if unknown. */
export async function savedMessage(
  outcomes: OutcomeStore,
  request: FastifyRequest,
  token: string,
): Promise<string[] | null> {
  const outcome = TOKEN.test(token) ? (await outcomes.find(keyOf(request, token)))?.outcome : null;
  return outcome == null ? null : (JSON.parse(outcome) as FormOutcome).said;
}

/**
 * Processes a form once.
 *
 * @param write performs the write and stores its outcome; its refusals are thrown to the caller
 * @param changed answers a form that was already saved and now has other content
 */
export async function postOnce(
  reply: FastifyReply,
  once: FormOnce,
  write: () => Promise<FormOutcome>,
  changed: (outcome: FormOutcome) => Promise<FastifyReply>,
): Promise<FastifyReply> {
  const earlier = await once.earlier();
  if (earlier)
    return earlier.isSame ? reply.redirect(earlier.outcome.location, 303) : changed(earlier.outcome);
  const { location } = await write().catch(async (fault: unknown) => {
    // Another request is saving the same form.
    const isUnderWay = fault instanceof Refusal && fault.code === 'request-under-way';
    const first = isUnderWay ? await once.earlier() : null;
    if (!first) throw fault;
    return first.outcome;
  });
  return reply.redirect(location, 303);
}

/** @throws Refusal of kind invalid when the body does not fit its schema or a field cannot be read */
export function parseBody<Body>(schema: z.ZodType<Body>, body: unknown, places: Places): Body {
  const result = schema.safeParse(body);
  const issues = result.success ? [] : (schemaIssues(result.error.issues) as Issue[]);
  if (issues.length > 0 || places.errors.length > 0)
    throw new Refusal('invalid', 'invalid', 'some entries of the form need checking', issues);
  return result.data!;
}
