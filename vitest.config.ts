import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** These run the built service as a process of its own. */
const AS_PROCESS = ['tests/faults/**/*.test.ts', 'tests/operations/**/*.test.ts'];

export default defineConfig({
  resolve: {
    alias: { 'brake-wear-client': fileURLToPath(new URL('clients/typescript/index.js', import.meta.url)) },
  },
  test: {
    testTimeout: 30_000,
    hookTimeout: 30_000,
    pool: 'forks',
    projects: [
      { extends: true, test: { name: 'service', include: ['tests/**/*.test.ts'], exclude: AS_PROCESS } },
      {
        extends: true,
        test: {
          name: 'faults',
          include: AS_PROCESS,
          globalSetup: 'tests/support/build.ts',
          testTimeout: 120_000,
        },
      },
    ],
  },
});
