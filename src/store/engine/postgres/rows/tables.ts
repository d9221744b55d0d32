import { getTableColumns, getTableName, sql, type SQL } from 'drizzle-orm';
import { getTableConfig, type PgTable } from 'drizzle-orm/pg-core';
import { required } from '../../../../core/items.js';
import { TABLES, type TableName, type TableRow, type TableRows } from '../../contract/tables.js';
import type { Database } from '../connections.js';
import * as schema from '../schema.js';

/** Columns not copied: the transaction number of an audit row means nothing to another server. */
const OWN_COLUMNS = ['writtenBy'];
/** Comes before every transaction of a server. */
const BEFORE_ALL = { writtenBy: '0' };

/** A table's columns that are written, and those of its primary key, in order. */
function layoutOf(name: TableName) {
  const table: PgTable = schema[name];
  const columns = Object.entries(getTableColumns(table)).filter(
    ([key, column]) => !column.generated && !OWN_COLUMNS.includes(key),
  );
  const [composite] = getTableConfig(table).primaryKeys;
  const names = composite?.columns.map((column) => column.name);
  const key = names
    ? names.map((of) => columns.find(([, column]) => column.name === of)!)
    : columns.filter(([, column]) => column.primary);
  return { table, columns: Object.fromEntries(columns), key };
}

const listed = (parts: SQL[]): SQL => sql.join(parts, sql`, `);

export function tableRows(database: Database): TableRows {
  async function select(
    name: TableName,
    after: TableRow | null,
    order: 'asc' | 'desc',
    limit: number,
  ): Promise<TableRow[]> {
    const { table, columns, key } = layoutOf(name);
    const place = key.map(([, column]) => sql`${column}`);
    const isBehind = after && sql`(${listed(place)}) > (${listed(key.map(([of]) => sql`${after[of]}`))})`;
    return database
      .select(columns)
      .from(table)
      .where(isBehind ?? undefined)
      .orderBy(...place.map((column) => sql`${column} ${sql.raw(order)}`))
      .limit(limit);
  }

  const rowsOf = (statement: SQL) => database.execute(statement) as unknown as Promise<unknown[][]>;

  return {
    read: (name, after, limit) => select(name, after, 'asc', limit),
    last: async (name) => (await select(name, null, 'desc', 1))[0] ?? null,
    async insert(name, rows) {
      const own = name === 'audit' ? BEFORE_ALL : {};
      if (rows.length > 0)
        await database.insert(schema[name]).values(rows.map((row) => ({ ...row, ...own })));
    },
    async beginCopy() {
      const [found] = await rowsOf(sql`select to_regclass('unfinished_move') is not null`);
      if (required(found, 'row')[0] === true) return true;
      for (const name of TABLES)
        if (await select(name, null, 'asc', 1).then((rows) => rows.length > 0)) return false;
      await database.execute(sql`create table unfinished_move ()`);
      return true;
    },
    async endCopy() {
      await database.execute(sql`drop table unfinished_move`);
      for (const name of TABLES.filter((each) => 'seq' in getTableColumns(schema[each] as PgTable))) {
        const table = getTableName(schema[name]);
        await database.execute(
          sql`select setval(pg_get_serial_sequence(${table}, 'seq'), greatest(max(seq), 1), max(seq) is not null) from ${schema[name]}`,
        );
      }
    },
  };
}
