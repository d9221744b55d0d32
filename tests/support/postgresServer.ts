import { serverBinaries, startCluster } from './postgresCluster.js';

/**
 * Starts a PostgreSQL server for the tests, if this machine has one installed, and names it in `TEST_POSTGRES_URL`. A
 * server named there beforehand is used as it is. Without either the variable stays empty.
 */
export default async function startServer(): Promise<() => void> {
  const binaries = serverBinaries();
  if (process.env['TEST_POSTGRES_URL'] !== undefined) return () => undefined;
  if (binaries === null) {
    if (process.env['TEST_ENGINE'] === 'postgres')
      throw new Error('no PostgreSQL server is installed; install one, or name one in TEST_POSTGRES_URL');
    return () => undefined;
  }
  const cluster = await startCluster(binaries);
  process.env['TEST_POSTGRES_URL'] = cluster.url('postgres');
  return cluster.remove;
}
