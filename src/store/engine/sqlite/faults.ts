import { itemAt } from '../../../core/items.js';
import {
  Busy,
  Damaged,
  DatabaseUnusable,
  StorageFull,
  StoreFault,
  Unavailable,
} from '../../contract/faults.js';

/** Maps error codes of SQLite and of the file system to the service's faults. */

interface Meaning {
  codes: RegExp;
  Fault: new (message: string, options: ErrorOptions) => StoreFault;
  /** The operator's message if the service cannot start. */
  atStart: string;
}

const MEANINGS: readonly Meaning[] = [
  {
    codes: /^(SQLITE_FULL|SQLITE_IOERR_SHM|ENOSPC|EDQUOT)/,
    Fault: StorageFull,
    atStart: 'has no room left on its disk',
  },
  {
    codes: /^SQLITE_(CORRUPT|NOTADB)/,
    Fault: Damaged,
    atStart: 'is damaged; see docs/backup.md',
  },
  {
    codes: /^SQLITE_(BUSY|LOCKED)/,
    Fault: Busy,
    atStart: 'is being written by another process; try again when that has ended',
  },
  {
    codes: /^(SQLITE_READONLY|EACCES|EROFS|EPERM)/,
    Fault: Unavailable,
    atStart: 'cannot be written by this user; the service needs to write the file and its folder',
  },
  { codes: /^SQLITE_(IOERR|CANTOPEN)/, Fault: Unavailable, atStart: 'cannot be used' },
];

const codeOf = (error: unknown): string => (error as { code?: string } | null)?.code ?? '';

const meaningOf = (error: unknown): Meaning | undefined =>
  MEANINGS.find(({ codes }) => codes.test(codeOf(error)));

/** Whether another connection holds the write lock. */
export const isLocked = (error: unknown): boolean => codeOf(error).startsWith('SQLITE_BUSY');

/** Whether the disk is full. */
export const isDiskFull = (error: unknown): boolean => meaningOf(error)?.Fault === StorageFull;

/** Converts an engine error to a store fault; any other error is returned unchanged. */
export function asStoreFault(error: unknown): unknown {
  const meaning = meaningOf(error);
  if (!meaning || error instanceof StoreFault) return error;
  const { message } = error as Error;
  return new meaning.Fault(`the database ${meaning.atStart} (${codeOf(error)}: ${message})`, {
    cause: error,
  });
}

/** Converts an error of SQLite or the file system at startup to one line; any other error is returned unchanged. */
export function unusable(file: string, error: unknown): unknown {
  const met = error instanceof StoreFault ? error.cause : error;
  if (!/^(SQLITE_|E[A-Z]+$)/.test(codeOf(met))) return error;
  const said = meaningOf(met)?.atStart ?? 'cannot be used';
  return new DatabaseUnusable(`${file}: ${said} (${firstLine((met as Error).message)})`, { cause: met });
}

export const firstLine = (text: string): string => itemAt(text.split('\n', 1), 0);
