import type {
  CalendarSubscription,
  CalendarSubscriptionBody,
} from '../../core/vocabulary/calendarSubscription.js';
import type { Keep } from './idempotency.js';
import type { Key } from './keys.js';
import type { Page, Paged } from './paging.js';

/** What a token opens: one calendar, as the key that made it sees it. */
export interface OpenedCalendar {
  subscription: CalendarSubscription;
  key: Key;
}

export interface CalendarStore {
  /**
   * @param by the name of the key that makes it
   * @param digest SHA-256 of the token, hex
   */
  create(
    by: string,
    body: CalendarSubscriptionBody,
    digest: string,
    keep: Keep<CalendarSubscription> | null,
  ): Promise<CalendarSubscription>;
  /**
   * In the order in which they were made.
   *
   * @param madeBy the name of a key; null for those of every key
   */
  list(madeBy: string | null, page: Page): Promise<Paged<CalendarSubscription>>;
  /**
   * @param by the name of the key that revokes it
   * @param madeBy the name of the key that must have made it; null for any
   * @throws Refusal when there is none
   */
  revoke(by: string, id: string, madeBy: string | null): Promise<void>;
  /** Null where no calendar has this token, or the key that made it is revoked. */
  open(digest: string): Promise<OpenedCalendar | null>;
}
