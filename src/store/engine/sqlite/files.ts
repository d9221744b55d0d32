import { randomBytes } from 'node:crypto';
import {
  chmodSync,
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { dirname } from 'node:path';

/** Database files: permissions, atomic renaming and reserved disk space. */

/** Only for the service's own user: a database contains customers' data and webhook secrets. */
const OWN_MODE = 0o600;
const OTHERS = 0o007;

/** Suffix of an incomplete file; such a file is never served. */
export const UNFINISHED = '.unfinished';

/** Creates an empty file that only its owner may read, unless it exists. */
export function createOwnFile(path: string): void {
  closeSync(openSync(path, 'a', OWN_MODE));
}

/** Removes other users' permissions on a file; a file of another user is left unchanged. */
export function shutOutOthers(path: string): void {
  const { mode, uid } = statSync(path);
  if ((mode & OTHERS) !== 0 && uid === process.getuid?.()) chmodSync(path, mode & 0o770);
}

/** Renames a complete file to its final name atomically, also across a power cut. */
export function finishFile(path: string): void {
  syncPath(path);
  const target = path.slice(0, -UNFINISHED.length);
  renameSync(path, target);
  syncPath(dirname(target));
}

function syncPath(path: string): void {
  const descriptor = openSync(path, 'r');
  try {
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

/** Many times the space that revoking a key needs. */
const RESERVE_BYTES = 2 * 2 ** 20;
const reserveOf = (file: string): string => `${file}.reserve`;

/** Reserves disk space next to a database, so that a key can be revoked when the disk is full. */
export function keepReserve(file: string): void {
  const path = reserveOf(file);
  if (file === ':memory:' || existsSync(path)) return;
  const descriptor = openSync(path, 'w', OWN_MODE);
  try {
    // Random bytes, since a file system may store zeros without using space.
    writeSync(descriptor, randomBytes(RESERVE_BYTES));
    fsyncSync(descriptor);
  } catch (fault) {
    rmSync(path, { force: true });
    throw fault;
  } finally {
    closeSync(descriptor);
  }
}

/** Frees the reserved space; false if there was none. */
export function freeReserve(file: string): boolean {
  const isKept = existsSync(reserveOf(file));
  rmSync(reserveOf(file), { force: true });
  return isKept;
}
