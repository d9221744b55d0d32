import type { TestProject } from 'vitest/node';
import { serverBinaries, startClusters } from './postgresCluster.js';

/**
 * Starts PostgreSQL servers for the tests, if this machine has PostgreSQL installed, and names them in
 * `TEST_POSTGRES_URL`. If the variable names a server already, the tests use that one. With neither, the variable stays
 * empty.
 */
export default async function startServer({ vitest }: TestProject): Promise<() => void> {
  const binaries = serverBinaries();
  if (process.env['TEST_POSTGRES_URL'] !== undefined) return () => undefined;
  if (binaries === null) {
    if (process.env['TEST_ENGINE'] === 'postgres')
      throw new Error('no PostgreSQL server is installed; install one, or name one in TEST_POSTGRES_URL');
    return () => undefined;
  }
  // One server per worker: one worker's transactions would delay what another may read of its audit.
  const clusters = await startClusters(binaries, vitest.config.maxWorkers);
  process.env['TEST_POSTGRES_URL'] = clusters.map(({ url }) => url('postgres')).join(' ');
  return () => clusters.forEach(({ remove }) => remove());
}
