import { and, asc, count, eq, gt, isNull, lt, lte, or, sql, type SQL } from 'drizzle-orm';
import type { CalendarRows, KeyRows, SessionRows } from '../../contract/access.js';
import type { Database } from '../connection.js';
import { apiKeys, calendarSubscriptions, sessions } from '../schema.js';
import { selector } from '../selects.js';

export function keyRows(database: Database): KeyRows {
  const byDigest = selector(database, apiKeys, 'digest = ? or former_digest = ?');
  const byName = selector(database, apiKeys, 'name = ?');
  return {
    byDigest: async (digest) => byDigest(digest, digest)[0] ?? null,
    byName: async (name) => byName(name)[0] ?? null,
    all: async () => database.select().from(apiKeys).orderBy(asc(apiKeys.createdAt), asc(apiKeys.name)).all(),
    async insert(row) {
      database.insert(apiKeys).values(row).run();
    },
    async update(name, changes) {
      database.update(apiKeys).set(changes).where(eq(apiKeys.name, name)).run();
    },
    async countUnused(now, since) {
      const { createdAt, lastUsedAt, expiresAt, revokedAt } = apiKeys;
      return database
        .select({ rows: count() })
        .from(apiKeys)
        .where(
          and(
            isNull(revokedAt),
            or(isNull(expiresAt), gt(expiresAt, now)),
            lt(sql`ifnull(${lastUsedAt}, ${createdAt})`, since),
          ),
        )
        .get()!.rows;
    },
  };
}

export function sessionRows(database: Database): SessionRows {
  const validKey = database
    .select({ key: apiKeys })
    .from(sessions)
    .innerJoin(apiKeys, eq(apiKeys.name, sessions.keyName))
    .where(
      and(eq(sessions.digest, sql.placeholder('digest')), gt(sessions.expiresAt, sql.placeholder('now'))),
    )
    .prepare();
  return {
    keyOf: async (digest, now) => validKey.get({ digest, now })?.key ?? null,
    async insert(row) {
      database.insert(sessions).values(row).run();
    },
    remove: async (digest) =>
      database.delete(sessions).where(eq(sessions.digest, digest)).returning().get() ?? null,
    removeOfKey: async (keyName) =>
      database.delete(sessions).where(eq(sessions.keyName, keyName)).run().changes,
    async removeExpired(now) {
      database.delete(sessions).where(lte(sessions.expiresAt, now)).run();
    },
  };
}

export function calendarRows(database: Database): CalendarRows {
  const inUse = isNull(apiKeys.revokedAt);
  const withKey = () =>
    database
      .select({ calendar: calendarSubscriptions, key: apiKeys })
      .from(calendarSubscriptions)
      .innerJoin(apiKeys, eq(apiKeys.name, calendarSubscriptions.keyName))
      .$dynamic();
  const byDigest = withKey()
    .where(and(eq(calendarSubscriptions.digest, sql.placeholder('digest')), inUse))
    .prepare();
  const ofKey = (keyName: string | null): SQL | undefined =>
    keyName === null ? undefined : eq(calendarSubscriptions.keyName, keyName);
  return {
    byDigest: async (digest) => byDigest.get({ digest }) ?? null,
    page: async (keyName, after, limit) =>
      withKey()
        .where(and(ofKey(keyName), gt(calendarSubscriptions.seq, after), inUse))
        .orderBy(asc(calendarSubscriptions.seq))
        .limit(limit)
        .all()
        .map(({ calendar }) => calendar),
    async insert(row) {
      database.insert(calendarSubscriptions).values(row).run();
    },
    remove: async (id, keyName) =>
      database
        .delete(calendarSubscriptions)
        .where(and(eq(calendarSubscriptions.id, id), ofKey(keyName)))
        .run().changes > 0,
  };
}
