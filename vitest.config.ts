import { accessSync, constants, statfsSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { configDefaults, defineConfig, type Plugin } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import { isThorough } from './tests/support/thorough.js';

const ROOT = import.meta.dirname;
/** The folders that are built, from the root. */
const BUILT = /^(src|seed|bench)\//;

/**
 * Tests run the built code, which `tests/support/build.ts` brings up to date: it is what users run, each worker loads it
 * once and untransformed, and calculations take about two thirds of the time.
 */
const builtCode: Plugin = {
  name: 'built-code',
  enforce: 'pre',
  resolveId(source, importer) {
    if (importer === undefined || !source.startsWith('.')) return null;
    const path = relative(ROOT, resolve(dirname(importer), source));
    return BUILT.test(path) ? join(ROOT, 'dist', path) : null;
  },
  load(id) {
    // Two copies of a module would each keep their own state.
    if (BUILT.test(relative(ROOT, id))) throw new Error(`${id} is to be loaded from dist`);
    return null;
  },
};

/** The order of the projects: those with long files first, so that the cores finish together. */
const ORDER = ['process', 'slow', 'http', 'unit'];

/** Keeps a project's files together: a worker that gets a file of another project starts again and loads everything. */
class ByProject extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ project }: TestSpecification): number => ORDER.indexOf(project.name);
    return (await super.sort(files)).sort((one, other) => place(one) - place(other));
  }
}

const MEMORY = '/dev/shm';
/** Free space for the databases of all workers and the profiles of a browser. */
const ENOUGH_BYTES = 2 * 1024 ** 3;

/** A file system in memory if it is large enough: waiting for the disk on every commit takes a tenth of the time. */
function quickFolder(): string {
  try {
    accessSync(MEMORY, constants.W_OK);
    const { bavail, bsize } = statfsSync(MEMORY);
    return bavail * bsize > ENOUGH_BYTES ? MEMORY : tmpdir();
  } catch {
    return tmpdir();
  }
}

/** Without isolation, a worker loads the modules once for all the files it runs. */
const project = (
  name: string,
  /** Folders, or single files by their names. */
  places: string[],
  { testTimeout = 30_000, globalSetup = [] as string[], folder = quickFolder() } = {},
) => ({
  extends: true as const,
  test: {
    name,
    include: places.flatMap((place) => [`tests/${place}/**/*.test.ts`, `tests/${place}.test.ts`]),
    isolate: false,
    testTimeout,
    globalSetup,
    env: { TMPDIR: folder },
  },
});

/** Whether the tests of the service and of its store use a PostgreSQL server. */
const ON_POSTGRES = process.env['TEST_ENGINE'] === 'postgres';
/** Tests that read a database file itself: copies, migrations, plans and sizes. */
const FILE_TESTS = ['backup', 'migration', 'reportPlans', 'metrics'].map(
  (name) => `tests/http/${name}.test.ts`,
);
/** Tests that use a PostgreSQL server in every run, if there is one. */
const TWO_ENGINE_TESTS = ['engines', 'postgres', 'reportPlans'].map((name) => `tests/store/${name}.test.ts`);
/** The properties that use the service or its store. */
const STORE_PROPERTIES = ['corrections', 'due-soon-totals', 'input', 'invariance', 'round-trip'].map(
  (name) => `property/${name}`,
);

export default defineConfig({
  plugins: [builtCode],
  resolve: {
    alias: { 'brake-wear-client': fileURLToPath(new URL('clients/typescript/index.js', import.meta.url)) },
  },
  test: {
    hookTimeout: 30_000,
    exclude: [...configDefaults.exclude, ...(ON_POSTGRES ? [...FILE_TESTS, ...TWO_ENGINE_TESTS] : [])],
    pool: 'forks',
    // One more than there are cores, because many tests wait for a process or a clock.
    maxWorkers: availableParallelism() + 1,
    globalSetup: 'tests/support/build.ts',
    sequence: { sequencer: ByProject },
    server: { deps: { external: [/\/dist\//] } },
    projects: [
      project('unit', ['unit']),
      project('http', ['http', 'store', 'docs', ...(ON_POSTGRES ? STORE_PROPERTIES : [])], {
        globalSetup: ['tests/support/postgresServer.ts'],
      }),
      // A browser beside two other workers may take many times as long as alone.
      project('slow', ['calibration', 'demo', 'outside', 'pages', 'property'], { testTimeout: 120_000 }),
      // The built service as a process of its own, with its files on the disk.
      project('process', ['faults', 'operations'], {
        testTimeout: isThorough ? 600_000 : 120_000,
        folder: tmpdir(),
      }),
    ],
  },
});
