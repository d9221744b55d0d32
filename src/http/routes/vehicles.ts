import { z } from 'zod';
import { fullDate, identifier } from '../../core/vocabulary/quantities.js';
import { Vehicle, VehicleBody } from '../../core/vocabulary/vehicle.js';
import { EVERYONE, STAFF } from '../auth.js';
import { MERGE_PATCH } from '../bodies.js';
import type { RouteContext, ZodServer } from '../context.js';
import { exampleVehicle } from '../examples.js';
import { etagOf, expectedVersions, sendVersioned } from '../etag.js';
import { keepFor, sendAnswer } from '../idempotency.js';
import { listOf, pagingQuery } from '../paging.js';
import {
  badParameter,
  InputRejected,
  listProblems,
  IF_MATCH_PROBLEMS,
  postProblems,
  writeProblems,
  resourceProblems,
} from '../problems.js';
import {
  answerJson,
  flagQuery,
  fleetQuery,
  ifMatchHeader,
  ifNoneMatchHeader,
  JSON_ANSWER,
  idempotencyHeader,
  modelQuery,
  notModified,
  vehicleParams,
} from '../schemas.js';

const VehicleList = listOf(Vehicle, 'VehicleList');
const VehiclePosition = z.tuple([z.int()]);

const filters = {
  find: identifier(100).optional().meta({
    description: 'Part of a registration, VIN or externalId. Case, spaces and punctuation are ignored.',
    example: '4471',
  }),
  registration: identifier(20).optional().meta({
    description:
      'Only vehicles with this registration. Case, spaces and punctuation are ignored: `kr-4471` finds `KR 4471`.',
    example: 'KR 4471',
  }),
  vin: identifier(30)
    .optional()
    .meta({ description: 'Only the vehicle with this vehicle identification number.' }),
  externalId: identifier(100)
    .optional()
    .meta({ description: 'Only the vehicle with this externalId.', example: 'FD-1007' }),
  fleet: fleetQuery,
  model: modelQuery,
  includeOutOfService: flagQuery('Also lists vehicles out of service.'),
};

export async function vehicleRoutes(app: ZodServer, { store, paging, today }: RouteContext): Promise<void> {
  app.post(
    '/vehicles',
    {
      config: { roles: STAFF },
      schema: {
        operationId: 'recordVehicle',
        summary: 'Record a vehicle',
        description:
          'The vehicle needs at least one axle, and at least one of externalId, registration and vin. Everything else is optional.',
        tags: ['vehicles'],
        headers: idempotencyHeader,
        body: VehicleBody,
        response: {
          201: answerJson(Vehicle, 'The stored vehicle.', exampleVehicle),
          ...postProblems('invalid', 'duplicate-vehicle', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      const answer = (vehicle: Vehicle) => ({
        status: 201,
        headers: {
          'content-type': JSON_ANSWER,
          location: `/v1/vehicles/${vehicle.id}`,
          etag: etagOf(vehicle.version),
        },
        body: JSON.stringify(vehicle),
      });
      const { caller } = request;
      const vehicle = await store.vehicles.create(caller, request.body, keepFor(request, answer));
      return sendAnswer(request, reply, answer, vehicle);
    },
  );

  app.get(
    '/vehicles',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'listVehicles',
        summary: 'List or find vehicles',
        description:
          'Vehicles in the order in which they were recorded. Vehicles out of service are listed only on request.',
        tags: ['vehicles'],
        querystring: z.strictObject({ ...filters, ...pagingQuery }),
        response: {
          200: answerJson(VehicleList, 'A page of vehicles.', {
            items: [exampleVehicle],
            nextCursor: null,
          }),
          ...listProblems,
        },
      },
    },
    async (request) => {
      const { limit, cursor, ...filter } = request.query;
      const page = paging.readPage({ limit, cursor }, filter, VehiclePosition);
      const { items, next } = await store.vehicles.list(request.caller, filter, page);
      return { items, nextCursor: paging.nextCursor(next, filter) };
    },
  );

  app.get(
    '/vehicles/:vehicleId',
    {
      config: { roles: EVERYONE },
      schema: {
        operationId: 'getVehicle',
        summary: 'Read a vehicle',
        description: 'The answer carries the ETag, which a change needs.',
        tags: ['vehicles'],
        params: vehicleParams,
        headers: ifNoneMatchHeader,
        response: {
          200: answerJson(Vehicle, 'The vehicle.', exampleVehicle),
          304: notModified,
          ...resourceProblems,
        },
      },
    },
    async (request, reply) => {
      const vehicle = await store.vehicles.get(request.caller, request.params.vehicleId);
      return sendVersioned(request, reply, vehicle) as Vehicle;
    },
  );

  app.patch(
    '/vehicles/:vehicleId',
    {
      config: { roles: STAFF },
      schema: {
        operationId: 'changeVehicle',
        summary: 'Change a vehicle',
        description:
          'An RFC 7396 merge patch: missing members stay, null removes a member, and arrays are replaced whole. Needs If-Match. Answers with an `asOf` date before the change use the earlier version. Send `effectiveFrom` if the change held earlier, for example when it corrects a mistyped figure.',
        tags: ['vehicles'],
        consumes: [MERGE_PATCH],
        params: vehicleParams,
        querystring: z.strictObject({
          effectiveFrom: fullDate.optional().meta({
            description:
              'The date from which the change holds. It must not be in the future. If missing, today.',
          }),
        }),
        headers: ifMatchHeader,
        body: z.record(z.string(), z.unknown()).meta({
          description: 'Any part of a VehicleBody.',
          examples: [{ outOfService: { date: '2026-05-01', reason: 'sold' } }],
        }),
        response: {
          200: answerJson(Vehicle, 'The changed vehicle.', { ...exampleVehicle, version: 2 }),
          ...writeProblems(
            ...IF_MATCH_PROBLEMS,
            'bad-parameter',
            'invalid',
            'not-found',
            'vehicle-erased',
            'duplicate-vehicle',
          ),
        },
      },
    },
    async (request, reply) => {
      const { effectiveFrom = null } = request.query;
      if (effectiveFrom !== null && effectiveFrom > today()) {
        throw badParameter({ detail: `${effectiveFrom} is in the future`, parameter: 'effectiveFrom' });
      }
      const read = (patched: unknown): VehicleBody => {
        const changed = VehicleBody.safeParse(patched);
        if (!changed.success) throw new InputRejected('body', changed.error.issues);
        return changed.data;
      };
      const vehicle = await store.vehicles.change(
        request.caller,
        request.params.vehicleId,
        expectedVersions(request),
        { patch: request.body, effectiveFrom, read },
      );
      reply.header('etag', etagOf(vehicle.version));
      return vehicle;
    },
  );
}
