import type {
  CalendarSubscription,
  CalendarSubscriptionBody,
} from '../../core/vocabulary/calendarSubscription.js';
import type { Keep } from './idempotency.js';
import type { Caller, KeyCaller } from './caller.js';
import type { Page, Paged } from './paging.js';

/** What a token opens: one calendar, as whoever made it sees it. */
export interface OpenedCalendar {
  subscription: CalendarSubscription;
  caller: KeyCaller;
}

export interface CalendarStore {
  /** @param digest SHA-256 of the token, hex */
  create(
    caller: KeyCaller,
    body: CalendarSubscriptionBody,
    digest: string,
    keep: Keep<CalendarSubscription> | null,
  ): Promise<CalendarSubscription>;
  /** Those that the caller made, or all where the caller is an owner; in the order in which they were made. */
  list(caller: Caller, page: Page): Promise<Paged<CalendarSubscription>>;
  /** @throws Refusal when there is none, or another key made it and the caller is no owner */
  revoke(caller: Caller, id: string): Promise<void>;
  /** Null where no calendar has this token, or the key that made it is revoked. */
  open(digest: string): Promise<OpenedCalendar | null>;
}
