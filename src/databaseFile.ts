import type { FastifyBaseLogger } from 'fastify';
import { commandFile, startChild, type Child } from './children.js';
import { DatabaseUnusable } from './store/contract/faults.js';
import { upkeepOf, type Upkeep } from './store/upkeep.js';

const FILL_RESERVE_EVERY_MS = 600_000;

/** Maintains the database file while the server runs. A database server maintains its own. */
export function databaseFileKeeper(path: string) {
  const upkeep = upkeepOf(path);
  const damage = damageChecker(path, upkeep);
  let reserve: NodeJS.Timeout | null = null;
  return {
    path,
    upkeep,
    /** @throws DatabaseUnusable once damage is known */
    check: damage.check,
    start(log: FastifyBaseLogger): void {
      damage
        .search(log)
        .catch((error: unknown) =>
          log.error({ err: error }, 'could not run the integrity check of the database'),
        );
      reserve = keepReserveFilled(upkeep, log);
    },
    async stop(): Promise<void> {
      if (reserve) clearInterval(reserve);
      await damage.stop();
    },
  };
}

/** Checks, in a child process, a database file that was too large to check before startup. */
function damageChecker(path: string, upkeep: Upkeep) {
  let found: string | null = null;
  let child: Child | null = null;
  return {
    check: async () => {
      if (found !== null) throw new DatabaseUnusable(found);
    },
    search: async (log: FastifyBaseLogger): Promise<void> => {
      if (!upkeep.isCheckedLater()) return;
      child = startChild(commandFile('readThrough'), [], {
        env: { ...process.env, DATABASE_FILE: path },
        onFault: (err) =>
          log.error({ err }, 'could not start the integrity check of the database; will try again'),
      });
      const end = await child.ended;
      if (end?.code === 1) found = end.stderr;
      if (found !== null) log.error(found);
      else if (end?.code === 0) log.info('the integrity check of the database found no damage');
    },
    stop: async () => child?.stop(),
  };
}

/** Reserves disk space for revoking a key, and restores the reserve after use. */
function keepReserveFilled(upkeep: Upkeep, log: FastifyBaseLogger): NodeJS.Timeout {
  const fill = (): void => {
    try {
      upkeep.keepReserve();
    } catch (err) {
      log.warn(
        { err },
        'no disk space for the reserve; while it is missing, no key can be revoked on a full disk',
      );
    }
  };
  fill();
  return setInterval(fill, FILL_RESERVE_EVERY_MS).unref();
}
