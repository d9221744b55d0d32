import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import { DatabaseUnusable } from '../../contract/faults.js';
import { faultsOf } from './damage.js';
import { createOwnFile, finishFile, UNFINISHED } from './files.js';

/**
 * All pages in one step: what is in the write-ahead log lets others write meanwhile, and a copy made in several steps
 * would begin anew after every write of theirs.
 */
const ALL_PAGES = 0x7fffffff;
/** The tables whose rows are counted, so that a copy that lost some is not taken for whole. */
const COUNTED = ['vehicles', 'visits', 'readings', 'work_items', 'torques', 'visit_versions'] as const;

export type RowCounts = Record<(typeof COUNTED)[number], number>;

/**
 * Copies a database beside whoever uses it, by SQLite's online backup, and verifies the copy: its integrity, its
 * foreign keys, and that it has no fewer rows than there were when the copy began. The copy is written beside its target
 * and renamed once it has been verified, so that a backup that is killed leaves nothing under the target's name. A
 * missing folder is created.
 *
 * @returns the rows of the copy
 * @throws DatabaseUnusable when there is nothing to copy, something at the target already, or the copy is not whole
 */
export async function backUp(file: string, target: string): Promise<RowCounts> {
  if (existsSync(target)) throw new DatabaseUnusable(`${target}: is there already, and is left alone`);
  const source = open(file);
  const unfinished = `${target}${UNFINISHED}`;
  try {
    const before = countRows(source);
    mkdirSync(dirname(target), { recursive: true });
    rmSync(unfinished, { force: true });
    createOwnFile(unfinished);
    await source.backup(unfinished, { progress: () => ALL_PAGES });
    const counts = verified(unfinished, before);
    finishFile(unfinished);
    noteBackup(file);
    return counts;
  } catch (error) {
    rmSync(unfinished, { force: true });
    // Damaged, of an older program, or no room: one line is what whoever asked for it needs.
    throw error instanceof DatabaseUnusable
      ? error
      : new DatabaseUnusable(`${file}: cannot be copied to ${target}: ${(error as Error).message}`);
  } finally {
    source.close();
  }
}

const noteOf = (file: string): string => `${file}.last-backup`;

/** Leaves the instant of a verified backup beside the database, where the server's metrics find it. */
function noteBackup(file: string): void {
  try {
    writeFileSync(noteOf(file), `${new Date().toISOString()}\n`, { mode: 0o600 });
  } catch {
    // The backup is whole all the same; the metric stays as old as it was, which brings somebody to look.
  }
}

/** When the last verified backup of a database was made, as an instant in UTC; null where none is known of. */
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

function verified(target: string, before: RowCounts): RowCounts {
  const copy = new BetterSqlite(target, { fileMustExist: true });
  try {
    // A copy of a database in use is in WAL mode; on its own it needs no second file beside it.
    copy.pragma('journal_mode = DELETE');
    const faults = faultsOf(copy);
    const counts = countRows(copy);
    const short = COUNTED.filter((table) => counts[table] < before[table]);
    faults.push(...short.map((table) => `${table} has ${counts[table]} rows of ${before[table]}`));
    if (faults.length > 0) throw new DatabaseUnusable(`${target}: the copy is not whole: ${faults[0]}`);
    return counts;
  } finally {
    copy.close();
  }
}
