import type { Caller, KeyCaller } from './caller.js';

/** Sessions of the pages. A session token, stored as its SHA-256 in hex, represents a key until it expires. */
export interface SessionStore {
  /**
   * Begins a session and ends the browser's previous one.
   *
   * @param session.expiresAt an instant in UTC; the session ends then, or when its key becomes invalid
   * @param former the digest of the previous session; null if none
   */
  begin(
    caller: Caller,
    session: { digest: string; keyName: string; expiresAt: string },
    former: string | null,
  ): Promise<void>;
  /** The signed-in user; null if the session or its key has ended. */
  find(digest: string): Promise<KeyCaller | null>;
  end(caller: Caller, digest: string): Promise<void>;
}
