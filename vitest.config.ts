import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const testFiles = (...folders: string[]): string[] => folders.map((folder) => `tests/${folder}/**/*.test.ts`);

export default defineConfig({
  resolve: {
    alias: { 'brake-wear-client': fileURLToPath(new URL('clients/typescript/index.js', import.meta.url)) },
  },
  test: {
    testTimeout: 30_000,
    hookTimeout: 30_000,
    pool: 'forks',
    maxWorkers: '100%',
    projects: [
      {
        extends: true,
        // Without isolation, a worker loads the modules once for all the files it runs.
        test: { name: 'unit', include: testFiles('unit'), isolate: false },
      },
      {
        extends: true,
        test: { name: 'http', include: testFiles('http', 'store', 'docs'), isolate: false },
      },
      {
        extends: true,
        test: {
          name: 'slow',
          include: testFiles('calibration', 'demo', 'outside', 'pages', 'property'),
        },
      },
      {
        extends: true,
        // The built service as a process of its own.
        test: {
          name: 'process',
          include: testFiles('faults', 'operations'),
          globalSetup: 'tests/support/build.ts',
          testTimeout: 120_000,
        },
      },
    ],
  },
});
