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
      .meta({ description: 'The outlook of each axle, as in GET …/wear.' }),
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
          'The server stores the readings, conditions, work, torques and road test and the recomputed outlooks in one transaction. If the work order is already recorded, it answers 200 with the stored visit when the content is the same, and 409 when it differs.',
        tags: ['visits'],
        params: vehicleParams,
        headers: idempotencyHeader,
        body: VisitBody,
        response: {
          200: answerJson(
            RecordedVisitAnswer,
            'The work order is already recorded with the same content.',
            exampleRecordedVisit,
          ),
          201: answerJson(RecordedVisitAnswer, 'The stored visit and the new outlook.', exampleRecordedVisit),
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
        description: 'Visits, latest first. Voided visits are listed only on request.',
        tags: ['visits'],
        params: vehicleParams,
        querystring: z.strictObject({
          includeVoided: flagQuery('Also lists voided visits.'),
          ...pagingQuery,
        }),
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
          'The visit as it was sent, with converted units and an id for every reading, work item and torque. A voided visit has `voided`.',
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
        description:
          'Adds readings, work or other entries to a recorded visit, such as the afternoon’s work to the morning’s readings.',
        tags: ['visits'],
        params: visitParams,
        headers: idempotencyHeader,
        body: EntryBody,
        response: {
          201: answerJson(RecordedVisitAnswer, 'The extended visit and the new outlook.', () => ({
            ...exampleRecordedVisit(),
            version: 2,
          })),
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
