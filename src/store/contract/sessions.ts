import type { Scope } from './caller.js';
import type { Key } from './keys.js';

/** Who is signed in on the pages: a token, told by its SHA-256 in hex, that stands for a key until it expires. */
export interface SessionStore {
  /**
   * Begins a session and ends the one that the browser had before.
   *
   * @param session.expiresAt an instant in UTC; the session ends at it, or with its key
   * @param former the digest of the session before; null for none
   */
  begin(
    scope: Scope,
    session: { digest: string; keyName: string; expiresAt: string },
    former: string | null,
  ): Promise<void>;
  /** The key behind a session; null where that has ended. */
  find(digest: string): Promise<Key | null>;
  end(scope: Scope, digest: string): Promise<void>;
}
