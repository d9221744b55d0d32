import type {
  CalendarSubscription,
  CalendarSubscriptionBody,
} from '../../core/vocabulary/calendarSubscription.js';
import type { Keep } from './idempotency.js';
import type { Caller, KeyCaller } from './caller.js';
import type { Page, Paged } from './paging.js';

/** The calendar that a token opens, as its creator may see it. */
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
  /** The caller's own subscriptions, or for an owner all of them, in order of creation. */
  list(caller: Caller, page: Page): Promise<Paged<CalendarSubscription>>;
  /** @throws Refusal if there is none, or another key created it and the caller is not an owner */
  revoke(caller: Caller, id: string): Promise<void>;
  /** Null if no calendar has this token, or the key that created it is revoked. */
  open(digest: string): Promise<OpenedCalendar | null>;
}
