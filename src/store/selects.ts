import { getTableColumns, getTableName } from 'drizzle-orm';
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Database } from './database.js';

/**
 * Prepares the reading of whole rows; as with their insertion, only JSON and booleans are mapped.
 *
 * @param condition what follows `where`, in SQL; its parameters are bound in their order
 */
export function selector<Table extends SQLiteTable>(
  database: Database,
  table: Table,
  condition: string,
): (...parameters: unknown[]) => Table['$inferSelect'][] {
  const columns = Object.entries(getTableColumns(table));
  const names = columns.map(([key, { name }]) => `"${name}" as "${key}"`).join(', ');
  const mapped = columns.filter(([, { dataType }]) => dataType === 'custom' || dataType === 'boolean');
  const statement = database.$client.prepare(
    `select ${names} from "${getTableName(table)}" where ${condition}`,
  );
  return (...parameters) => {
    const rows = statement.all(...parameters) as Record<string, unknown>[];
    for (const [key, column] of mapped) {
      for (const row of rows) if (row[key] !== null) row[key] = column.mapFromDriverValue(row[key]);
    }
    return rows;
  };
}
