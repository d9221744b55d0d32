import type { Statement } from 'better-sqlite3';
import { getTableColumns, getTableName } from 'drizzle-orm';
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Database } from './connection.js';

type Name<Table extends SQLiteTable> = keyof Table['_']['columns'] & string;
type NewRow<Table extends SQLiteTable> = Partial<Record<Name<Table>, unknown>>;
type WriteRow<Table extends SQLiteTable> = (row: NewRow<Table>) => number;

/** Maximum rows per statement. */
const MAX_ROWS = 16;

/**
 * Inserts whole rows into a table; missing values are null.
 *
 * The query builder maps every value of every row again, which for a large import takes several times as long as the
 * insertion itself. This maps only JSON and booleans.
 */
function insertion(database: Database, table: SQLiteTable) {
  const columns = Object.entries(getTableColumns(table)).filter(([, column]) => !column.generated);
  const names = columns.map(([, { name }]) => `"${name}"`).join(', ');
  const values = `(${columns.map(() => '?').join(', ')})`;
  return {
    prepare: (rows: number, otherwise = ''): Statement =>
      database.$client.prepare(
        `insert into "${getTableName(table)}" (${names}) values ${Array(rows).fill(values).join(', ')} ${otherwise}`,
      ),
    bind(row: Record<string, unknown>): unknown[] {
      return columns.map(([key, column]) => {
        const value = row[key] ?? null;
        const isMapped = typeof value === 'object' || typeof value === 'boolean';
        return isMapped ? column.mapToDriverValue(value) : value;
      });
    },
  };
}

/**
 * Prepares the insertion of one row.
 *
 * @param otherwise SQL that follows the values
 * @returns inserts a row and returns its rowid
 */
export function inserter<Table extends SQLiteTable>(
  database: Database,
  table: Table,
  otherwise = '',
): WriteRow<Table> {
  const { prepare, bind } = insertion(database, table);
  const statement = prepare(1, otherwise);
  return (row) => Number(statement.run(bind(row)).lastInsertRowid);
}

/**
 * Prepares the insertion of several rows with few statements, to be called within a transaction. SQLite rebuilds the
 * lists in its check constraints for every statement, which for readings takes longer than everything else.
 */
export function rowsInserter<Table extends SQLiteTable>(
  database: Database,
  table: Table,
): (rows: readonly NewRow<Table>[]) => void {
  const { prepare, bind } = insertion(database, table);
  const statements = new Map<number, Statement>();
  return (rows) => {
    for (let from = 0; from < rows.length; from += MAX_ROWS) {
      const some = rows.slice(from, from + MAX_ROWS);
      const statement = statements.get(some.length) ?? prepare(some.length);
      statements.set(some.length, statement);
      statement.run(some.flatMap(bind));
    }
  };
}

/**
 * Prepares an upsert of one row by its key.
 *
 * @param updated SQL for columns that do not simply get their new value
 */
export function upserter<Table extends SQLiteTable>(
  database: Database,
  table: Table,
  key: readonly Name<Table>[],
  updated: Partial<Record<Name<Table>, string>> = {},
): WriteRow<Table> {
  const columns = Object.entries(getTableColumns(table)) as [Name<Table>, { name: string }][];
  const keyNames = columns.filter(([column]) => key.includes(column)).map(([, { name }]) => name);
  const changes = columns
    .filter(([column]) => !key.includes(column))
    .map(([column, { name }]) => `${name} = ${updated[column] ?? `excluded.${name}`}`);
  return inserter(
    database,
    table,
    `on conflict (${keyNames.join(', ')}) do update set ${changes.join(', ')}`,
  );
}
