import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';

/** The rows of a file in tests/outside/data, whose README names their sources; every cell as text. */
export function referenceRows(file: string): Record<string, string>[] {
  const path = join(import.meta.dirname, '../outside/data', file);
  return parse(readFileSync(path), { columns: true });
}

/** Rows by the value of a column, in order of first appearance. */
export function grouped(
  rows: readonly Record<string, string>[],
  column: string,
): Map<string, Record<string, string>[]> {
  const groups = new Map<string, Record<string, string>[]>();
  for (const row of rows) groups.set(row[column]!, [...(groups.get(row[column]!) ?? []), row]);
  return groups;
}
