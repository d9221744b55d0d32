import type { Role } from '../../core/vocabulary/terms.js';
import type { Caller, KeyCaller } from './caller.js';

export interface Key {
  name: string;
  role: Role;
  fleets: string[];
  createdAt: string;
  /** The instant, in UTC, at which it expires; null means never. */
  expiresAt: string | null;
  /** An instant in UTC, at most an hour before the last use. */
  lastUsedAt: string | null;
  revokedAt: string | null;
}

export interface KeyStore {
  /**
   * The owner of a key. Null if it is unknown, revoked, expired, or rotated longer ago than its overlap.
   *
   * @param digest SHA-256 of the key, hex
   */
  find(digest: string): Promise<KeyCaller | null>;
  /** @throws Refusal if the name is invalid or was ever used, or the fleets do not suit the role */
  create(key: {
    name: string;
    role: Role;
    fleets: string[];
    digest: string;
    expiresAt?: string | null;
  }): Promise<void>;
  /**
   * Changes what a key may do; missing members stay unchanged. A key that changes from fleet-manager to another role
   * loses its fleets.
   *
   * @throws Refusal if there is no such valid key, or the fleets do not suit the role
   */
  change(name: string, change: { role?: Role; fleets?: string[]; expiresAt?: string | null }): Promise<void>;
  /**
   * Gives a key a new secret; the old one stays valid for the overlap.
   *
   * @param digest of the new key
   * @throws Refusal if there is no such valid key
   */
  rotate(name: string, digest: string, overlapHours: number): Promise<void>;
  /**
   * Ends all sessions that were opened with a key.
   *
   * @returns how many sessions ended
   * @throws Refusal if there is no such valid key
   */
  endSessions(caller: Caller, name: string): Promise<number>;
  /** The given fleets that have no vehicles. */
  fleetsWithoutVehicles(fleets: readonly string[]): Promise<string[]>;
  list(): Promise<Key[]>;
  /** @returns false if no valid key has that name */
  revoke(name: string): Promise<boolean>;
}
