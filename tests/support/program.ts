import { cpSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

/** A migration that a program has beyond the present ones. */
export interface FurtherMigration {
  tag: string;
  sql: string;
  /** The folder of the engine's migrations, if other than that of SQLite. */
  engine?: 'postgres';
}

/** A copy of the built program in a folder of its own, with a further migration; returns the file that starts it. */
export function laterProgram(folder: string, { tag, sql, engine }: FurtherMigration): string {
  for (const part of ['dist/src', 'migrations', 'package.json']) {
    cpSync(part, join(folder, part), { recursive: true });
  }
  symlinkSync(resolve('node_modules'), join(folder, 'node_modules'));
  const migrations = join(folder, 'migrations', engine ?? '');
  const file = join(migrations, 'meta/_journal.json');
  const journal = JSON.parse(readFileSync(file, 'utf8')) as { entries: { when: number; tag: string }[] };
  const last = journal.entries.at(-1)!;
  journal.entries.push({ ...last, when: last.when + 1, tag });
  writeFileSync(file, JSON.stringify(journal));
  writeFileSync(join(migrations, `${tag}.sql`), sql);
  return join(folder, 'dist/src/main.js');
}
