import { getTableColumns, sql, type SQL } from 'drizzle-orm';
import type { PgTable } from 'drizzle-orm/pg-core';

/**
 * Selects whole rows of a table as one JSON value, so that one statement reads several tables in one snapshot and one
 * round trip.
 */
export function nestedRows<Table extends PgTable>(table: Table, where: SQL, order: SQL) {
  const columns = Object.entries(getTableColumns(table));
  const values = sql.join(
    columns.map(([, column]) => sql`${column}`),
    sql`, `,
  );
  return {
    select: sql<
      unknown[][]
    >`(select coalesce(json_agg(json_build_array(${values}) order by ${order}), '[]') from ${table} where ${where})`,
    rows: (nested: readonly unknown[][]): Table['$inferSelect'][] =>
      nested.map((row) => Object.fromEntries(columns.map(([key], index) => [key, row[index]]))),
  };
}
