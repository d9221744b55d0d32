import type { Database } from './connection.js';

interface Trigger {
  name: string;
  sql: string;
}

/**
 * Lets the work change append-only tables within the running transaction: drops their triggers and recreates them
 * afterwards. No other connection sees the tables without triggers, and a fault rolls everything back. The caller adds
 * an audit entry in the same transaction.
 */
export function changingHistory<Result>(
  { $client: connection }: Pick<Database, '$client'>,
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

/** From now on, what this connection deletes is overwritten, and not only marked as free. */
export function overwriteDeleted({ $client }: Database): void {
  $client.pragma('secure_delete = ON');
}

/** Writes the whole file anew, and empties the log, so that nothing that was deleted is left in either. */
export function rewriteFile({ $client }: Database): void {
  $client.pragma('busy_timeout = 60000');
  $client.exec('vacuum');
  $client.pragma('wal_checkpoint(TRUNCATE)');
}
