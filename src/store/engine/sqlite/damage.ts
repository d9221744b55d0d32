import { existsSync, statSync } from 'node:fs';
import BetterSqlite from 'better-sqlite3';
import { DatabaseUnusable } from '../../contract/faults.js';
import { MOMENT_MS } from './connection.js';
import { unusable } from './faults.js';

/** Checks a whole database, page by page; empty if it is intact. */
export function faultsOf(connection: BetterSqlite.Database): string[] {
  return [
    ...(connection.pragma('integrity_check') as { integrity_check: string }[])
      .map(({ integrity_check: fault }) => fault)
      .filter((fault) => fault !== 'ok'),
    ...(connection.pragma('foreign_key_check') as { table: string }[]).map(
      ({ table }) => `a row of ${table} refers to one that is missing`,
    ),
  ];
}

/** Larger files are checked only after the server has started; the check takes about a second per hundred MiB. */
const CHECKED_WHOLE_BYTES = 16 * 2 ** 20;

/** Whether a file is so large that only its beginning is checked on opening. */
export const isCheckedLater = (file: string): boolean =>
  file !== ':memory:' && existsSync(file) && statSync(file).size > CHECKED_WHOLE_BYTES;

/** Checks on opening: if damage is found later, restoring a backup also loses what was recorded meanwhile. */
export function refuseDamaged(connection: BetterSqlite.Database, file: string): void {
  if (isCheckedLater(file)) refuseCutOff(connection, file);
  else refuseFaulty(connection, file);
}

/** Reads the schema and checks that the file has all its pages; with a write-ahead log, some may be only there. */
function refuseCutOff(connection: BetterSqlite.Database, file: string): void {
  connection.prepare('select count(*) from sqlite_master').get();
  const log = `${file}-wal`;
  if (existsSync(log) && statSync(log).size > 0) return;
  const bytes = ['page_count', 'page_size']
    .map((name) => connection.pragma(name, { simple: true }) as number)
    .reduce((product, factor) => product * factor, 1);
  const { size } = statSync(file);
  if (size < bytes) throw damaged(file, `it has only ${size} of its ${bytes} bytes`);
}

function refuseFaulty(connection: BetterSqlite.Database, file: string): void {
  const found = connection.pragma('quick_check(1)', { simple: true }) as string;
  if (found === 'ok') return;
  // The first line only names the database within the connection.
  throw damaged(file, found.split('\n').find((line) => !line.startsWith('***')) ?? found);
}

const damaged = (file: string, fault: string): DatabaseUnusable =>
  new DatabaseUnusable(`${file}: is damaged; see docs/backup.md (${fault})`);

/**
 * Checks a whole database, page by page, while it is in use.
 *
 * @throws DatabaseUnusable if it is damaged
 */
export function readThrough(file: string): void {
  try {
    const connection = new BetterSqlite(file, { readonly: true, timeout: MOMENT_MS });
    try {
      refuseFaulty(connection, file);
    } finally {
      connection.close();
    }
  } catch (error) {
    throw unusable(file, error);
  }
}
