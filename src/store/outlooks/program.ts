import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { sha256 } from '../../digest.js';

/** Code that outlooks and their report columns follow from, beside this file. */
const CODE = ['../../core/', './outlooks.ts', './outlooks.js'].map((path) =>
  fileURLToPath(new URL(path, import.meta.url)),
);

let known: string | null = null;

/**
 * What tells the outlooks of this program from those of others: whichever constant or formula an upgrade changes, what
 * the program before it stored is worked out anew.
 */
export const programDigest = (): string => (known ??= digestOfCode(CODE));

/** @param paths files and folders; one that is missing counts for nothing */
export function digestOfCode(paths: readonly string[]): string {
  const files = paths.flatMap(codeIn).sort();
  return sha256(files.map((file) => readFileSync(file, 'utf8')).join('\0')).slice(0, 16);
}

function codeIn(path: string): string[] {
  const found = statSync(path, { throwIfNoEntry: false });
  if (!found) return [];
  if (found.isFile()) return [path];
  return readdirSync(path, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(ts|js)$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name));
}
