import jsonMergePatch from 'json-merge-patch';
import { CorrectionBody } from '../../core/vocabulary/records.js';
import { VisitBody } from '../../core/vocabulary/visit.js';
import { STAFF } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { expectedVersions } from '../etag.js';
import { exampleRecordedVisit } from '../examples.js';
import { keepFor, sendAnswer } from '../idempotency.js';
import { HttpProblem, InputRejected, IF_MATCH_PROBLEMS, postProblems } from '../problems.js';
import { answerJson, idempotencyHeader, ifMatchHeader, visitParams } from '../schemas.js';
import { RecordedVisitAnswer, recordedVisitAnswer } from './visits.js';

export async function correctionRoutes(app: ZodServer, context: RouteContext): Promise<void> {
  const { store } = context;
  const answer = recordedVisitAnswer(context);

  app.post(
    '/visits/:visitId/corrections',
    {
      config: { roles: STAFF },
      schema: {
        operationId: 'correctVisit',
        summary: 'Correct, void or restore a visit',
        description:
          '`changes` is an RFC 7396 merge patch of the current visit in the form of a VisitBody, with later entries included. Arrays are replaced whole. The server checks the patched visit like a new one and recomputes the outlooks. An unchanged reading, work item or torque keeps its id; a changed one gets a new id. `void: true` (owner only) excludes the visit from every forecast and report and frees its work order; `void: false` restores it. The history keeps the earlier versions. Needs If-Match.',
        tags: ['visits'],
        params: visitParams,
        headers: idempotencyHeader.extend(ifMatchHeader.shape),
        body: CorrectionBody,
        response: {
          200: answerJson(RecordedVisitAnswer, 'The corrected visit and the new outlook.', () => ({
            ...exampleRecordedVisit(),
            version: 2,
          })),
          ...postProblems(
            ...IF_MATCH_PROBLEMS,
            'bad-parameter',
            'invalid',
            'not-found',
            'vehicle-erased',
            'work-order-known',
            'visit-voided',
            'visit-not-voided',
          ),
        },
      },
    },
    async (request, reply) => {
      const { reason, changes, void: voided } = request.body;
      const { caller } = request;
      if (voided !== undefined && caller.role !== 'owner') {
        throw new HttpProblem('role-not-allowed', `a ${caller.role} key may not void or restore a visit`);
      }
      const of = [caller, request.params.visitId, expectedVersions(request)] as const;
      const keep = keepFor(request, answer);
      const change = (body: VisitBody): VisitBody => correctedBody(body, changes);
      const corrected =
        voided === undefined
          ? await store.corrections.correct(...of, { reason, change }, keep)
          : await store.corrections.setVoided(...of, { reason, void: voided }, keep);
      return sendAnswer(request, reply, answer, corrected);
    },
  );
}

/** @throws InputRejected, pointing into the changes, when the patched result is not a valid visit */
function correctedBody(body: VisitBody, changes: unknown): VisitBody {
  const corrected = VisitBody.safeParse(jsonMergePatch.apply(body, changes));
  if (corrected.success) return corrected.data;
  const issues = corrected.error.issues.map((issue) => ({ ...issue, path: ['changes', ...issue.path] }));
  throw new InputRejected('body', issues);
}
