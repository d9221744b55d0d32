import { asc, eq, sql } from 'drizzle-orm';
import { timingSafeEqual } from 'node:crypto';
import { Refusal } from '../core/refusal.js';
import type { StoreParts } from './parts.js';
import { apiKeys } from './schema.js';
import { selector } from './selects.js';
import type { Key, KeyStore } from './store.js';

/** Keys are made and revoked on the command line only. */
const COMMAND_LINE = { keyName: null };
const NO_DIGEST = '0'.repeat(64);
/** Keys at hand. */
const MOST_KNOWN = 1000;

export function keyStore({
  database,
  clock,
  write,
  writeFromReserve,
  versions,
  whileUnchanged,
}: StoreParts): KeyStore {
  const byDigest = selector(database, apiKeys, 'digest = ?');
  const known = whileUnchanged((digest: string) => byDigest(digest)[0] ?? null, MOST_KNOWN);
  const byName = database
    .select()
    .from(apiKeys)
    .where(eq(apiKeys.name, sql.placeholder('name')))
    .prepare();

  return {
    async find(digest: string) {
      const row = known(digest);
      // Compared also where there is none, so that an unknown key takes the time of a known one.
      const isSame = timingSafeEqual(Buffer.from(row?.digest ?? NO_DIGEST), Buffer.from(digest));
      return row && isSame && row.revokedAt === null ? toKey(row) : null;
    },

    async create({ name, role, fleets, digest }) {
      await write(() => {
        if (byName.get({ name })) {
          throw new Refusal(
            'conflict',
            'key-name-used',
            `a key named ${name} exists or existed; names are never used again`,
          );
        }
        if ((role === 'fleet-manager') !== fleets.length > 0) {
          const detail =
            role === 'fleet-manager'
              ? 'a fleet-manager key needs at least one fleet'
              : `a ${role} key takes no fleet`;
          throw new Refusal('invalid', 'key-fleets', detail);
        }
        database
          .insert(apiKeys)
          .values({ name, role, fleets, digest, createdAt: clock().toISOString() })
          .run();
        versions.note(COMMAND_LINE, { method: null, action: 'created', resource: 'key', resourceId: name });
      });
    },

    async list() {
      return database
        .select()
        .from(apiKeys)
        .orderBy(asc(apiKeys.createdAt), asc(apiKeys.name))
        .all()
        .map(toKey);
    },

    async revoke(name: string) {
      return writeFromReserve(() => {
        const row = byName.get({ name });
        if (!row || row.revokedAt !== null) return false;
        database
          .update(apiKeys)
          .set({ revokedAt: clock().toISOString() })
          .where(eq(apiKeys.name, name))
          .run();
        versions.note(COMMAND_LINE, { method: null, action: 'revoked', resource: 'key', resourceId: name });
        return true;
      });
    },
  };
}

export function toKey({ name, role, fleets, createdAt, revokedAt }: typeof apiKeys.$inferSelect): Key {
  return { name, role, fleets, createdAt, revokedAt };
}
