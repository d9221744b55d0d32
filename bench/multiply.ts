import type BetterSqlite from 'better-sqlite3';

/**
 * Makes a large database from a small one that the service wrote: every row that depends on a vehicle is copied many
 * times, with its own ids and places in order. Outlooks do not depend on ids, so these are the rows
 * that the service would have written. A new table that refers to vehicles or visits is copied without changes here.
 */

/** Columns with places in the order of arrival, by the table they refer to. */
const PLACES: Record<string, string> = { vehicle_seq: 'vehicles', visit_seq: 'visits' };

/** The number of the copy; JavaScript binds it as a real number. */
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

/** Vehicles, visits and tables that refer to either, parents first; the audit, which names them by id. */
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

/** The column by which the rows of a table are found and ordered. */
function firstOfKey(connection: BetterSqlite.Database, table: string): string {
  const columns = connection.pragma(`table_xinfo("${table}")`) as { name: string; pk: number }[];
  return columns.find(({ pk }) => pk === 1)!.name;
}

/** Copies the first rows of a table, those that existed before any copy. */
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

/** The first half of an id differs by vehicle and visit; the rest identifies the copy. */
const idOf = (column: string): string => `substr("${column}", 1, 24) || printf('%012x', ${COPY})`;

const vehicleBodyOf = (): string =>
  ['externalId', 'fleet'].reduce(
    (body, name) => `json_set(${body}, '$.${name}', json_extract("body", '$.${name}') || '-' || ${COPY})`,
    '"body"',
  );
