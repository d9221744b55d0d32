import type { Role } from '../../core/vocabulary/terms.js';
import type { Caller, KeyCaller } from './caller.js';

export interface Key {
  name: string;
  role: Role;
  fleets: string[];
  createdAt: string;
  /** An instant in UTC from which it is refused; null means never. */
  expiresAt: string | null;
  /** An instant in UTC, at most an hour before the last use. */
  lastUsedAt: string | null;
  revokedAt: string | null;
}

export interface KeyStore {
  /**
   * Who holds a key. Null for one that is unknown, revoked, expired or rotated longer ago than its overlap.
   *
   * @param digest SHA-256 of the key, hex
   */
  find(digest: string): Promise<KeyCaller | null>;
  /** @throws Refusal when the name was ever used or is none, or the fleets do not suit the role */
  create(key: {
    name: string;
    role: Role;
    fleets: string[];
    digest: string;
    expiresAt?: string | null;
  }): Promise<void>;
  /**
   * Changes what a key may do; what is missing stays. Fleets of a key that stops being a fleet-manager's are dropped.
   *
   * @throws Refusal when there is no such key in use, or the fleets do not suit the role
   */
  change(name: string, change: { role?: Role; fleets?: string[]; expiresAt?: string | null }): Promise<void>;
  /**
   * Gives a key another secret; the one until now is taken too for so long.
   *
   * @param digest of the new key
   * @throws Refusal when there is no such key in use
   */
  rotate(name: string, digest: string, overlapHours: number): Promise<void>;
  /**
   * Signs everybody out who signed in with a key.
   *
   * @returns how many sessions ended
   * @throws Refusal when there is no such key in use
   */
  endSessions(caller: Caller, name: string): Promise<number>;
  /** Those of the fleets that no vehicle is in. */
  fleetsWithoutVehicles(fleets: readonly string[]): Promise<string[]>;
  list(): Promise<Key[]>;
  /** @returns false when no unrevoked key has that name */
  revoke(name: string): Promise<boolean>;
}
