import type { Statement } from 'better-sqlite3';
import { getTableColumns, getTableName } from 'drizzle-orm';
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Database } from './database.js';

type NewRow<Table extends SQLiteTable> = Partial<Record<keyof Table['_']['columns'], unknown>>;

/** Rows written by one statement at most. */
const MOST_TOGETHER = 16;

/**
 * How whole rows are inserted into a table; what a row does not say is null.
 *
 * The query builder maps every value of every row anew, which for the many rows of an import takes several times as
 * long as the insertion itself. Here only JSON and booleans are mapped.
 */
function insertion(database: Database, table: SQLiteTable) {
  const columns = Object.entries(getTableColumns(table)).filter(([, column]) => !column.generated);
  const names = columns.map(([, { name }]) => `"${name}"`).join(', ');
  const values = `(${columns.map(() => '?').join(', ')})`;
  return {
    prepare: (rows: number): Statement =>
      database.$client.prepare(
        `insert into "${getTableName(table)}" (${names}) values ${Array(rows).fill(values).join(', ')}`,
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
 * @returns inserts a row and gives its rowid
 */
export function inserter<Table extends SQLiteTable>(
  database: Database,
  table: Table,
): (row: NewRow<Table>) => number {
  const { prepare, bind } = insertion(database, table);
  const statement = prepare(1);
  return (row) => Number(statement.run(bind(row)).lastInsertRowid);
}

/**
 * Prepares the insertion of several rows by few statements, to be called within a transaction: SQLite builds the lists
 * that its checks look into anew for every statement, and for a reading that takes longer than all the rest.
 */
export function rowsInserter<Table extends SQLiteTable>(
  database: Database,
  table: Table,
): (rows: readonly NewRow<Table>[]) => void {
  const { prepare, bind } = insertion(database, table);
  const statements = new Map<number, Statement>();
  return (rows) => {
    for (let from = 0; from < rows.length; from += MOST_TOGETHER) {
      const some = rows.slice(from, from + MOST_TOGETHER);
      const statement = statements.get(some.length) ?? prepare(some.length);
      statements.set(some.length, statement);
      statement.run(some.flatMap(bind));
    }
  };
}
