import { and, asc, count, eq, gt, isNull, lt, lte, or, sql, type SQL } from 'drizzle-orm';
import { required } from '../../../../core/items.js';
import type { CalendarRows, KeyRows, SessionRows } from '../../contract/access.js';
import type { Database } from '../connections.js';
import { apiKeys, calendarSubscriptions, sessions } from '../schema.js';

export function keyRows(database: Database): KeyRows {
  const digest = sql.placeholder('digest');
  const byDigest = database
    .select()
    .from(apiKeys)
    .where(or(eq(apiKeys.digest, digest), eq(apiKeys.formerDigest, digest)))
    .prepare('');
  return {
    byDigest: async (digest) => (await byDigest.execute({ digest }))[0] ?? null,
    byName: async (name) => (await database.select().from(apiKeys).where(eq(apiKeys.name, name)))[0] ?? null,
    all: async () => database.select().from(apiKeys).orderBy(asc(apiKeys.createdAt), asc(apiKeys.name)),
    async insert(row) {
      await database.insert(apiKeys).values(row);
    },
    async update(name, changes) {
      await database.update(apiKeys).set(changes).where(eq(apiKeys.name, name));
    },
    async countUnused(now, since) {
      const { createdAt, lastUsedAt, expiresAt, revokedAt } = apiKeys;
      const [counted] = await database
        .select({ rows: count() })
        .from(apiKeys)
        .where(
          and(
            isNull(revokedAt),
            or(isNull(expiresAt), gt(expiresAt, now)),
            lt(sql`coalesce(${lastUsedAt}, ${createdAt})`, since),
          ),
        );
      return required(counted, 'count').rows;
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
    .prepare('');
  return {
    keyOf: async (digest, now) => (await validKey.execute({ digest, now }))[0]?.key ?? null,
    async insert(row) {
      await database.insert(sessions).values(row);
    },
    remove: async (digest) =>
      (await database.delete(sessions).where(eq(sessions.digest, digest)).returning())[0] ?? null,
    removeOfKey: async (keyName) =>
      (await database.delete(sessions).where(eq(sessions.keyName, keyName)).returning()).length,
    async removeExpired(now) {
      await database.delete(sessions).where(lte(sessions.expiresAt, now));
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
    .prepare('');
  const ofKey = (keyName: string | null): SQL | undefined =>
    keyName === null ? undefined : eq(calendarSubscriptions.keyName, keyName);
  return {
    byDigest: async (digest) => (await byDigest.execute({ digest }))[0] ?? null,
    page: async (keyName, after, limit) => {
      const rows = await withKey()
        .where(and(ofKey(keyName), gt(calendarSubscriptions.seq, after), inUse))
        .orderBy(asc(calendarSubscriptions.seq))
        .limit(limit);
      return rows.map(({ calendar }) => calendar);
    },
    async insert(row) {
      await database.insert(calendarSubscriptions).values(row);
    },
    remove: async (id, keyName) => {
      const removed = await database
        .delete(calendarSubscriptions)
        .where(and(eq(calendarSubscriptions.id, id), ofKey(keyName)))
        .returning({ id: calendarSubscriptions.id });
      return removed.length > 0;
    },
  };
}
