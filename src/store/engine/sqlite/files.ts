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

/** The files of a database: who may read them, how one is put under its name, and disk space kept in reserve. */

/** For the service's own user alone: a database holds customers' data and the secrets that webhooks are signed with. */
const OWN_MODE = 0o600;
const OTHERS = 0o007;

/** What a file that is not complete yet is called; no such file is ever served. */
export const UNFINISHED = '.unfinished';

/** Creates an empty file that nobody else may read, where there is none. */
export function createOwnFile(path: string): void {
  closeSync(openSync(path, 'a', OWN_MODE));
}

/** Takes all rights on a file from users outside its owner and group; where it belongs to another user it stays. */
export function shutOutOthers(path: string): void {
  const { mode, uid } = statSync(path);
  if ((mode & OTHERS) !== 0 && uid === process.getuid?.()) chmodSync(path, mode & 0o770);
}

/** Puts a complete file under its final name, so that it is there as a whole or not at all, also after a power cut. */
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

/** Room for many times what revoking a key writes. */
const RESERVE_BYTES = 2 * 2 ** 20;
const reserveOf = (file: string): string => `${file}.reserve`;

/** Sets disk space aside beside a database, so that a key can be revoked when the disk is full. */
export function keepReserve(file: string): void {
  const path = reserveOf(file);
  if (file === ':memory:' || existsSync(path)) return;
  const descriptor = openSync(path, 'w', OWN_MODE);
  try {
    // Random, since a file system may store zeros in no space at all.
    writeSync(descriptor, randomBytes(RESERVE_BYTES));
    fsyncSync(descriptor);
  } catch (fault) {
    rmSync(path, { force: true });
    throw fault;
  } finally {
    closeSync(descriptor);
  }
}

/** Gives the reserved space back; false where there was none. */
export function freeReserve(file: string): boolean {
  const isKept = existsSync(reserveOf(file));
  rmSync(reserveOf(file), { force: true });
  return isKept;
}
