import { z } from 'zod';
import { wearAnswer } from '../../core/assessment/wearAnswer.js';
import { AXLES } from '../../core/vocabulary/terms.js';
import { EntryBody, Visit, VisitBody } from '../../core/vocabulary/visit.js';
import { AxleWear, Caution, Finding } from '../../core/vocabulary/wear.js';
import type { RecordedVisit } from '../../store/contract/visits.js';
import { EVERYONE, STAFF } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { exampleRecordedVisit, exampleVisit } from '../examples.js';
import { etagOf, sendVersioned } from '../etag.js';
import { keepFor, sendAnswer, type KeptAnswer } from '../idempotency.js';
import { listOf, pagingQuery } from '../paging.js';
import { postProblems, resourceProblems } from '../problems.js';
import {
  answerJson,
  flagQuery,
  notModified,
  idempotencyHeader,
  ifNoneMatchHeader,
  JSON_ANSWER,
  vehicleParams,
  visitParams,
} from '../schemas.js';

const VisitList = listOf(Visit, 'VisitList');
const VisitPosition = z.tuple([z.string(), z.string(), z.int()]);
export const RecordedVisitAnswer = z
  .strictObject({
    ...Visit.shape,
    findings: z.array(Finding),
    cautions: z.array(Caution),
    outlook: z
      .partialRecord(z.enum(AXLES), AxleWear)
      .meta({ description: 'By axle, as GET …/wear answers it.' }),
  })
  .meta({ id: 'RecordedVisit' });

const visitProblems = postProblems(
  'invalid',
  'not-found',
  'work-order-known',
  'vehicle-erased',
  'road-test-recorded',
  'visit-voided',
);

/** Builds the answer to a visit write: the stored visit and the resulting outlook. */
export function recordedVisitAnswer({ today }: RouteContext): (recorded: RecordedVisit) => KeptAnswer {
  return ({ visit, outlook, isNew }) => {
    const wear = wearAnswer(visit.vehicleId, outlook, { today: today(), until: null });
    const body = {
      ...visit,
      findings: wear.axles.flatMap((axle) => axle.findings),
      cautions: wear.cautions,
      outlook: Object.fromEntries(wear.axles.map((axle) => [axle.axle, axle])),
    };
    return {
      status: isNew ? 201 : 200,
      headers: {
        'content-type': JSON_ANSWER,
        location: `/v1/visits/${visit.id}`,
        etag: etagOf(visit.version),
      },
      body: JSON.stringify(body),
    };
  };
}

export async function visitRoutes(app: ZodServer, context: RouteContext): Promise<void> {
  const { store, paging } = context;
  const answer = recordedVisitAnswer(context);

  app.post(
    '/vehicles/:vehicleId/visits',
    {
      config: { roles: STAFF },
      schema: {
        operationId: 'recordVisit',
        summary: 'Record a visit',
        description:
          'Readings, conditions, work, torques and road test in one transaction with the outlooks that follow. A work order known already answers 200 with the stored visit when the content is the same, 409 when it is not.',
        tags: ['visits'],
        params: vehicleParams,
        headers: idempotencyHeader,
        body: VisitBody,
        response: {
          200: answerJson(
            RecordedVisitAnswer,
            'The work order was recorded before, with the same content.',
            exampleRecordedVisit,
          ),
          201: answerJson(
            RecordedVisitAnswer,
            'The visit as it is stored, and what follows from it.',
            exampleRecordedVisit,
          ),
          ...visitProblems,
        },
      },
    },
    async (request, reply) => {
      const { vehicleId } = request.params;
      const recorded = await store.visits.record(
        request.caller,
        vehicleId,
        request.body,
        keepFor(request, answer),
      );
      return sendAnswer(request, reply, answer, recorded);
    },
  );

  app.get(
    '/vehicles/:vehicleId/visits',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'listVisits',
        summary: 'List a vehicle’s visits',
        description: 'Latest first; voided ones only on request.',
        tags: ['visits'],
        params: vehicleParams,
        querystring: z.strictObject({ includeVoided: flagQuery('Lists voided visits too.'), ...pagingQuery }),
        response: {
          200: answerJson(VisitList, 'A page of visits.', { items: [exampleVisit], nextCursor: null }),
          ...resourceProblems,
        },
      },
    },
    async (request) => {
      const { vehicleId } = request.params;
      const filter = { includeVoided: request.query.includeVoided ?? false };
      const page = paging.readPage(request.query, { vehicleId, ...filter }, VisitPosition);
      const { items, next } = await store.visits.list(request.caller, vehicleId, filter, page);
      return { items, nextCursor: paging.nextCursor(next, { vehicleId, ...filter }) };
    },
  );

  app.get(
    '/visits/:visitId',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'getVisit',
        summary: 'Read a visit',
        description:
          'As it was sent, with conversions, and an id for every reading, work item and torque. A voided visit reads with `voided`.',
        tags: ['visits'],
        params: visitParams,
        headers: ifNoneMatchHeader,
        response: {
          200: answerJson(Visit, 'The visit.', exampleVisit),
          304: notModified,
          ...resourceProblems,
        },
      },
    },
    async (request, reply) => {
      const visit = await store.visits.get(request.caller, request.params.visitId);
      return sendVersioned(request, reply, visit) as Visit;
    },
  );

  app.post(
    '/visits/:visitId/entries',
    {
      config: { roles: STAFF },
      schema: {
        operationId: 'addVisitEntries',
        summary: 'Add to a visit',
        description: 'Readings in the morning, work in the afternoon: adds to what the visit has.',
        tags: ['visits'],
        params: visitParams,
        headers: idempotencyHeader,
        body: EntryBody,
        response: {
          201: answerJson(RecordedVisitAnswer, 'The visit as it now is, and what follows from it.', {
            ...exampleRecordedVisit,
            version: 2,
          }),
          ...visitProblems,
        },
      },
    },
    async (request, reply) => {
      const { visitId } = request.params;
      const recorded = await store.visits.add(
        request.caller,
        visitId,
        request.body,
        keepFor(request, answer),
      );
      return sendAnswer(request, reply, answer, recorded);
    },
  );
}
