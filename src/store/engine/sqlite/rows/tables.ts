import { getTableColumns, sql, type SQL } from 'drizzle-orm';
import { getTableConfig, type SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { TableName, TableRow, TableRows } from '../../contract/tables.js';
import type { Database } from '../connection.js';
import * as schema from '../schema.js';

/** A table's columns that are written, and those of its primary key, in order. */
function layoutOf(name: TableName) {
  const table: SQLiteTable = schema[name];
  const columns = Object.entries(getTableColumns(table)).filter(([, column]) => !column.generated);
  const [composite] = getTableConfig(table).primaryKeys;
  const names = composite?.columns.map((column) => column.name);
  const key = names
    ? names.map((of) => columns.find(([, column]) => column.name === of)!)
    : columns.filter(([, column]) => column.primary);
  return { table, columns: Object.fromEntries(columns), key };
}

const listed = (parts: SQL[]): SQL => sql.join(parts, sql`, `);

export function tableRows(database: Database): TableRows {
  function select(name: TableName, after: TableRow | null, order: 'asc' | 'desc', limit: number): TableRow[] {
    const { table, columns, key } = layoutOf(name);
    const place = key.map(([, column]) => sql`${column}`);
    const isBehind = after && sql`(${listed(place)}) > (${listed(key.map(([of]) => sql`${after[of]}`))})`;
    return database
      .select(columns)
      .from(table)
      .where(isBehind ?? undefined)
      .orderBy(...place.map((column) => sql`${column} ${sql.raw(order)}`))
      .limit(limit)
      .all();
  }

  return {
    read: async (name, after, limit) => select(name, after, 'asc', limit),
    last: async (name) => select(name, null, 'desc', 1)[0] ?? null,
    async insert(name, rows) {
      if (rows.length > 0)
        database
          .insert(schema[name] as SQLiteTable)
          .values([...rows])
          .run();
    },
    // The file's name marks an unfinished copy.
    beginCopy: async () => true,
    // A new row always gets a number after the highest one.
    endCopy: async () => undefined,
  };
}
