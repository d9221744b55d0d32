import type { CalendarSubscriptionBody } from '../../../core/vocabulary/calendarSubscription.js';
import type { Role } from '../../../core/vocabulary/terms.js';

/** An API key; instants are in UTC. */
export interface KeyRow {
  name: string;
  role: Role;
  /** The fleets that a fleet-manager sees; empty for other roles. */
  fleets: string[];
  /** SHA-256 of the key, hex. */
  digest: string;
  createdAt: string;
  revokedAt: string | null;
  /** Null means never. */
  expiresAt: string | null;
  /** At most an hour before the last use. */
  lastUsedAt: string | null;
  /** Of a rotated key: the previous digest, and the instant until which it is accepted. */
  formerDigest: string | null;
  formerUntil: string | null;
}

export interface KeyRows {
  /** The key with this digest, be it the current or the previous one. */
  byDigest(digest: string): Promise<KeyRow | null>;
  byName(name: string): Promise<KeyRow | null>;
  /** In order of creation. */
  all(): Promise<KeyRow[]>;
  insert(row: Pick<KeyRow, 'name' | 'role' | 'fleets' | 'digest' | 'createdAt' | 'expiresAt'>): Promise<void>;
  update(name: string, changes: Partial<Omit<KeyRow, 'name'>>): Promise<void>;
  /** How many keys that are valid now were not used since an instant. */
  countUnused(now: string, since: string): Promise<number>;
}

/** A session of the pages. */
export interface SessionRow {
  /** SHA-256 of the token in the cookie, hex. */
  digest: string;
  keyName: string;
  expiresAt: string;
}

export interface SessionRows {
  /** The key of a session that has not expired. */
  keyOf(digest: string, now: string): Promise<KeyRow | null>;
  insert(row: SessionRow): Promise<void>;
  /** @returns the removed session, if there was one */
  remove(digest: string): Promise<SessionRow | null>;
  /** @returns how many were removed */
  removeOfKey(keyName: string): Promise<number>;
  removeExpired(now: string): Promise<void>;
}

/** An address from which a calendar program reads the due-soon report. */
export interface CalendarRow {
  seq: number;
  id: string;
  /** The key that created it and must still be valid. */
  keyName: string;
  /** SHA-256 of the token, hex. */
  digest: string;
  body: CalendarSubscriptionBody;
  createdAt: string;
}

/** Finds only subscriptions whose key is not revoked. */
export interface CalendarRows {
  byDigest(digest: string): Promise<{ calendar: CalendarRow; key: KeyRow } | null>;
  /**
   * In order of creation.
   *
   * @param keyName of the key that created them; null for any
   */
  page(keyName: string | null, after: number, limit: number): Promise<CalendarRow[]>;
  insert(row: Omit<CalendarRow, 'seq'>): Promise<void>;
  /** @returns false if that key created none with this id */
  remove(id: string, keyName: string | null): Promise<boolean>;
}
