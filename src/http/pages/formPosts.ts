import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { Refusal, type Issue } from '../../core/refusal.js';
import { schemaIssues } from '../../core/vocabulary/issues.js';
import type { Places } from '../../forms/places.js';
import { exactDigestOf } from '../../digest.js';
import type { IdempotencyKey, Keep, OutcomeStore } from '../../store/contract/idempotency.js';
import { HttpProblem } from '../problems.js';
import { mayWrite } from '../../render/pages/layout.js';
import { refuseForeignForm } from './sessions.js';

/**
 * Forms that write. Each carries a token of its own, so that sending it twice, by a double tap, a lost connection or
 * the back button, records once: the first answer is kept in the transaction of the write, as for an Idempotency-Key.
 */

/** A posted form: one text a field; of several the last. */
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
/** The target under which the outcomes of forms are kept, whichever page they came from. */
const FORMS = '/pages/forms';

/**
 * The back button shows a form as it was, with its token: loaded anew it would get another one, and what the browser
 * fills in again could be recorded twice.
 */
export const keepForBackButton = (reply: FastifyReply): FastifyReply =>
  reply.header('cache-control', 'private, max-age=0');

/** @throws HttpProblem 403 where the form is not of these pages, or its sender may not write */
export function refuseUnlessWriter(request: FastifyRequest): void {
  if (request.method === 'POST') refuseForeignForm(request);
  const { role } = request.caller;
  if (!mayWrite(role))
    throw new HttpProblem('role-not-allowed', `a ${role.replace('-', ' ')} key may read and not record`);
}

const keyOf = (request: FastifyRequest, token: string): IdempotencyKey => ({
  keyName: request.caller.keyName,
  target: FORMS,
  key: token,
});

/** What a form led to: the page that follows it, and what that page says. */
export interface FormOutcome {
  location: string;
  said: string[];
}

export interface FormOnce {
  /** The outcome of the form's first posting; null where this is the first. `isSame` where the same was posted. */
  earlier(): Promise<{ outcome: FormOutcome; isSame: boolean } | null>;
  /** Asks the store to keep the outcome in the write's own transaction. */
  keep<Result>(outcome: (result: Result) => FormOutcome): Keep<Result>;
}

/** @throws HttpProblem where the form has no token */
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
    async earlier() {
      const known = await outcomes.find(write);
      if (!known) return null;
      if (known.outcome === null)
        throw new HttpProblem('not-found', 'what this form recorded has been erased since');
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

/** What was said of a form that has led here, by its token; null where nothing is known of it. */
export async function saidOf(
  outcomes: OutcomeStore,
  request: FastifyRequest,
  token: string,
): Promise<string[] | null> {
  const outcome = TOKEN.test(token) ? (await outcomes.find(keyOf(request, token)))?.outcome : null;
  return outcome == null ? null : (JSON.parse(outcome) as FormOutcome).said;
}

/**
 * Posts a form once.
 *
 * @param write writes with what is to be kept; its refusals are left to the caller
 * @param changed what is answered where the form was saved already and has other content now
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
    // The same form was being saved by another request, which has been quicker.
    const isUnderWay = fault instanceof Refusal && fault.code === 'request-under-way';
    const first = isUnderWay ? await once.earlier() : null;
    if (!first) throw fault;
    return first.outcome;
  });
  return reply.redirect(location, 303);
}

/** @throws Refusal of kind invalid where a body does not fit its schema, or a field could not be read */
export function parsed<Body>(schema: z.ZodType<Body>, body: unknown, places: Places): Body {
  const result = schema.safeParse(body);
  const issues = result.success ? [] : (schemaIssues(result.error.issues) as Issue[]);
  if (issues.length > 0 || places.errors.length > 0)
    throw new Refusal('invalid', 'invalid', 'the form has entries to check', issues);
  return result.data!;
}
