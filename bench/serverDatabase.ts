import { isDeepStrictEqual, parseArgs } from 'node:util';
import pg from 'pg';
import { dateIn } from '../src/core/calendar.js';
import { moveBetween } from '../src/store/moving.js';
import { openServerStore } from '../src/store/open.js';
import { OPERATOR } from '../src/store/contract/caller.js';
import { wholeNumber } from './options.js';

/**
 * Makes a large PostgreSQL database: moves the vehicles of a file of `npm run bench:database` there, and copies all of
 * their rows up to the requested number of vehicles, as `multiply.ts` does in a file. The outlooks of a sample of the
 * copies are then recomputed and compared with the stored ones.
 *
 *   npm run bench:server-database -- --from FILE [--vehicles 100000] postgres://…
 *
 * The user must be a superuser, who may disable the checks of foreign keys while rows are copied.
 */

/** Columns with places in the order of arrival, by the table they refer to. */
const PLACES: Record<string, string> = { vehicle_seq: 'vehicles', visit_seq: 'visits' };
const SAMPLE = 50;
const EVERYTHING = { ...OPERATOR, keyName: 'bench' };

/** A table whose rows depend on a vehicle. */
interface Copied {
  table: string;
  columns: string[];
}

/** Tables with rows of vehicles, parents first, with the columns that are written. */
async function tablesOfVehicles(client: pg.Client): Promise<Copied[]> {
  const { rows } = await client.query<Copied>(
    `select table_name as table, array_agg(column_name::text order by ordinal_position) as columns
     from information_schema.columns
     where table_schema = 'public' and is_generated = 'NEVER' and column_name <> 'written_by'
     group by 1`,
  );
  const first = ['vehicles', 'visits', 'audit'];
  const rest = rows.filter(
    ({ table, columns }) => !first.includes(table) && columns.some((column) => column in PLACES),
  );
  return [...first.map((name) => rows.find(({ table }) => table === name)!), ...rest];
}

/** Copies the rows that a table has now, all of them once per copy, in the order of arrival. */
function copyOf({ table, columns }: Copied, places: Record<string, number>): string {
  const valueOf = (column: string): string => {
    const owner = column === 'seq' ? table : PLACES[column];
    if (owner) return `"${column}" + copy * ${places[owner]}`;
    if (column === 'id' || column === 'resource_id')
      return `left("${column}", 24) || lpad(to_hex(copy), 12, '0')`;
    if (column === 'fleet') return `fleet || '-' || copy`;
    if (column === 'body' && table.startsWith('vehicle')) return vehicleBody;
    return `"${column}"`;
  };
  const names = columns.map((column) => `"${column}"`).join(', ');
  const place = columns.find((column) => column === 'seq' || column in PLACES)!;
  const only = table === 'audit' ? "and resource in ('vehicle', 'visit')" : '';
  return `insert into "${table}" (${names}) select ${columns.map(valueOf).join(', ')}
    from generate_series($1::int, $2::int) copy,
      (select * from "${table}" where "${place}" <= ${places[PLACES[place] ?? table]} ${only} order by "${place}") original`;
}

const vehicleBody = ['externalId', 'fleet'].reduce(
  (body, name) => `jsonb_set(${body}, '{${name}}', to_jsonb((body ->> '${name}') || '-' || copy))`,
  'body::jsonb',
);

/** Number of copies made at a time, each with one statement per table. */
const AT_ONCE = 100;

async function multiply(client: pg.Client, copies: number): Promise<void> {
  const tables = await tablesOfVehicles(client);
  const numberOf = async (query: string): Promise<number> =>
    (await client.query<{ number: number }>(`select (${query})::int as number`)).rows[0]!.number;
  const highest = (table: string) => numberOf(`select coalesce(max(seq), 0) from "${table}"`);
  const places = {
    vehicles: await highest('vehicles'),
    visits: await highest('visits'),
    audit: await highest('audit'),
  };
  // Disables foreign keys and the append-only triggers.
  await client.query("set session_replication_role = 'replica'");
  const indexes = await droppedIndexes(client, tables);
  for (const copied of tables) {
    for (let from = 1; from <= copies; from += AT_ONCE) {
      const to = Math.min(copies, from + AT_ONCE - 1);
      await client.query(copyOf(copied, places), [from, to]);
    }
    console.error(`${copied.table}: copied`);
  }
  for (const index of indexes) {
    await client.query(index);
    console.error(index.slice(0, 80));
  }
  for (const table of Object.keys(places))
    await client.query(
      `select setval(pg_get_serial_sequence('${table}', 'seq'), (select max(seq) from "${table}"))`,
    );
}

/** Drops the indexes that only make searches faster and returns the statements that create them again. */
async function droppedIndexes(client: pg.Client, tables: readonly Copied[]): Promise<string[]> {
  const { rows } = await client.query<{ name: string; definition: string }>(
    `select indexname as name, indexdef as definition from pg_indexes
     where tablename = any($1) and indexname not in (select conname from pg_constraint)`,
    [tables.map(({ table }) => table)],
  );
  for (const { name } of rows) await client.query(`drop index "${name}"`);
  return rows.map(({ definition }) => definition);
}

/** Checks vehicles from all parts of the database: their stored outlook must follow from their stored history. */
async function checkSample(client: pg.Client, url: string): Promise<void> {
  const { rows } = await client.query<{ id: string }>(
    `select id from vehicles where seq % greatest(1, (select max(seq) from vehicles) / ${SAMPLE}) = 0 limit ${SAMPLE}`,
  );
  const store = await openServerStore({ url, timeZone: 'UTC' });
  for (const { id } of rows) {
    const stored = await store.outlooks.get(EVERYTHING, id);
    const again = await store.outlooks.asOf(EVERYTHING, id, dateIn(new Date(), 'UTC'));
    if (!isDeepStrictEqual(stored, again)) throw new Error(`vehicle ${id}: stored outlook differs`);
  }
  await store.close();
}

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { from: { type: 'string' }, vehicles: { type: 'string', default: '100000' } },
});
const [url] = positionals;
if (!url || !values.from) throw new Error('name a file with --from, and the URL of an empty database');
const vehicles = wholeNumber('vehicles', values.vehicles);
const began = performance.now();
await moveBetween({ file: values.from }, { url }, () => undefined);
const client = new pg.Client({ connectionString: url });
await client.connect();
const { rows: counted } = await client.query<{ recorded: number }>(
  'select count(*)::int as recorded from vehicles',
);
await multiply(client, Math.ceil(vehicles / counted[0]!.recorded) - 1);
// Marks the fit as if it had known all vehicles, so that none starts during a measurement.
await client.query('update experiences set last_visit_seq = 9007199254740991');
await client.query('vacuum analyze');
await checkSample(client, url);
const { rows: sizes } = await client.query<{ bytes: number }>(
  'select pg_database_size(current_database())::float8 as bytes',
);
await client.end();
const [bytes, seconds] = [sizes[0]!.bytes, (performance.now() - began) / 1000];
console.log(
  `${vehicles} vehicles, ${(bytes / 1e9).toFixed(2)} GB, ${(bytes / vehicles / 1000).toFixed(1)} kB per vehicle, in ${seconds.toFixed(0)} s`,
);
