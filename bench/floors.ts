import BetterSqlite from 'better-sqlite3';
import type { FastifyInstance } from 'fastify';
import { dueSoonQuery, floorApp, serveFloor } from './floorApp.js';

/**
 * The floor to compare the service with: Fastify and hand-written statements, without any checks. A separate process:
 * `floors.js FILE SAMPLE SHOP`, where FILE is a database that it may write to, SAMPLE a vehicle whose latest visit
 * shows what one visit writes, and SHOP the service's own database, from which it reads the same due-soon page.
 */

function floorOn(file: string, sampleId: string, shopFile: string): FastifyInstance {
  const connection = new BetterSqlite(file);
  connection.pragma('journal_mode = WAL');
  connection.pragma('synchronous = FULL');
  connection.pragma('foreign_keys = ON');
  const due = new BetterSqlite(shopFile, { readonly: true }).prepare(dueSoonQuery('?'));
  const app = floorApp({
    record: visitWriter(connection, sampleId),
    due: (horizon) => due.all(horizon),
  });
  app.post('/without-fsync', async () => {
    connection.pragma('synchronous = OFF');
    return 'off';
  });
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

const [, , file, sample, shopFile] = process.argv;
await serveFloor(floorOn(file!, sample!, shopFile!));
