import BetterSqlite from 'better-sqlite3';
import fastify, { type FastifyInstance } from 'fastify';

/**
 * The floor to compare the service with: Fastify and hand-written statements, without any checks. A separate process:
 * `floors.js FILE SAMPLE SHOP`, where FILE is a database that it may write to, SAMPLE a vehicle whose latest visit
 * shows what one visit writes, and SHOP the service's own database, from which it reads the same due-soon page.
 */

const ITEMS = 50;

function floorApp(file: string, sampleId: string, shopFile: string): FastifyInstance {
  const app = fastify({ logger: true });
  const connection = new BetterSqlite(file);
  connection.pragma('journal_mode = WAL');
  connection.pragma('synchronous = FULL');
  connection.pragma('foreign_keys = ON');
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

  const record = visitWriter(connection, sampleId);
  app.post('/vehicles/:vehicleId/visits', async ({ params }, reply) => {
    record((params as { vehicleId: string }).vehicleId);
    return reply.code(201).type('application/json').send(constantOf('visit'));
  });
  app.post('/without-fsync', async () => {
    connection.pragma('synchronous = OFF');
    return 'off';
  });

  const due = dueSoon(new BetterSqlite(shopFile, { readonly: true }));
  app.get('/due-soon', async ({ query }) => ({ items: due((query as { horizon: string }).horizon) }));
  return app;
}

/** Writes the rows of a visit to the same tables as the service, in one transaction. */
function visitWriter(connection: BetterSqlite.Database, sampleId: string): (vehicleId: string) => void {
  const seqOf = connection.prepare('select seq from vehicles where id = ?').pluck();
  const sample = seqOf.get(sampleId) as number;
  const visit = connection
    .prepare('select max(seq) from visits where vehicle_seq = ?')
    .pluck()
    .get(sample) as number;
  const ofVisit = ['readings', 'work_items', 'visit_versions'].map((table) =>
    rowsOf(table, 'visit_seq', visit),
  );
  const ofVehicle = ['outlooks', 'wear_answers', 'axle_outlooks', 'forecast_scores'].map((table) =>
    rowsOf(table, 'vehicle_seq', sample),
  );
  const head = rowsOf('visits', 'seq', visit);
  const line = rowsOf('audit', 'resource_id', (head.rows[0] as { id: string }).id);
  const placeOf = connection.prepare('select max(date), count(*) from visits where vehicle_seq = ?').raw();

  function rowsOf(table: string, column: string, value: unknown) {
    const rows = connection.prepare(`select * from "${table}" where "${column}" = ?`).all(value) as Record<
      string,
      unknown
    >[];
    const columns = connection.pragma(`table_xinfo("${table}")`) as { name: string; hidden: number }[];
    const names = columns.filter(({ hidden }) => hidden === 0).map(({ name }) => name);
    const insert = connection.prepare(
      `insert or replace into "${table}" (${names.map((name) => `"${name}"`).join(', ')})
       values (${names.map((name) => `:${name}`).join(', ')})`,
    );
    return { rows, insert };
  }

  let written = 0;
  const write = connection.transaction((vehicleId: string) => {
    const vehicleSeq = seqOf.get(vehicleId) as number;
    const [date, count] = placeOf.get(vehicleSeq) as [string, number];
    const id = `floor-${++written}-${vehicleId}`;
    const visitRow = {
      ...head.rows[0]!,
      seq: null,
      id,
      vehicle_seq: vehicleSeq,
      date,
      work_order: `F-${count}`,
    };
    const visitSeq = head.insert.run(visitRow).lastInsertRowid;
    const place = { vehicle_seq: vehicleSeq, visit_seq: visitSeq };
    for (const { rows, insert } of ofVisit) for (const row of rows) insert.run({ ...row, ...place });
    line.insert.run({ ...line.rows[0]!, seq: null, resource_id: id });
    for (const { rows, insert } of ofVehicle)
      for (const row of rows) insert.run({ ...row, vehicle_seq: vehicleSeq });
  });
  return (vehicleId) => void write.immediate(vehicleId);
}

/** One query that an index answers, with the same rows as the report's items. */
function dueSoon(connection: BetterSqlite.Database): (horizon: string) => unknown[] {
  const select = connection.prepare(
    `select v.id "vehicleId", v.external_id "externalId", v.registration, a.fleet, v.model, a.axle,
       a.failing "overdue", 0.5 "chance", a.early_date "earlyDate", a.median_date "medianDate", a.late_date "lateDate",
       a.governing_side "side", a.governing_pad "pad", a.limit_mm "limitMm", a.limit_source "limitSource",
       a.last_reading_date "lastReadingDate"
     from axle_outlooks a join vehicles v on v.seq = a.vehicle_seq
     where a.early_date is not null and a.early_date <= ? and a.out_of_service_date is null
     order by a.early_date, a.vehicle_seq, a.axle limit ${ITEMS}`,
  );
  return (horizon) => select.all(horizon);
}

const [, , file, sample, shopFile] = process.argv;
const app = floorApp(file!, sample!, shopFile!);
const address = await app.listen({ host: '127.0.0.1', port: 0 });
process.stdout.write(`listening on ${address}\n`);
