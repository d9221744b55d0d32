import { and, desc, eq, lt } from 'drizzle-orm';
import { notFound } from '../../core/refusal.js';
import type { Delivery } from '../../core/vocabulary/events.js';
import type { Page, Paged } from '../contract/paging.js';
import type { DeliveryFilter } from '../contract/webhooks.js';
import type { Database } from '../engine/sqlite/connection.js';
import { events, webhookDeliveries, webhookEndpoints } from '../engine/sqlite/schema.js';
import { pageOf, placeAfter, rowsFor } from '../paging.js';

/** Reads deliveries and their results. */
export function deliveryReader(database: Database) {
  const joined = () =>
    database
      .select({ delivery: webhookDeliveries, event: events, endpointId: webhookEndpoints.id })
      .from(webhookDeliveries)
      .innerJoin(events, eq(events.seq, webhookDeliveries.eventSeq))
      .innerJoin(webhookEndpoints, eq(webhookEndpoints.seq, webhookDeliveries.endpointSeq));

  /** @throws Refusal of kind not-found */
  function find(id: string) {
    const row = joined().where(eq(webhookDeliveries.id, id)).get();
    if (!row) throw notFound('webhook delivery');
    return row;
  }

  function list({ endpointId, status, type }: DeliveryFilter, page: Page): Paged<Delivery> {
    const rows = joined()
      .where(
        and(
          endpointId === null ? undefined : eq(webhookEndpoints.id, endpointId),
          status === null ? undefined : eq(webhookDeliveries.status, status),
          type === null ? undefined : eq(events.type, type),
          page.after ? lt(webhookDeliveries.seq, placeAfter(page)) : undefined,
        ),
      )
      .orderBy(desc(webhookDeliveries.seq))
      .limit(rowsFor(page))
      .all();
    return pageOf(rows, page, toDelivery, ({ delivery }) => [delivery.seq]);
  }

  return { find, list };
}

interface JoinedRow {
  delivery: typeof webhookDeliveries.$inferSelect;
  event: typeof events.$inferSelect;
  endpointId: string;
}

export function toDelivery({ delivery, event, endpointId }: JoinedRow): Delivery {
  const { id, version, status, attempts, nextAttemptAt, deliveredAt, createdAt } = delivery;
  return {
    id,
    version,
    endpointId,
    webhookId: event.id,
    type: event.type,
    status,
    attempts,
    nextAttemptAt,
    deliveredAt,
    createdAt,
    event: event.body,
  };
}
