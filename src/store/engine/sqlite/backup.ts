import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import { DatabaseUnusable } from '../../contract/faults.js';
import { faultsOf } from './damage.js';
import { createOwnFile, finishFile, UNFINISHED } from './files.js';

/**
 * Copy all pages in one step: in WAL mode others can write meanwhile, and a copy in several steps would restart after
 * each of their writes.
 */
const ALL_PAGES = 0x7fffffff;
/** Tables whose row counts are compared, so that an incomplete copy is not accepted. */
const COUNTED = ['vehicles', 'visits', 'readings', 'work_items', 'torques', 'visit_versions'] as const;

type RowCounts = Record<(typeof COUNTED)[number], number>;

/**
 * Copies a database while it is in use, with SQLite's online backup, and verifies the copy: its integrity, its foreign
 * keys, and that it has at least as many rows as when the copy began. The copy is renamed to its target only once
 * verified, so that an interrupted backup leaves nothing under the target's name. A missing folder is created.
 *
 * @returns the row counts of the copy
 * @throws DatabaseUnusable if there is nothing to copy, the target exists, or the copy is incomplete
 */
export async function backUp(file: string, target: string): Promise<RowCounts> {
  if (existsSync(target))
    throw new DatabaseUnusable(`${target}: already exists and is unchanged; name another file`);
  const source = open(file);
  const unfinished = `${target}${UNFINISHED}`;
  try {
    const before = countRows(source);
    mkdirSync(dirname(target), { recursive: true });
    rmSync(unfinished, { force: true });
    createOwnFile(unfinished);
    await source.backup(unfinished, { progress: () => ALL_PAGES });
    const counts = verifyCopy(unfinished, before);
    finishFile(unfinished);
    noteBackup(file);
    return counts;
  } catch (error) {
    rmSync(unfinished, { force: true });
    // Damaged, written by an older program, or no space: the caller needs only one line.
    throw error instanceof DatabaseUnusable
      ? error
      : new DatabaseUnusable(`${file}: could not be copied to ${target}: ${(error as Error).message}`);
  } finally {
    source.close();
  }
}

const noteOf = (file: string): string => `${file}.last-backup`;

/** Records the time of a verified backup next to the database, where the server's metrics read it. */
function noteBackup(file: string): void {
  try {
    writeFileSync(noteOf(file), `${new Date().toISOString()}\n`, { mode: 0o600 });
  } catch {
    // The backup is complete anyway; the metric stays old, which alerts the operator.
  }
}

/** When the database's last verified backup was made, as an instant in UTC; null if unknown. */
export function lastBackupAt(file: string): string | null {
  try {
    const noted = readFileSync(noteOf(file), 'utf8').trim();
    return Number.isNaN(Date.parse(noted)) ? null : noted;
  } catch {
    return null;
  }
}

function open(file: string): BetterSqlite.Database {
  try {
    return new BetterSqlite(file, { fileMustExist: true, readonly: true });
  } catch (error) {
    throw new DatabaseUnusable(`${file}: ${(error as Error).message}`);
  }
}

const countRows = (connection: BetterSqlite.Database): RowCounts =>
  Object.fromEntries(
    COUNTED.map((table) => [table, connection.prepare(`select count(*) from ${table}`).pluck().get()]),
  ) as RowCounts;

function verifyCopy(target: string, before: RowCounts): RowCounts {
  const copy = new BetterSqlite(target, { fileMustExist: true });
  try {
    // The copy of a database in use is in WAL mode; a backup should not need a second file.
    copy.pragma('journal_mode = DELETE');
    const faults = faultsOf(copy);
    const counts = countRows(copy);
    const short = COUNTED.filter((table) => counts[table] < before[table]);
    faults.push(...short.map((table) => `${table} has ${counts[table]} rows of ${before[table]}`));
    if (faults.length > 0) throw new DatabaseUnusable(`${target}: the copy is incomplete: ${faults[0]}`);
    return counts;
  } finally {
    copy.close();
  }
}
