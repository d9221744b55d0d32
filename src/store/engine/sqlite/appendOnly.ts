import type BetterSqlite from 'better-sqlite3';

interface Trigger {
  name: string;
  sql: string;
}

/**
 * Lets the work change tables that are only ever added to, within the running transaction: the triggers that refuse it
 * are taken away and put back as they were. No other connection sees the tables without them, and a fault rolls all of
 * it back. Whoever calls this leaves a line in the audit in the same transaction.
 */
export function changingHistory<Result>(
  connection: BetterSqlite.Database,
  tables: readonly string[],
  work: () => Result,
): Result {
  if (!connection.inTransaction) throw new Error('history is changed within a transaction only');
  const find = connection.prepare(
    "select name, sql from sqlite_master where type = 'trigger' and tbl_name = ?",
  );
  const triggers = tables.flatMap((table) => find.all(table) as Trigger[]);
  for (const { name } of triggers) connection.exec(`drop trigger "${name}"`);
  const result = work();
  for (const { sql } of triggers) connection.exec(sql);
  return result;
}
