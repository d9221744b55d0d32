import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Stores the results of jobs as files, so that a long run can be interrupted and resumed. */
export interface ResultCache<Job, Result> {
  find(job: Job): Result | null;
  save(job: Job, result: Result): void;
}

/**
 * @param folder of the files
 * @param bench the folder of the compiled bench; results of another version of that code or the core are ignored
 */
export function resultCache<Job extends object, Result>(
  folder: string,
  bench: string,
): ResultCache<Job, Result> {
  const code = digestOf([bench, join(bench, '../src/core'), join(bench, '../seed')]);
  mkdirSync(folder, { recursive: true });
  const fileOf = (job: Job) => join(folder, `${[code, ...Object.values(job)].join('-')}.json`);
  return {
    find: (job) => {
      const file = fileOf(job);
      return existsSync(file) ? (JSON.parse(readFileSync(file, 'utf8')) as Result) : null;
    },
    save: (job, result) => writeFileSync(fileOf(job), JSON.stringify(result)),
  };
}

function digestOf(folders: readonly string[]): string {
  const hash = createHash('sha256');
  for (const folder of folders) {
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();
    for (const file of files) {
      if (file.endsWith('.js')) hash.update(file).update(readFileSync(join(folder, file)));
    }
  }
  return hash.digest('hex').slice(0, 12);
}
