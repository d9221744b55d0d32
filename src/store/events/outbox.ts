import { and, asc, eq, inArray, isNull, lt, lte, notExists, or, sql } from 'drizzle-orm';
import { setImmediate } from 'node:timers/promises';
import { verdictOf, type Answer, type Verdict } from '../../core/events/retries.js';
import type { Attempt } from '../../core/vocabulary/events.js';
import type { StoreParts } from '../parts.js';
import { events, webhookDeliveries, webhookEndpoints } from '../engine/sqlite/schema.js';
import { OPERATOR } from '../contract/caller.js';
import type { ClaimedDelivery, OutboxStore } from '../contract/webhooks.js';

/** How long a claimed delivery counts as in flight; longer than any attempt takes. */
const CLAIM_MS = 60_000;
/** Maximum attempts shown per delivery. */
const MAX_ATTEMPTS = 20;
/** How long deliveries can be looked up. */
const KEPT_MS = 90 * 86_400_000;
/** Vehicles checked per transaction. */
const BATCH = 10;

/** SQLite uses the partial index only if the condition matches it word for word. */
const isPending = sql`${webhookDeliveries.status} = 'pending'`;

export function outboxStore(parts: StoreParts): OutboxStore {
  const { database, clock, write, versions, events: log } = parts;
  const after = (ms: number): string => new Date(clock().getTime() + ms).toISOString();
  const ready = database
    .select()
    .from(webhookEndpoints)
    .where(
      and(
        eq(webhookEndpoints.enabled, true),
        or(isNull(webhookEndpoints.pausedUntil), lte(webhookEndpoints.pausedUntil, sql.placeholder('now'))),
      ),
    )
    .prepare();
  const waiting = database
    .select({
      seq: webhookDeliveries.seq,
      tries: webhookDeliveries.tries,
      webhookId: events.id,
      // The stored text, so that every attempt sends the same bytes.
      body: sql<string>`${events.body}`,
    })
    .from(webhookDeliveries)
    .innerJoin(events, eq(events.seq, webhookDeliveries.eventSeq))
    .where(
      and(
        eq(webhookDeliveries.endpointSeq, sql.placeholder('endpointSeq')),
        isPending,
        lte(webhookDeliveries.nextAttemptAt, sql.placeholder('now')),
      ),
    )
    .orderBy(asc(webhookDeliveries.nextAttemptAt), asc(webhookDeliveries.seq))
    .limit(sql.placeholder('limit'))
    .prepare();

  /** Deliveries that may be sent now, within the free slots. */
  function candidates(
    { perEndpoint, inAll }: Parameters<OutboxStore['claim']>[0],
    busy: ReadonlyMap<number, number>,
  ): ClaimedDelivery[] {
    const now = after(0);
    const found: ClaimedDelivery[] = [];
    let room = inAll - [...busy.values()].reduce((sum, count) => sum + count, 0);
    for (const { seq: endpointSeq, id: endpointId, url, ...secrets } of ready.all({ now })) {
      const limit = Math.min(room, perEndpoint - (busy.get(endpointSeq) ?? 0));
      if (limit <= 0) continue;
      const rows = waiting.all({ endpointSeq, now, limit });
      room -= rows.length;
      found.push(
        ...rows.map((row) => ({ ...row, endpointSeq, endpointId, url, secrets: signing(secrets, now) })),
      );
    }
    return found;
  }

  function giveUpAll(endpointSeq: number): void {
    database
      .update(webhookDeliveries)
      .set({ status: 'given-up', nextAttemptAt: null, version: sql`version + 1` })
      .where(and(eq(webhookDeliveries.endpointSeq, endpointSeq), isPending))
      .run();
  }

  function disable({ endpointSeq, endpointId, url }: ClaimedDelivery, because: string): void {
    const { changes } = database
      .update(webhookEndpoints)
      .set({ enabled: false, disabledBecause: because, version: sql`version + 1`, updatedAt: after(0) })
      .where(and(eq(webhookEndpoints.seq, endpointSeq), eq(webhookEndpoints.url, url)))
      .run();
    // It was the endpoint's previous address that wants no more events.
    if (changes === 0) return;
    giveUpAll(endpointSeq);
    const deed = { action: 'disabled', resource: 'webhook-endpoint', resourceId: endpointId };
    versions.note(OPERATOR, deed);
  }

  function follow(delivery: ClaimedDelivery, verdict: Verdict): void {
    if (verdict.kind === 'gone') {
      disable(delivery, `the receiver answered 410 Gone at ${after(0)}: it wants no more events`);
    } else if (verdict.kind === 'again' && verdict.pauseMs !== null) {
      database
        .update(webhookEndpoints)
        .set({ pausedUntil: after(verdict.pauseMs) })
        .where(eq(webhookEndpoints.seq, delivery.endpointSeq))
        .run();
    }
  }

  function forgetOld(): void {
    const long = after(-KEPT_MS);
    database.delete(webhookDeliveries).where(lt(webhookDeliveries.createdAt, long)).run();
    const kept = database
      .select({ one: sql`1` })
      .from(webhookDeliveries)
      .where(eq(webhookDeliveries.eventSeq, events.seq));
    database
      .delete(events)
      .where(and(lt(events.createdAt, long), notExists(kept)))
      .run();
  }

  return {
    async claim(room, busy) {
      // Check outside a transaction first, since usually there is nothing.
      if (candidates(room, busy).length === 0) return [];
      return write(() => {
        const claimed = candidates(room, busy);
        database
          .update(webhookDeliveries)
          .set({ nextAttemptAt: after(CLAIM_MS) })
          .where(
            inArray(
              webhookDeliveries.seq,
              claimed.map(({ seq }) => seq),
            ),
          )
          .run();
        return claimed;
      });
    },

    async settle(delivery: ClaimedDelivery, attempt: Attempt, answer: Answer, chance: number) {
      return write(() => {
        const claimed = and(
          eq(webhookDeliveries.seq, delivery.seq),
          eq(webhookDeliveries.tries, delivery.tries),
          isPending,
        );
        const row = database.select().from(webhookDeliveries).where(claimed).get();
        // Deleted with its endpoint, or replayed meanwhile.
        if (!row) return { isAbandoned: false };
        const tries = row.tries + 1;
        const verdict = verdictOf(answer, tries, chance);
        database
          .update(webhookDeliveries)
          .set({
            tries,
            version: row.version + 1,
            attempts: [...row.attempts, attempt].slice(-MAX_ATTEMPTS),
            status: STATUS_AFTER[verdict.kind],
            nextAttemptAt: verdict.kind === 'again' ? after(verdict.inMs) : null,
            deliveredAt: verdict.kind === 'delivered' ? after(0) : null,
          })
          .where(claimed)
          .run();
        follow(delivery, verdict);
        return { isAbandoned: STATUS_AFTER[verdict.kind] === 'given-up' };
      });
    },

    async lookAtCalendar() {
      const vehicles = log.isListening() ? log.vehiclesToFollow() : [];
      for (let from = 0; from < vehicles.length; from += BATCH) {
        await write(() => vehicles.slice(from, from + BATCH).forEach((seq) => log.follow(seq)));
        await setImmediate();
      }
      await write(forgetOld);
    },
  };
}

const STATUS_AFTER = {
  delivered: 'delivered',
  again: 'pending',
  'given-up': 'given-up',
  gone: 'given-up',
} as const satisfies Record<Verdict['kind'], string>;

/** The current secret, and the previous one during its overlap. */
function signing(
  {
    secret,
    previousSecret,
    previousSecretUntil,
  }: Pick<typeof webhookEndpoints.$inferSelect, 'secret' | 'previousSecret' | 'previousSecretUntil'>,
  now: string,
): string[] {
  return previousSecret !== null && previousSecretUntil! > now ? [secret, previousSecret] : [secret];
}
