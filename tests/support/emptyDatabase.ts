import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openStore } from '../../src/store/open.js';

let template: string | null = null;

/** Puts an empty database of the present schema there; to migrate a new file for every test would take longer. */
export function putEmptyDatabase(file: string): void {
  template ??= migrated();
  copyFileSync(template, file);
}

function migrated(): string {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-empty-'));
  process.once('exit', () => rmSync(folder, { recursive: true, force: true }));
  const file = join(folder, 'brakes.sqlite');
  openStore({ file, timeZone: 'UTC' }).close();
  return file;
}
