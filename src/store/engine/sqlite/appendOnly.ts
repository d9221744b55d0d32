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
export async function changingHistory<Result>(
  { $client: connection }: Pick<Database, '$client'>,
  tables: readonly string[],
  work: () => Promise<Result>,
): Promise<Result> {
  if (!connection.inTransaction) throw new Error('history can be changed only within a transaction');
  const find = connection.prepare(
    "select name, sql from sqlite_master where type = 'trigger' and tbl_name = ?",
  );
  const triggers = tables.flatMap((table) => find.all(table) as Trigger[]);
  for (const { name } of triggers) connection.exec(`drop trigger "${name}"`);
  const result = await work();
  for (const { sql } of triggers) connection.exec(sql);
  return result;
}

/** Makes this connection overwrite deleted data instead of only marking it free. */
export function overwriteDeleted({ $client }: Database): void {
  $client.pragma('secure_delete = ON');
}

/** Rewrites the file and empties the write-ahead log, so that no deleted data remains in either. */
export function rewriteFile({ $client }: Database): void {
  $client.pragma('busy_timeout = 60000');
  $client.exec('vacuum');
  $client.pragma('wal_checkpoint(TRUNCATE)');
}
