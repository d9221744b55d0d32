import { existsSync, readdirSync, rmSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { BadSetting, readConfig } from '../config.js';
import { countInWords } from '../core/words.js';
import { startOrExplain } from '../startUp.js';
import { upkeepOf } from '../store/upkeep.js';
import { copiesToRemove, copyName } from './rotation.js';

/**
 * `npm run backup -- FILE`: copies the database while the server runs and verifies the copy. With `--rotate FOLDER` the
 * copy is named by date, and older copies in the folder are deleted once the new one is verified.
 */
const USAGE = `Usage:
  backup -- FILE               copies the database to FILE, which must not exist yet
  backup -- --rotate FOLDER    copies it into FOLDER and keeps the last 7 daily, 4 weekly and 12 monthly copies there`;

await startOrExplain(async () => {
  const { file, rotate } = readArguments();
  const { databaseFile, databaseUrl } = readConfig(process.env);
  if (databaseUrl !== null)
    throw new BadSetting(
      'DATABASE_URL is set: back up a PostgreSQL database with its own tools, such as pg_basebackup or pg_dump; see docs/postgres.md',
    );
  const stem = basename(databaseFile, extname(databaseFile));
  const target = file ?? join(rotate!, copyName(stem, new Date()));
  const counts = await upkeepOf(databaseFile).backUp(target);
  const rows = Object.entries(counts).map(([table, count]) =>
    countInWords(count, table.replaceAll('_', ' ').replace(/s$/, '')),
  );
  process.stdout.write(`${target}: verified, with ${rows.join(', ')}\n`);
  if (rotate === undefined || !existsSync(target)) return;
  for (const name of copiesToRemove(stem, readdirSync(rotate))) {
    rmSync(join(rotate, name));
    process.stdout.write(`${join(rotate, name)}: removed\n`);
  }
});

function readArguments(): { file?: string | undefined; rotate?: string | undefined } {
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: { rotate: { type: 'string' } },
    });
    const [file, ...others] = positionals;
    if ((file === undefined) !== (values.rotate === undefined) && others.length === 0)
      return { file, rotate: values.rotate };
  } catch {
    // Unknown option: the caller prints the usage.
  }
  process.stderr.write(`${USAGE}\n`);
  process.exit(2);
}
