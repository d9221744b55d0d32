import { randomUUID } from 'node:crypto';
import type { FastifyRequest } from 'fastify';
import { Refusal, type Issue } from '../../core/refusal.js';
import { schemaIssues } from '../../core/vocabulary/issues.js';
import { VehicleBody, type Vehicle } from '../../core/vocabulary/vehicle.js';
import type { FieldError } from '../../forms/entered.js';
import { fieldErrors } from '../../forms/messages.js';
import type { Places } from '../../forms/places.js';
import { readVehicle, vehicleFields, vehiclePatch } from '../../forms/vehicleForm.js';
import { vehicleName } from '../../core/words.js';
import { vehicleFormPage, type VehicleFormPage } from '../../render/pages/vehicleFormPage.js';
import type { RouteContext, ZodServer } from '../context.js';
import { InputRejected } from '../problems.js';
import { vehicleParams } from '../schemas.js';
import {
  FormBody,
  formOnce,
  keepForBackButton,
  parseBody,
  postOnce,
  refuseUnlessWriter,
  type FormOutcome,
} from './formPosts.js';
import type { Send } from './visitForms.js';

/** Pages that record and change vehicles, with the same operations and checks as the API. */
export function vehiclePages(app: ZodServer, { store, today }: RouteContext, send: Send): void {
  /** Suggested fleets and models, taken from recently recorded vehicles. */
  async function known(request: FastifyRequest): Promise<Pick<VehicleFormPage, 'fleets' | 'models'>> {
    const { items } = await store.vehicles.list(request.caller, {}, { limit: 200, after: null });
    const distinct = (values: (string | null | undefined)[]) =>
      [...new Set(values.filter((value): value is string => value != null))].sort();
    return {
      fleets: distinct(items.map(({ fleet }) => fleet)),
      models: distinct(items.map(({ model }) => model)),
    };
  }

  async function pageOf(
    request: FastifyRequest,
    filled: Pick<VehicleFormPage, 'values' | 'errors'>,
    rest: Pick<VehicleFormPage, 'title' | 'action' | 'known'> & { once?: string },
  ) {
    return vehicleFormPage({
      once: randomUUID(),
      ...filled,
      ...rest,
      ...(await known(request)),
      today: today(),
    });
  }

  const NEW = { title: 'New vehicle', action: '/vehicles/new', known: null };

  app.get('/vehicles/new', { schema: { hide: true } }, async (request, reply) => {
    refuseUnlessWriter(request);
    keepForBackButton(reply);
    const values = { 'front.brake': 'disc', 'rear.brake': 'disc' };
    return send(request, reply, await pageOf(request, { values, errors: [] }, NEW));
  });

  app.post('/vehicles/new', { schema: { hide: true, body: FormBody } }, async (request, reply) => {
    refuseUnlessWriter(request);
    const fields = request.body;
    const once = formOnce(store.outcomes, request, fields);
    const { body, places } = readVehicle(fields);
    const outcome = (vehicle: Vehicle): FormOutcome => ({
      location: `/vehicles/${vehicle.id}?saved=${once.token}`,
      said: [
        `${vehicleName(vehicle)} is saved. Record its first visit next.`,
        ...vehicle.warnings.map(({ detail }) => detail),
      ],
    });
    const write = async () => {
      const vehicle = parseBody(VehicleBody, body, places);
      return outcome(await store.vehicles.create(request.caller, vehicle, once.keep(outcome)));
    };
    try {
      return await postOnce(reply, once, write, async (earlier) => reply.redirect(earlier.location, 303));
    } catch (fault) {
      const errors = errorsOf(fault, places, fields);
      reply.code(422);
      return send(
        request,
        reply,
        await pageOf(request, { values: fields, errors }, { ...NEW, once: fields.once }),
      );
    }
  });

  const changing = (vehicle: Vehicle, version: string) => ({
    title: `Change ${vehicleName(vehicle)}`,
    action: `/vehicles/${vehicle.id}/change`,
    known: { id: vehicle.id, name: vehicleName(vehicle), version },
  });

  app.get(
    '/vehicles/:vehicleId/change',
    { schema: { hide: true, params: vehicleParams } },
    async (request, reply) => {
      refuseUnlessWriter(request);
      keepForBackButton(reply);
      const vehicle = await store.vehicles.get(request.caller, request.params.vehicleId);
      const values = vehicleFields(vehicle);
      return send(
        request,
        reply,
        await pageOf(request, { values, errors: [] }, changing(vehicle, String(vehicle.version))),
      );
    },
  );

  app.post(
    '/vehicles/:vehicleId/change',
    { schema: { hide: true, params: vehicleParams, body: FormBody } },
    async (request, reply) => {
      refuseUnlessWriter(request);
      const fields = request.body;
      const { caller } = request;
      const vehicle = await store.vehicles.get(caller, request.params.vehicleId);
      const { body, places } = readVehicle(fields);
      const read = (patched: unknown): VehicleBody => {
        const result = VehicleBody.safeParse(patched);
        if (!result.success) throw new InputRejected('body', result.error.issues);
        return result.data;
      };
      try {
        // Refuses with all errors, not only those of the fields that cannot be read.
        if (places.errors.length > 0) parseBody(VehicleBody, body, places);
        const patch = vehiclePatch(vehicle, body);
        const expected = [Number(fields.version)];
        await store.vehicles.change(caller, vehicle.id, expected, { patch, effectiveFrom: null, read });
      } catch (fault) {
        const errors = errorsOf(fault, places, fields);
        reply.code(fault instanceof Refusal && fault.kind === 'stale' ? 412 : 422);
        const rest = { ...changing(vehicle, fields.version ?? ''), once: fields.once };
        return send(request, reply, await pageOf(request, { values: fields, errors }, rest));
      }
      return reply.redirect(`/vehicles/${vehicle.id}`, 303);
    },
  );

  /** Sorts a refusal's errors by field; rethrows any other fault. */
  function errorsOf(fault: unknown, places: Places, fields: Record<string, string>): FieldError[] {
    const context = { visits: [], today: today() };
    if (fault instanceof InputRejected) {
      return [
        ...places.errors,
        ...fieldErrors(schemaIssues(fault.issues) as Issue[], places, fields, context),
      ];
    }
    if (!(fault instanceof Refusal) || fault.kind === 'not-found') throw fault;
    if (fault.kind === 'stale') {
      const message =
        'Somebody else changed this vehicle since you opened it. Open it again and repeat the change.';
      return [{ field: '', message }];
    }
    if (fault.code === 'duplicate-vehicle') {
      const field = fault.message.includes('VIN') ? 'vin' : 'externalId';
      return [{ field, message: 'Another vehicle has this already. Find it and record the visit there.' }];
    }
    return [...places.errors, ...fieldErrors(fault.issues, places, fields, context)];
  }
}
