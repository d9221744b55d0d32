import type { KeyCaller } from '../contract/caller.js';
import type { KeyRow } from '../engine/contract/access.js';
import type { Engine } from '../engine/contract/engine.js';

/** Minimum interval between two writes of a key's last use. */
const USE_NOTED_EVERY_MS = 3_600_000;

/**
 * Decides which keys may be used, and records each key's last use in the background, at most once an hour.
 *
 * @returns the key's owner, or null if its row is revoked or expired
 */
export function keyUses(write: Engine['write'], clock: () => Date) {
  /** When this process last recorded a use, by key name. */
  const noted = new Map<string, number>();

  function noteUse({ name, lastUsedAt }: KeyRow, now: Date): void {
    const last = Math.max(noted.get(name) ?? 0, lastUsedAt === null ? 0 : Date.parse(lastUsedAt));
    if (now.getTime() - last < USE_NOTED_EVERY_MS) return;
    noted.set(name, now.getTime());
    write((rows) => rows.keys.update(name, { lastUsedAt: now.toISOString() }))
      // A full disk must not prevent reading; a use in the next hour tries again.
      .catch(() => undefined);
  }

  return (row: KeyRow): KeyCaller | null => {
    const now = clock();
    if (row.revokedAt !== null || isPast(row.expiresAt, now)) return null;
    noteUse(row, now);
    return callerWith(row);
  };
}

export const isPast = (instant: string | null, now: Date): boolean =>
  instant !== null && instant <= now.toISOString();

function callerWith({ name, role, fleets }: KeyRow): KeyCaller {
  return { keyName: name, role, fleets: role === 'fleet-manager' ? fleets : null };
}
