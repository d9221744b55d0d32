import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openStore } from '../../src/store/open.js';

let empty: Buffer | null = null;

/** Puts an empty database of the present schema there; to migrate a new file for every test would take longer. */
export function putEmptyDatabase(file: string): void {
  empty ??= migrated();
  writeFileSync(file, empty, { mode: 0o600 });
}

function migrated(): Buffer {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-empty-'));
  try {
    const file = join(folder, 'brakes.sqlite');
    openStore({ file, timeZone: 'UTC' }).close();
    return readFileSync(file);
  } finally {
    rmSync(folder, { recursive: true });
  }
}
