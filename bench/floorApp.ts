import fastify, { type FastifyInstance } from 'fastify';

/** What every floor answers, over the statements of its engine: constants, a visit's rows and a page of due-soon. */

interface Statements {
  /** Writes the rows of a visit on a vehicle, durably. */
  record(vehicleId: string): void | Promise<void>;
  /** The rows of due-soon's first page up to a date. */
  due(horizon: string): unknown[] | Promise<unknown[]>;
}

const ITEMS = 50;

/** One query that an index answers, with the same rows as the report's items. */
export const dueSoonQuery = (horizon: '?' | '$1'): string =>
  `select v.id "vehicleId", v.external_id "externalId", v.registration, a.fleet, v.model, a.axle,
     a.failing "overdue", 0.5 "chance", a.early_date "earlyDate", a.median_date "medianDate", a.late_date "lateDate",
     a.governing_side "side", a.governing_pad "pad", a.limit_mm "limitMm", a.limit_source "limitSource",
     a.last_reading_date "lastReadingDate"
   from axle_outlooks a join vehicles v on v.seq = a.vehicle_seq
   where a.early_date is not null and a.early_date <= ${horizon} and a.out_of_service_date is null
   order by a.early_date, a.vehicle_seq, a.axle limit ${ITEMS}`;

export function floorApp({ record, due }: Statements): FastifyInstance {
  const app = fastify({ logger: true });
  app.get('/ready', async () => 'ready');

  const constants = new Map<string, string>();
  app.put('/constants/:name', async ({ params, body }) => {
    constants.set((params as { name: string }).name, JSON.stringify(body));
    return 'kept';
  });
  const constantOf = (name: string): string => constants.get(name) ?? '';
  app.get('/constants/:name', async ({ params }, reply) =>
    reply.type('application/json').send(constantOf((params as { name: string }).name)),
  );
  app.post('/vehicles/:vehicleId/visits', async ({ params }, reply) => {
    await record((params as { vehicleId: string }).vehicleId);
    return reply.code(201).type('application/json').send(constantOf('visit'));
  });
  app.get('/due-soon', async ({ query }) => ({
    items: await due((query as { horizon: string }).horizon),
  }));
  return app;
}

/** Serves it on a free port, which the first line of output names. */
export async function serveFloor(app: FastifyInstance): Promise<void> {
  process.stdout.write(`listening on ${await app.listen({ host: '127.0.0.1', port: 0 })}\n`);
}
