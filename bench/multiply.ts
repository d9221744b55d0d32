import type BetterSqlite from 'better-sqlite3';

/**
 * Makes a large database of a small one that the service wrote: every row that hangs on a vehicle is copied again and
 * again, under ids and places of its own. What a vehicle's outlook says does not hang on its ids, so the rows are
 * those which the service would have written; a new table that hangs on vehicles or visits is copied by itself.
 */

/** Columns with places in the order of arrival, by the table whose places they are. */
const PLACES: Record<string, string> = { vehicle_seq: 'vehicles', visit_seq: 'visits' };

/** The number of the copy; what JavaScript binds is a real number. */
const COPY = 'cast(:copy as integer)';

/** @param copies of the database's vehicles to add; the first is number 1 */
export function multiplyVehicles(connection: BetterSqlite.Database, copies: number): void {
  const tables = tablesOfVehicles(connection);
  const highest = (table: string): number =>
    connection.prepare(`select ifnull(max(seq), 0) from "${table}"`).pluck().get() as number;
  const places = { vehicles: highest('vehicles'), visits: highest('visits'), audit: highest('audit') };
  const statements = tables.map((table) => copyOf(connection, table, places));
  for (let copy = 1; copy <= copies; copy++) {
    connection.transaction(() => statements.forEach((statement) => statement.run({ copy })))();
  }
}

/** Vehicles, visits and what refers to either, parents first; the audit, which names them by id. */
function tablesOfVehicles(connection: BetterSqlite.Database): string[] {
  const tables = connection
    .prepare("select name from sqlite_master where type = 'table' and name not like 'sqlite_%'")
    .pluck()
    .all() as string[];
  const hangs = (table: string): boolean => columnsOf(connection, table).some((column) => column in PLACES);
  return ['vehicles', 'visits', 'audit', ...tables.filter((table) => table !== 'visits' && hangs(table))];
}

function columnsOf(connection: BetterSqlite.Database, table: string): string[] {
  const columns = connection.pragma(`table_xinfo("${table}")`) as { name: string; hidden: number }[];
  return columns.filter(({ hidden }) => hidden === 0).map(({ name }) => name);
}

/** The column that the rows of a table are found and ordered by. */
function firstOfKey(connection: BetterSqlite.Database, table: string): string {
  const columns = connection.pragma(`table_xinfo("${table}")`) as { name: string; pk: number }[];
  return columns.find(({ pk }) => pk === 1)!.name;
}

/** Copies the first rows of a table, those that were there before any copy. */
function copyOf(
  connection: BetterSqlite.Database,
  table: string,
  places: Record<string, number>,
): BetterSqlite.Statement {
  const columns = columnsOf(connection, table);
  const valueOf = (column: string): string => {
    const owner = column === 'seq' ? table : PLACES[column];
    if (owner) return `"${column}" + ${COPY} * ${places[owner]}`;
    if (column === 'id' || column === 'resource_id') return idOf(column);
    if (column === 'fleet') return `fleet || '-' || ${COPY}`;
    if (column === 'body' && table.startsWith('vehicle')) return vehicleBodyOf();
    return `"${column}"`;
  };
  const place = firstOfKey(connection, table);
  const names = columns.map((column) => `"${column}"`).join(', ');
  const only = table === 'audit' ? "and resource in ('vehicle', 'visit')" : '';
  return connection.prepare(
    `insert into "${table}" (${names}) select ${columns.map(valueOf).join(', ')} from "${table}"
     where "${place}" <= ${places[place === 'seq' ? table : PLACES[place]!]} ${only} order by "${place}"`,
  );
}

/** The first half of an id differs from vehicle to vehicle and from visit to visit; the rest tells copies apart. */
const idOf = (column: string): string => `substr("${column}", 1, 24) || printf('%012x', ${COPY})`;

const vehicleBodyOf = (): string =>
  ['externalId', 'fleet'].reduce(
    (body, name) => `json_set(${body}, '$.${name}', json_extract("body", '$.${name}') || '-' || ${COPY})`,
    '"body"',
  );
