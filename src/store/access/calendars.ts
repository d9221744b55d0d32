import { and, asc, eq, gt, isNull, sql, type SQL } from 'drizzle-orm';
import { timingSafeEqual } from 'node:crypto';
import { v7 as uuid } from 'uuid';
import { notFound } from '../../core/refusal.js';
import type { CalendarSubscription } from '../../core/vocabulary/calendarSubscription.js';
import { pageOf, placeAfter, rowsFor } from '../paging.js';
import type { StoreParts } from '../parts.js';
import type { Deed } from '../vehicles/versions.js';
import { apiKeys, calendarSubscriptions } from '../engine/sqlite/schema.js';
import type { CalendarStore } from '../contract/calendars.js';
import type { Caller } from '../contract/caller.js';
import type { Page } from '../contract/paging.js';

/**
 * A subscription is valid only while the key that created it is: revoking the key disables all of its subscriptions at
 * once.
 */
export function calendarStore({
  database,
  clock,
  write,
  versions,
  outcomes,
  keyCaller,
}: StoreParts): CalendarStore {
  const inUse = isNull(apiKeys.revokedAt);
  const withKey = () =>
    database
      .select({ row: calendarSubscriptions, key: apiKeys })
      .from(calendarSubscriptions)
      .innerJoin(apiKeys, eq(apiKeys.name, calendarSubscriptions.keyName))
      .$dynamic();
  const byDigest = withKey()
    .where(and(eq(calendarSubscriptions.digest, sql.placeholder('digest')), inUse))
    .prepare();

  const note = (caller: Caller, deed: Omit<Deed, 'resource'>): void =>
    versions.note(caller, { ...deed, resource: 'calendar-subscription' });

  /** An owner manages everyone's subscriptions; everyone else only their own. */
  const ofCaller = ({ role, keyName }: Caller): SQL | undefined =>
    role === 'owner' ? undefined : eq(calendarSubscriptions.keyName, keyName!);

  return {
    async create(caller, body, digest, keep) {
      return write(() => {
        const row = { id: uuid(), keyName: caller.keyName, digest, body, createdAt: clock().toISOString() };
        database.insert(calendarSubscriptions).values(row).run();
        note(caller, { action: 'created', resourceId: row.id });
        const subscription = toSubscription(row);
        outcomes.keep(keep, subscription);
        return subscription;
      });
    },

    async list(caller, page: Page) {
      const rows = withKey()
        .where(and(ofCaller(caller), gt(calendarSubscriptions.seq, placeAfter(page)), inUse))
        .orderBy(asc(calendarSubscriptions.seq))
        .limit(rowsFor(page))
        .all();
      return pageOf(
        rows,
        page,
        ({ row }) => toSubscription(row),
        ({ row }) => [row.seq],
      );
    },

    async revoke(caller, id) {
      await write(() => {
        const { changes } = database
          .delete(calendarSubscriptions)
          .where(and(eq(calendarSubscriptions.id, id), ofCaller(caller)))
          .run();
        if (changes === 0) throw notFound('calendar subscription');
        note(caller, { effect: 'remove', action: 'revoked', resourceId: id });
      });
    },

    async open(digest) {
      const found = byDigest.get({ digest });
      if (!found || !timingSafeEqual(Buffer.from(found.row.digest), Buffer.from(digest))) return null;
      const caller = keyCaller(found.key);
      return caller && { subscription: toSubscription(found.row), caller };
    },
  };
}

function toSubscription({
  id,
  keyName,
  body,
  createdAt,
}: Pick<
  typeof calendarSubscriptions.$inferSelect,
  'id' | 'keyName' | 'body' | 'createdAt'
>): CalendarSubscription {
  const { name = null, withinDays = null, chance = null, fleet = null, axle = null } = body;
  return { id, version: 1, name, withinDays, chance, fleet, axle, createdBy: keyName, createdAt };
}
