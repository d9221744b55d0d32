import pg from 'pg';
import { dueSoonQuery, floorApp, serveFloor } from './floorApp.js';

/**
 * The floor for a service on PostgreSQL: Fastify and hand-written statements on the same database, without any checks. A
 * separate process: `serverFloors.js URL SAMPLE`, where SAMPLE is a vehicle whose latest visit shows what one visit
 * writes.
 */

const JSON_TYPE = 114;
// JSON is written as it was read.
pg.types.setTypeParser(JSON_TYPE, (text) => text);

type Row = Record<string, unknown>;

/** Rows of one table, written unchanged except for their keys. */
interface Copied {
  table: string;
  rows: Row[];
  /** The columns that identify the row to replace; null if every row is new. */
  key: string | null;
}

/** Writes the rows of a visit to the same tables as the service, with one statement per table, in one transaction. */
async function visitWriter(pool: pg.Pool, sampleId: string): Promise<(vehicleId: string) => Promise<void>> {
  const rowsOf = async (table: string, column: string, value: unknown): Promise<Row[]> =>
    (await pool.query<Row>(`select * from "${table}" where "${column}" = $1`, [value])).rows;
  const [vehicle] = await rowsOf('vehicles', 'id', sampleId);
  const sample = vehicle!['seq'];
  const [head] = (
    await pool.query<Row>('select * from visits where vehicle_seq = $1 order by seq desc limit 1', [sample])
  ).rows;
  const {
    rows: [line],
  } = await pool.query<Row>("select * from audit where resource = 'visit' order by seq desc limit 1");
  const ofVisit: Copied[] = [];
  for (const table of ['readings', 'work_items', 'visit_versions'])
    ofVisit.push({ table, rows: await rowsOf(table, 'visit_seq', head!['seq']), key: null });
  const ofVehicle: Copied[] = [];
  for (const [table, key] of [
    ['outlooks', 'vehicle_seq'],
    ['wear_answers', 'vehicle_seq'],
    ['axle_outlooks', 'vehicle_seq, axle'],
    ['forecast_scores', 'vehicle_seq'],
  ] as const)
    ofVehicle.push({ table, rows: await rowsOf(table, 'vehicle_seq', sample), key });

  let written = 0;
  return async (vehicleId) => {
    const client = await pool.connect();
    try {
      await client.query('begin');
      const {
        rows: [found],
      } = await client.query<{ seq: string; date: string }>({
        name: 'place',
        text: `select v.seq, max(visits.date) date from vehicles v join visits on visits.vehicle_seq = v.seq
          where v.id = $1 group by v.seq`,
        values: [vehicleId],
      });
      const { seq: _head, ...without } = head!;
      const id = `floor-${process.pid}-${++written}`;
      const visit = { ...without, id, vehicle_seq: found!.seq, date: found!.date, work_order: id };
      const [inserted] = await insert(client, { table: 'visits', rows: [visit], key: null }, 'returning seq');
      const keys = { vehicle_seq: found!.seq, visit_seq: inserted!['seq'] };
      for (const { rows, ...rest } of ofVisit)
        await insert(client, { ...rest, rows: rows.map((row) => ({ ...row, ...keys })) });
      const { seq: _seq, written_by: _writtenBy, ...noted } = line!;
      await insert(client, { table: 'audit', rows: [{ ...noted, resource_id: id }], key: null });
      for (const { rows, ...rest } of ofVehicle)
        await insert(client, { ...rest, rows: rows.map((row) => ({ ...row, vehicle_seq: found!.seq })) });
      await client.query('commit');
    } finally {
      client.release();
    }
  };
}

async function insert(client: pg.PoolClient, { table, rows, key }: Copied, end = ''): Promise<Row[]> {
  if (rows.length === 0) return [];
  const columns = Object.keys(rows[0]!);
  const places = rows.map(
    (_row, index) => `(${columns.map((_column, at) => `$${index * columns.length + at + 1}`).join(', ')})`,
  );
  const replaced = columns.map((column) => `"${column}" = excluded."${column}"`).join(', ');
  const conflict = key === null ? '' : `on conflict (${key}) do update set ${replaced}`;
  const result = await client.query<Row>({
    name: `${table} ${rows.length}`,
    text: `insert into "${table}" (${columns.map((column) => `"${column}"`).join(', ')}) values ${places.join(', ')} ${conflict} ${end}`,
    values: rows.flatMap((row) => columns.map((column) => row[column])),
  });
  return result.rows;
}

const [, , url, sample] = process.argv;
const pool = new pg.Pool({ connectionString: url!, max: 10 });
const due = { name: 'due', text: dueSoonQuery('$1') };
await serveFloor(
  floorApp({
    record: await visitWriter(pool, sample!),
    due: async (horizon) => (await pool.query({ ...due, values: [horizon] })).rows,
  }),
);
