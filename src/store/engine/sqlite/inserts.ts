import type { Statement } from 'better-sqlite3';
import { getTableColumns, getTableName } from 'drizzle-orm';
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Database } from './connection.js';

type Name<Table extends SQLiteTable> = keyof Table['_']['columns'] & string;
type NewRow<Table extends SQLiteTable> = Partial<Record<Name<Table>, unknown>>;
type WriteRow<Table extends SQLiteTable> = (row: NewRow<Table>) => number;

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
 * @param otherwise what follows the values, in SQL
 * @returns inserts a row and gives its rowid
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

/**
 * Prepares the writing of one row that replaces what stands under its key.
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
