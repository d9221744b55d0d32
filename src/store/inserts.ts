import { getTableColumns, getTableName } from 'drizzle-orm';
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Database } from './database.js';

type Name<Table extends SQLiteTable> = keyof Table['_']['columns'] & string;
type WriteRow<Table extends SQLiteTable> = (row: Partial<Record<Name<Table>, unknown>>) => number;

/**
 * Prepares the insertion of whole rows into a table; what a row does not say is null.
 *
 * The query builder maps every value of every row anew, which for the many rows of an import takes several times as
 * long as the insertion itself. Here only JSON and booleans are mapped.
 *
 * @param otherwise what follows the values, in SQL
 * @returns inserts a row and gives its rowid
 */
export function inserter<Table extends SQLiteTable>(
  database: Database,
  table: Table,
  otherwise = '',
): WriteRow<Table> {
  const columns = Object.entries(getTableColumns(table)).filter(([, column]) => !column.generated);
  const names = columns.map(([, { name }]) => `"${name}"`).join(', ');
  const values = columns.map(() => '?').join(', ');
  const statement = database.$client.prepare(
    `insert into "${getTableName(table)}" (${names}) values (${values}) ${otherwise}`,
  );
  return (row) => {
    const bound = columns.map(([key, column]) => {
      const value = (row as Record<string, unknown>)[key] ?? null;
      const isMapped = typeof value === 'object' || typeof value === 'boolean';
      return isMapped ? column.mapToDriverValue(value) : value;
    });
    return Number(statement.run(bound).lastInsertRowid);
  };
}

/**
 * The same, of rows that replace what stands under their key.
 *
 * @param anew what a column becomes where that is not its new value, in SQL
 */
export function upserter<Table extends SQLiteTable>(
  database: Database,
  table: Table,
  key: readonly Name<Table>[],
  anew: Partial<Record<Name<Table>, string>> = {},
): WriteRow<Table> {
  const columns = Object.entries(getTableColumns(table)) as [Name<Table>, { name: string }][];
  const keyNames = columns.filter(([column]) => key.includes(column)).map(([, { name }]) => name);
  const changes = columns
    .filter(([column]) => !key.includes(column))
    .map(([column, { name }]) => `${name} = ${anew[column] ?? `excluded.${name}`}`);
  return inserter(
    database,
    table,
    `on conflict (${keyNames.join(', ')}) do update set ${changes.join(', ')}`,
  );
}
