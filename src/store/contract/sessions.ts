import type { Caller, KeyCaller } from './caller.js';

/** Who is signed in on the pages: a token, told by its SHA-256 in hex, that stands for a key until it expires. */
export interface SessionStore {
  /**
   * Begins a session and ends the one that the browser had before.
   *
   * @param session.expiresAt an instant in UTC; the session ends at it, or with its key
   * @param former the digest of the session before; null for none
   */
  begin(
    caller: Caller,
    session: { digest: string; keyName: string; expiresAt: string },
    former: string | null,
  ): Promise<void>;
  /** Who is signed in; null where the session or its key has ended. */
  find(digest: string): Promise<KeyCaller | null>;
  end(caller: Caller, digest: string): Promise<void>;
}
