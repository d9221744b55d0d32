import { getTableColumns, getTableName } from 'drizzle-orm';
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Database } from './database.js';

/**
 * Prepares the insertion of whole rows into a table; what a row does not say is null.
 *
 * The query builder maps every value of every row anew, which for the many rows of an import takes several times as
 * long as the insertion itself. Here only JSON and booleans are mapped.
 *
 * @returns inserts a row and gives its rowid
 */
export function inserter<Table extends SQLiteTable>(
  database: Database,
  table: Table,
): (row: Partial<Record<keyof Table['_']['columns'], unknown>>) => number {
  const columns = Object.entries(getTableColumns(table)).filter(([, column]) => !column.generated);
  const names = columns.map(([, { name }]) => `"${name}"`).join(', ');
  const values = columns.map(() => '?').join(', ');
  const statement = database.$client.prepare(
    `insert into "${getTableName(table)}" (${names}) values (${values})`,
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
