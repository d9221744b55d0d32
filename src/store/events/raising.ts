import { sql } from 'drizzle-orm';
import { v7 as uuid } from 'uuid';
import type { WebhookEvent } from '../../core/vocabulary/events.js';
import { maySee } from '../contract/caller.js';
import type { Database } from '../engine/sqlite/connection.js';
import { inserter } from '../engine/sqlite/inserts.js';
import { events, webhookDeliveries, webhookEndpoints } from '../engine/sqlite/schema.js';
import { selector } from '../engine/sqlite/selects.js';

type EndpointRow = typeof webhookEndpoints.$inferSelect;

/** Queues events for the endpoints that subscribe to them; call within a transaction. */
export function eventRaiser(database: Database, clock: () => Date) {
  const listening = selector(database, webhookEndpoints, 'enabled = 1');
  const insertEvent = database
    .insert(events)
    .values({
      id: sql.placeholder('id'),
      type: sql.placeholder('type'),
      once: sql.placeholder('once'),
      body: sql.placeholder('body'),
      createdAt: sql.placeholder('createdAt'),
    })
    .onConflictDoNothing()
    .returning({ seq: events.seq })
    .prepare();
  const insertDelivery = inserter(database, webhookDeliveries);

  const isListening = (): boolean => listening().length > 0;

  /**
   * Queues one event for endpoints; does nothing if there are none.
   *
   * @param once the key under which it is raised at most once
   * @returns the ids of the deliveries
   */
  function raise(body: WebhookEvent, to: readonly EndpointRow[], once: string | null = null): string[] {
    if (to.length === 0) return [];
    const createdAt = clock().toISOString();
    const event = insertEvent.get({
      id: uuid(),
      type: body.type,
      once,
      body,
      createdAt,
    }) as { seq: number } | undefined;
    // Already raised; this event fires once.
    if (!event) return [];
    const queued = { eventSeq: event.seq, version: 1, status: 'pending', tries: 0, attempts: [], createdAt };
    return to.map(({ seq: endpointSeq }) => {
      const id = uuid();
      insertDelivery({ id, endpointSeq, ...queued, nextAttemptAt: createdAt });
      return id;
    });
  }

  const wanting = ({ type }: WebhookEvent, fleet: string | null): EndpointRow[] =>
    listening().filter(
      ({ eventTypes, fleets }) =>
        (eventTypes === null || eventTypes.some((wanted) => wanted === type)) && maySee({ fleets }, fleet),
    );

  return { isListening, raise, wanting };
}

export type EventRaiser = ReturnType<typeof eventRaiser>;
