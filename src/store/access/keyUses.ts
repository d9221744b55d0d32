import { eq } from 'drizzle-orm';
import type { KeyCaller } from '../contract/caller.js';
import type { Database } from '../engine/sqlite/connection.js';
import type { Write } from '../engine/sqlite/engine.js';
import { apiKeys } from '../engine/sqlite/schema.js';

export type KeyRow = typeof apiKeys.$inferSelect;

/** A key's last use is written this seldom, not with every request. */
const USE_NOTED_EVERY_MS = 3_600_000;

interface Parts {
  database: Database;
  clock: () => Date;
  write: Write;
}

/**
 * Tells which keys may be used, and keeps when each was last used: noted beside the request, at most once an hour.
 *
 * @returns who holds the key, or null where its row is revoked or expired
 */
export function keyUses({ database, clock, write }: Parts) {
  /** When this process last noted a use, by name. */
  const noted = new Map<string, number>();

  function noteUse({ name, lastUsedAt }: KeyRow, now: Date): void {
    const last = Math.max(noted.get(name) ?? 0, lastUsedAt === null ? 0 : Date.parse(lastUsedAt));
    if (now.getTime() - last < USE_NOTED_EVERY_MS) return;
    noted.set(name, now.getTime());
    write(
      () =>
        database.update(apiKeys).set({ lastUsedAt: now.toISOString() }).where(eq(apiKeys.name, name)).run(),
      // A full disk must not keep anybody from reading; the next hour's use tries again.
    ).catch(() => undefined);
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
