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
    description:
      'Part of a registration, VIN or externalId. Letters and digits alone count, and case does not matter.',
    example: '4471',
  }),
  registration: identifier(20).optional().meta({
    description: 'The vehicles with this plate. Letters and digits alone count: `kr-4471` finds `KR 4471`.',
    example: 'KR 4471',
  }),
  vin: identifier(30)
    .optional()
    .meta({ description: 'The vehicle with this vehicle identification number.' }),
  externalId: identifier(100)
    .optional()
    .meta({ description: 'The vehicle that the caller knows by this number.', example: 'FD-1007' }),
  fleet: fleetQuery,
  model: modelQuery,
  includeOutOfService: flagQuery('Lists vehicles out of service too.'),
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
          'At least one axle, and one of externalId, registration and vin, are needed; the rest may be missing.',
        tags: ['vehicles'],
        headers: idempotencyHeader,
        body: VehicleBody,
        response: {
          201: answerJson(Vehicle, 'The vehicle as it is stored.', exampleVehicle),
          ...postProblems('invalid', 'duplicate-vehicle'),
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
        description: 'In the order in which they were recorded; vehicles out of service only on request.',
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
        description: 'With its ETag, which a change needs.',
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
          'RFC 7396 merge patch: what is missing stays, what is null goes, arrays are replaced whole. Needs If-Match. Answers as of a date before the change use what was known then; give `effectiveFrom` where the change held earlier, as the right figure for a mistyped one did.',
        tags: ['vehicles'],
        consumes: [MERGE_PATCH],
        params: vehicleParams,
        querystring: z.strictObject({
          effectiveFrom: fullDate.optional().meta({
            description: 'The date from which the change holds, not in the future; missing means today.',
          }),
        }),
        headers: ifMatchHeader,
        body: z.record(z.string(), z.unknown()).meta({
          description: 'Any part of a VehicleBody.',
          examples: [{ outOfService: { date: '2026-05-01', reason: 'sold' } }],
        }),
        response: {
          200: answerJson(Vehicle, 'The vehicle as changed.', { ...exampleVehicle, version: 2 }),
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
        throw badParameter({ detail: `${effectiveFrom} lies in the future`, parameter: 'effectiveFrom' });
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
