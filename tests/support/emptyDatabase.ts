import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openStore } from '../../src/store/open.js';

let empty: Promise<Buffer> | null = null;

/** Puts an empty database of the present schema there; migrating a new file for every test would take longer. */
export async function putEmptyDatabase(file: string): Promise<void> {
  empty ??= migrated();
  writeFileSync(file, await empty, { mode: 0o600 });
}

async function migrated(): Promise<Buffer> {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-empty-'));
  try {
    const file = join(folder, 'brakes.sqlite');
    const store = await openStore({ file, timeZone: 'UTC' });
    await store.close();
    return readFileSync(file);
  } finally {
    rmSync(folder, { recursive: true });
  }
}
