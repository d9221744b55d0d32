import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { sha256 } from '../../digest.js';

/** The code that determines outlooks and their report columns, in addition to this file. */
const CODE = ['../../core/', './outlooks.ts', './outlooks.js'].map((path) =>
  fileURLToPath(new URL(path, import.meta.url)),
);

let known: string | null = null;

/**
 * Identifies the program that computed an outlook: after an upgrade that changes any constant or formula, stored
 * outlooks are recomputed.
 */
export const programDigest = (): string => (known ??= digestOfCode(CODE));

/** @param paths files and folders; missing ones are ignored */
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
