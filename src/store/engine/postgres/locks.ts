import type pg from 'pg';
import { itemAt } from '../../../core/items.js';
import type { Release } from '../contract/engine.js';
import { ownLocks } from '../ownLocks.js';

/**
 * Named locks among all processes on a database: advisory locks of one connection, which the server frees when the
 * connection ends.
 *
 * @param connect opens a connection to the primary
 */
export function serverLocks(connect: () => Promise<pg.Client>) {
  // The server would give a connection the same lock twice.
  const own = ownLocks();
  let connection: Promise<pg.Client> | null = null;

  function connected(): Promise<pg.Client> {
    if (connection) return connection;
    const opening = connect();
    connection = opening;
    const forget = (): void => {
      // Another one may have been opened since.
      if (connection === opening) connection = null;
    };
    opening.then((client) => client.on('error', forget).on('end', forget), forget);
    return opening;
  }

  return {
    async tryHold(name: string): Promise<Release | null> {
      const release = await own(name);
      if (!release) return null;
      try {
        const client = await connected();
        const sql = 'select pg_try_advisory_lock(hashtextextended($1, 0)) as held';
        const { rows } = await client.query<{ held: boolean }>(sql, [name]);
        if (itemAt(rows, 0).held)
          return async () => {
            // A lost connection has freed it.
            await client
              .query('select pg_advisory_unlock(hashtextextended($1, 0))', [name])
              .catch(() => undefined);
            await release();
          };
      } catch (fault) {
        await release();
        throw fault;
      }
      await release();
      return null;
    },
    async close(): Promise<void> {
      const client = await connection?.catch(() => null);
      await client?.end();
    },
  };
}
