import { asc, count, eq, notExists, sql } from 'drizzle-orm';
import { v7 as uuid } from 'uuid';
import { testEvent } from '../../core/events/payloads.js';
import { notFound, Refusal } from '../../core/refusal.js';
import type { Delivery, EndpointBody, EndpointWithSecret } from '../../core/vocabulary/events.js';
import { refuseStale } from '../contract/expected.js';
import type { StoreParts } from '../parts.js';
import { events, webhookDeliveries, webhookEndpoints } from '../engine/sqlite/schema.js';
import type { Caller } from '../contract/caller.js';
import type { Expected } from '../contract/expected.js';
import type { Keep } from '../contract/idempotency.js';
import type { WebhookStore } from '../contract/webhooks.js';
import { deliveryReader, toDelivery } from './deliveries.js';
import { bodyOf, columnsOf, newSecret, toEndpoint, withSecret, type EndpointRow } from './endpointRows.js';
import type { Deed } from '../vehicles/versions.js';

const MAX_ENDPOINTS = 20;
const HOUR_MS = 3_600_000;

export function webhookStore(parts: StoreParts): WebhookStore {
  const { database, clock, write, versions, events: log, outcomes } = parts;
  const deliveries = deliveryReader(database);
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

  /** What is already due when the first endpoint is added raises no event. */
  function listeningAnew<Result>(work: () => Result): Result {
    const listened = log.isListening();
    const result = work();
    if (!listened && log.isListening()) log.beginListening();
    return result;
  }

  function refuseAnother(): void {
    const { total } = database.select({ total: count() }).from(webhookEndpoints).get()!;
    if (total < MAX_ENDPOINTS) return;
    const detail = `there are already ${MAX_ENDPOINTS} webhook endpoints, the maximum; remove one first`;
    throw new Refusal('conflict', 'too-many-webhook-endpoints', detail);
  }

  function refuseDisabled({ enabled, id }: EndpointRow): void {
    if (enabled) return;
    const detail = `webhook endpoint ${id} is disabled; enable it first`;
    throw new Refusal('conflict', 'webhook-endpoint-disabled', detail);
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
        const result = toDelivery(deliveries.find(deliveryIds[0]!));
        outcomes.keep(keep, result);
        return result;
      });
    },

    async delivery(id: string) {
      return toDelivery(deliveries.find(id));
    },

    deliveries: async (filter, page) => deliveries.list(filter, page),

    async replay(caller: Caller, id: string, keep: Keep<Delivery> | null) {
      return write(() => {
        const { delivery, endpointId } = deliveries.find(id);
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
        const result = toDelivery(deliveries.find(id));
        outcomes.keep(keep, result);
        return result;
      });
    },
  };
}
