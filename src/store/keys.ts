import { asc, eq, sql } from 'drizzle-orm';
import { timingSafeEqual } from 'node:crypto';
import { Refusal } from '../core/refusal.js';
import type { StoreParts } from './parts.js';
import { apiKeys } from './schema.js';
import type { Key, KeyStore } from './store.js';

/** Keys are made and revoked on the command line only. */
const COMMAND_LINE = { keyName: null };

export function keyStore({ database, clock, write, versions }: StoreParts): KeyStore {
  const byDigest = database
    .select()
    .from(apiKeys)
    .where(eq(apiKeys.digest, sql.placeholder('digest')))
    .prepare();
  const byName = database
    .select()
    .from(apiKeys)
    .where(eq(apiKeys.name, sql.placeholder('name')))
    .prepare();

  return {
    async find(digest: string) {
      const row = byDigest.get({ digest });
      if (!row || !timingSafeEqual(Buffer.from(row.digest), Buffer.from(digest))) return null;
      return row.revokedAt === null ? toKey(row) : null;
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
      return write(() => {
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
