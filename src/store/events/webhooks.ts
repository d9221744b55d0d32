import { and, asc, count, desc, eq, lt, notExists, sql } from 'drizzle-orm';
import { randomBytes } from 'node:crypto';
import { v7 as uuid } from 'uuid';
import { testEvent } from '../../core/events/payloads.js';
import { notFound, Refusal } from '../../core/refusal.js';
import type { Delivery, Endpoint, EndpointBody, EndpointWithSecret } from '../../core/vocabulary/events.js';
import { refuseStale } from '../contract/expected.js';
import type { StoreParts } from '../parts.js';
import { events, webhookDeliveries, webhookEndpoints } from '../engine/sqlite/schema.js';
import type { Caller } from '../contract/caller.js';
import type { Expected } from '../contract/expected.js';
import type { Keep } from '../contract/idempotency.js';
import type { Page, Paged } from '../contract/paging.js';
import type { DeliveryFilter, WebhookStore } from '../contract/webhooks.js';
import type { Deed } from '../vehicles/versions.js';

type EndpointRow = typeof webhookEndpoints.$inferSelect;
type DeliveryRow = typeof webhookDeliveries.$inferSelect;

const MOST_ENDPOINTS = 20;
const SECRET_BYTES = 32;
const HOUR_MS = 3_600_000;

export function webhookStore(parts: StoreParts): WebhookStore {
  const { database, clock, write, versions, events: log, outcomes } = parts;
  const now = (): string => clock().toISOString();

  const note = (caller: Caller, action: string, resourceId: string, effect?: Deed['effect']): void =>
    versions.note(caller, { effect, action, resource: 'webhook-endpoint', resourceId });

  function rowOf(id: string): EndpointRow {
    const row = database.select().from(webhookEndpoints).where(eq(webhookEndpoints.id, id)).get();
    if (!row) throw notFound('webhook endpoint');
    return row;
  }

  function update(row: EndpointRow, changes: Partial<EndpointRow>): EndpointRow {
    const next = { ...changes, version: row.version + 1, updatedAt: now() };
    return database
      .update(webhookEndpoints)
      .set(next)
      .where(eq(webhookEndpoints.seq, row.seq))
      .returning()
      .get();
  }

  /** What is due when the first endpoint begins to listen was so before, and is not told of. */
  function listeningAnew<Result>(work: () => Result): Result {
    const listened = log.isListening();
    const result = work();
    if (!listened && log.isListening()) log.beginListening();
    return result;
  }

  function refuseAnother(): void {
    const { total } = database.select({ total: count() }).from(webhookEndpoints).get()!;
    if (total < MOST_ENDPOINTS) return;
    const detail = `there are ${MOST_ENDPOINTS} webhook endpoints already; remove one first`;
    throw new Refusal('conflict', 'too-many-webhook-endpoints', detail);
  }

  function refuseDisabled({ enabled, id }: EndpointRow): void {
    if (enabled) return;
    const detail = `webhook endpoint ${id} is disabled; enable it first`;
    throw new Refusal('conflict', 'webhook-endpoint-disabled', detail);
  }

  const joined = () =>
    database
      .select({ delivery: webhookDeliveries, event: events, endpointId: webhookEndpoints.id })
      .from(webhookDeliveries)
      .innerJoin(events, eq(events.seq, webhookDeliveries.eventSeq))
      .innerJoin(webhookEndpoints, eq(webhookEndpoints.seq, webhookDeliveries.endpointSeq));

  function deliveryOf(id: string) {
    const row = joined().where(eq(webhookDeliveries.id, id)).get();
    if (!row) throw notFound('webhook delivery');
    return row;
  }

  return {
    async create(caller: Caller, body: EndpointBody, keep: Keep<EndpointWithSecret> | null) {
      return write(() => {
        refuseAnother();
        const at = now();
        const row = listeningAnew(() =>
          database
            .insert(webhookEndpoints)
            .values({
              id: uuid(),
              version: 1,
              ...columnsOf(body),
              ...newSecret(),
              createdAt: at,
              updatedAt: at,
            })
            .returning()
            .get(),
        );
        note(caller, 'created', row.id);
        const result = withSecret(row, now());
        outcomes.keep(keep, result);
        return result;
      });
    },

    async get(id: string) {
      return toEndpoint(rowOf(id), now());
    },

    async list() {
      const rows = database.select().from(webhookEndpoints).orderBy(asc(webhookEndpoints.seq)).all();
      return rows.map((row) => toEndpoint(row, now()));
    },

    async change(
      caller: Caller,
      id: string,
      expected: Expected,
      change: (body: EndpointBody) => EndpointBody,
    ) {
      return write(() => {
        const row = rowOf(id);
        refuseStale(expected, row.version);
        const columns = columnsOf(change(bodyOf(row)));
        const cleared = { disabledBecause: columns.enabled ? null : row.disabledBecause, pausedUntil: null };
        const changed = listeningAnew(() => update(row, { ...columns, ...cleared }));
        note(caller, 'changed', id, 'change');
        return toEndpoint(changed, now());
      });
    },

    async remove(caller: Caller, id: string) {
      await write(() => {
        const { seq } = rowOf(id);
        database.delete(webhookDeliveries).where(eq(webhookDeliveries.endpointSeq, seq)).run();
        database.delete(webhookEndpoints).where(eq(webhookEndpoints.seq, seq)).run();
        const sent = database
          .select({ one: sql`1` })
          .from(webhookDeliveries)
          .where(eq(webhookDeliveries.eventSeq, events.seq));
        database.delete(events).where(notExists(sent)).run();
        note(caller, 'removed', id, 'remove');
      });
    },

    async rotateSecret(
      caller: Caller,
      id: string,
      overlapHours: number,
      keep: Keep<EndpointWithSecret> | null,
    ) {
      return write(() => {
        const row = rowOf(id);
        const until = new Date(clock().getTime() + overlapHours * HOUR_MS).toISOString();
        const previous =
          overlapHours > 0
            ? { previousSecret: row.secret, previousSecretUntil: until }
            : { previousSecret: null, previousSecretUntil: null };
        const result = withSecret(update(row, { ...newSecret(), ...previous }), now());
        note(caller, 'secret-rotated', id);
        outcomes.keep(keep, result);
        return result;
      });
    },

    async test(caller: Caller, id: string, keep: Keep<Delivery> | null) {
      return write(() => {
        const row = rowOf(id);
        refuseDisabled(row);
        const deliveryIds = log.raise(testEvent(id, now()), [row]);
        note(caller, 'tested', id);
        const result = toDelivery(deliveryOf(deliveryIds[0]!));
        outcomes.keep(keep, result);
        return result;
      });
    },

    async delivery(id: string) {
      return toDelivery(deliveryOf(id));
    },

    async deliveries(
      { endpointId, status, type }: DeliveryFilter,
      { limit, after }: Page,
    ): Promise<Paged<Delivery>> {
      const rows = joined()
        .where(
          and(
            endpointId === null ? undefined : eq(webhookEndpoints.id, endpointId),
            status === null ? undefined : eq(webhookDeliveries.status, status),
            type === null ? undefined : eq(events.type, type),
            after ? lt(webhookDeliveries.seq, Number(after[0])) : undefined,
          ),
        )
        .orderBy(desc(webhookDeliveries.seq))
        .limit(limit + 1)
        .all();
      const shown = rows.slice(0, limit);
      return {
        items: shown.map(toDelivery),
        next: rows.length > limit ? [shown.at(-1)!.delivery.seq] : null,
      };
    },

    async replay(caller: Caller, id: string, keep: Keep<Delivery> | null) {
      return write(() => {
        const { delivery, endpointId } = deliveryOf(id);
        refuseDisabled(rowOf(endpointId));
        database
          .update(webhookDeliveries)
          .set({
            status: 'pending',
            tries: 0,
            nextAttemptAt: now(),
            deliveredAt: null,
            version: delivery.version + 1,
          })
          .where(eq(webhookDeliveries.seq, delivery.seq))
          .run();
        const deed = {
          action: 'replayed',
          resource: 'webhook-delivery',
          resourceId: id,
        } as const;
        versions.note(caller, deed);
        const result = toDelivery(deliveryOf(id));
        outcomes.keep(keep, result);
        return result;
      });
    },
  };
}

const newSecret = () => ({ secret: `whsec_${randomBytes(SECRET_BYTES).toString('base64')}` });

const columnsOf = ({ url, eventTypes, fleets, enabled }: EndpointBody) => ({
  url,
  eventTypes: eventTypes ?? null,
  fleets: fleets ?? null,
  enabled,
});

const bodyOf = ({ url, eventTypes, fleets, enabled }: EndpointRow): EndpointBody => ({
  url,
  eventTypes,
  fleets,
  enabled,
});

function toEndpoint(row: EndpointRow, now: string): Endpoint {
  const { id, version, disabledBecause, previousSecretUntil, createdAt, updatedAt } = row;
  return {
    id,
    version,
    ...columnsOf(bodyOf(row)),
    disabledBecause,
    previousSecretUntil:
      previousSecretUntil !== null && previousSecretUntil > now ? previousSecretUntil : null,
    createdAt,
    updatedAt,
  };
}

const withSecret = (row: EndpointRow, now: string): EndpointWithSecret => ({
  ...toEndpoint(row, now),
  secret: row.secret,
});

interface JoinedRow {
  delivery: DeliveryRow;
  event: typeof events.$inferSelect;
  endpointId: string;
}

function toDelivery({ delivery, event, endpointId }: JoinedRow): Delivery {
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
