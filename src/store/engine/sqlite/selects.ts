import { getTableColumns, getTableName } from 'drizzle-orm';
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Database } from './connection.js';

/**
 * Prepares reading of whole rows; as with insertion, maps only JSON and booleans. Rows are read as arrays, since the
 * driver takes twice as long to build an object per row.
 *
 * @param condition SQL that follows `where`; its parameters are bound in order
 */
export function selector<Table extends SQLiteTable>(
  database: Database,
  table: Table,
  condition: string,
): (...parameters: unknown[]) => Table['$inferSelect'][] {
  const columns = Object.entries(getTableColumns(table)).map(([key, column]) => {
    const isMapped = column.dataType === 'custom' || column.dataType === 'boolean';
    return { key, column, isMapped };
  });
  const names = columns.map(({ column }) => `"${column.name}"`).join(', ');
  const statement = database.$client
    .prepare(`select ${names} from "${getTableName(table)}" where ${condition}`)
    .raw();
  const named = (values: readonly unknown[]): Record<string, unknown> => {
    const row: Record<string, unknown> = {};
    columns.forEach(({ key, column, isMapped }, index) => {
      const value = values[index];
      row[key] = isMapped && value !== null ? column.mapFromDriverValue(value) : value;
    });
    return row;
  };
  return (...parameters) => (statement.all(...parameters) as unknown[][]).map(named);
}
