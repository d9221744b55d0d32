import { MergeBody } from '../../core/vocabulary/records.js';
import { Vehicle } from '../../core/vocabulary/vehicle.js';
import { OWNER } from '../auth.js';
import type { RouteContext, ZodServer } from '../context.js';
import { etagOf, expectedVersions } from '../etag.js';
import { exampleVehicle } from '../examples.js';
import { keepFor, sendAnswer } from '../idempotency.js';
import { IF_MATCH_PROBLEMS, postProblems } from '../problems.js';
import { answerJson, idempotencyHeader, ifMatchHeader, JSON_ANSWER, vehicleParams } from '../schemas.js';

export async function mergeRoutes(app: ZodServer, { store }: RouteContext): Promise<void> {
  const answer = (vehicle: Vehicle) => ({
    status: 200,
    headers: {
      'content-type': JSON_ANSWER,
      location: `/v1/vehicles/${vehicle.id}`,
      etag: etagOf(vehicle.version),
    },
    body: JSON.stringify(vehicle),
  });

  app.post(
    '/vehicles/:vehicleId/merge',
    {
      config: { roles: OWNER },
      schema: {
        operationId: 'mergeVehicles',
        summary: 'Merge another record of the same vehicle into this one',
        description:
          'The server moves the other record’s visits to this one and fills in a missing externalId, registration and vin. It recomputes the outlook in the same transaction. If there is a conflict (a work order on both records, an odometer that would run backwards, an axle missing here), nothing moves and `errors` lists the conflicts. The other record can still be read and has `mergedInto`. It no longer appears in lists and reports, and its other resources answer 404 with the `vehicleId` of this record. Needs If-Match.',
        tags: ['vehicles'],
        params: vehicleParams,
        headers: idempotencyHeader.extend(ifMatchHeader.shape),
        body: MergeBody,
        response: {
          200: answerJson(Vehicle, 'The merged vehicle.', { ...exampleVehicle, version: 2 }),
          ...postProblems(
            ...IF_MATCH_PROBLEMS,
            'bad-parameter',
            'invalid',
            'not-found',
            'vehicle-erased',
            'work-orders-collide',
          ),
        },
      },
    },
    async (request, reply) => {
      const vehicle = await store.merging.merge(
        request.caller,
        request.params.vehicleId,
        expectedVersions(request),
        request.body,
        keepFor(request, answer),
      );
      return sendAnswer(request, reply, answer, vehicle);
    },
  );
}
