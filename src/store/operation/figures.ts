import { and, count, eq, gt, isNull, lt, or, sql } from 'drizzle-orm';
import { isStale } from '../outlooks/refresh.js';
import type { StoreParts } from '../parts.js';
import { apiKeys, experiences, outlooks, webhookDeliveries } from '../engine/sqlite/schema.js';
import type { Figures } from '../contract/figures.js';

/** A key unused for this long counts as unused. */
const UNUSED_MS = 90 * 86_400_000;

/** Counts figures for operators; every count uses an index or a small table. */
export function figuresReader({ database, clock, experience, settings }: StoreParts): () => Figures {
  const deliveries = (status: 'pending' | 'given-up'): number =>
    // SQLite uses a partial index only if the condition matches its own word for word.
    database
      .select({ rows: count() })
      .from(webhookDeliveries)
      .where(sql.raw(`status = '${status}'`))
      .get()!.rows;

  function staleOutlooks(): number {
    const { version } = experience();
    const { revision } = settings();
    return database.select({ rows: count() }).from(outlooks).where(isStale({ version, revision })).get()!
      .rows;
  }

  function unusedKeys(): number {
    const now = clock();
    const since = new Date(now.getTime() - UNUSED_MS).toISOString();
    const { name, createdAt, lastUsedAt, expiresAt, revokedAt } = apiKeys;
    return database
      .select({ rows: count(name) })
      .from(apiKeys)
      .where(
        and(
          isNull(revokedAt),
          or(isNull(expiresAt), gt(expiresAt, now.toISOString())),
          lt(sql`ifnull(${lastUsedAt}, ${createdAt})`, since),
        ),
      )
      .get()!.rows;
  }

  return () => {
    const latestFit = database
      .select({ createdAt: experiences.createdAt })
      .from(experiences)
      .where(eq(experiences.version, experience().version))
      .get();
    return {
      staleOutlooks: staleOutlooks(),
      lastFitAt: latestFit?.createdAt ?? null,
      webhooksPending: deliveries('pending'),
      webhooksAbandoned: deliveries('given-up'),
      unusedKeys: unusedKeys(),
    };
  };
}
