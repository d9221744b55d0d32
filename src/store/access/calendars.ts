import { timingSafeEqual } from 'node:crypto';
import { v7 as uuid } from 'uuid';
import { notFound } from '../../core/refusal.js';
import type { CalendarSubscription } from '../../core/vocabulary/calendarSubscription.js';
import type { CalendarStore } from '../contract/calendars.js';
import type { Caller } from '../contract/caller.js';
import type { CalendarRow } from '../engine/contract/access.js';
import { pageOf, placeAfter, rowsFor } from '../paging.js';
import type { Rules, StoreParts } from '../parts.js';
import type { Deed } from '../vehicles/versions.js';

/**
 * A subscription is valid only while the key that created it is: revoking the key disables all of its subscriptions at
 * once.
 */
export function calendarStore({ reading, clock, write, keyCaller }: StoreParts): CalendarStore {
  return {
    async create(caller, body, digest, keep) {
      return write(async (own) => {
        const row = { id: uuid(), keyName: caller.keyName, digest, body, createdAt: clock().toISOString() };
        await own.rows.calendars.insert(row);
        await note(own, caller, { action: 'created', resourceId: row.id });
        const subscription = toSubscription(row);
        await own.outcomes.keep(keep, subscription);
        return subscription;
      });
    },

    async list(caller, page) {
      const { calendars } = reading.rows;
      const rows = await calendars.page(managedBy(caller), placeAfter(page), rowsFor(page));
      return pageOf(rows, page, toSubscription, ({ seq }) => [seq]);
    },

    async revoke(caller, id) {
      await write(async (own) => {
        const isRemoved = await own.rows.calendars.remove(id, managedBy(caller));
        if (!isRemoved) throw notFound('calendar subscription');
        await note(own, caller, { effect: 'remove', action: 'revoked', resourceId: id });
      });
    },

    async open(digest) {
      const found = await reading.rows.calendars.byDigest(digest);
      if (!found || !timingSafeEqual(Buffer.from(found.calendar.digest), Buffer.from(digest))) return null;
      const caller = keyCaller(found.key);
      return caller && { subscription: toSubscription(found.calendar), caller };
    },
  };
}

/** The key whose subscriptions a caller manages; null for an owner, who manages everyone's. */
const managedBy = ({ role, keyName }: Caller): string | null => (role === 'owner' ? null : keyName!);

const note = ({ versions }: Rules, caller: Caller, deed: Omit<Deed, 'resource'>): Promise<void> =>
  versions.note(caller, { ...deed, resource: 'calendar-subscription' });

function toSubscription({ id, keyName, body, createdAt }: Omit<CalendarRow, 'seq'>): CalendarSubscription {
  const { name = null, withinDays = null, chance = null, fleet = null, axle = null } = body;
  return { id, version: 1, name, withinDays, chance, fleet, axle, createdBy: keyName, createdAt };
}
