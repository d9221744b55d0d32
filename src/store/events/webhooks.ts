import { v7 as uuid } from 'uuid';
import { testEvent } from '../../core/events/payloads.js';
import { notFound, Refusal } from '../../core/refusal.js';
import type { Delivery, Endpoint, EndpointBody, EndpointWithSecret } from '../../core/vocabulary/events.js';
import type { Caller } from '../contract/caller.js';
import { refuseStale } from '../contract/expected.js';
import type { WebhookStore } from '../contract/webhooks.js';
import type { EndpointRow } from '../engine/contract/events.js';
import { pageOf, placeAfter, rowsFor } from '../paging.js';
import type { ReadingRules, Rules, StoreParts } from '../parts.js';
import type { Deed } from '../vehicles/versions.js';
import { findDelivery, toDelivery } from './deliveries.js';
import { bodyOf, columnsOf, newSecret, toEndpoint, withSecret } from './endpointRows.js';

const MAX_ENDPOINTS = 20;
const HOUR_MS = 3_600_000;

export function webhookStore({ reading, write, clock }: StoreParts): WebhookStore {
  const now = (): string => clock().toISOString();

  return {
    create: (caller, body, keep) =>
      write(async (own) => {
        const result = await createEndpoint(own, caller, body);
        await own.outcomes.keep(keep, result);
        return result;
      }),

    async get(id) {
      return toEndpoint(await rowOf(reading, id), now());
    },

    async list() {
      return (await reading.rows.endpoints.all()).map((row) => toEndpoint(row, now()));
    },

    change: (caller, id, expected, change) =>
      write(async (own) => {
        const row = await rowOf(own, id);
        refuseStale(expected, row.version);
        return changeEndpoint(own, caller, row, change(bodyOf(row)));
      }),

    async remove(caller, id) {
      await write(async (own) => {
        const { seq } = await rowOf(own, id);
        await own.rows.endpoints.remove(seq);
        await note(own, caller, 'removed', id, 'remove');
      });
    },

    rotateSecret: (caller, id, overlapHours, keep) =>
      write(async (own) => {
        const result = await rotateSecret(own, caller, await rowOf(own, id), overlapHours);
        await own.outcomes.keep(keep, result);
        return result;
      }),

    test: (caller, id, keep) =>
      write(async (own) => {
        const row = await rowOf(own, id);
        refuseDisabled(row);
        const [deliveryId] = await own.events.raise(testEvent(id, now()), [row]);
        await note(own, caller, 'tested', id);
        const result = toDelivery(await findDelivery(own.rows, deliveryId!));
        await own.outcomes.keep(keep, result);
        return result;
      }),

    async delivery(id) {
      return toDelivery(await findDelivery(reading.rows, id));
    },

    async deliveries(filter, page) {
      const before = page.after ? placeAfter(page) : null;
      const rows = await reading.rows.deliveries.list(filter, before, rowsFor(page));
      return pageOf(rows, page, toDelivery, ({ delivery }) => [delivery.seq]);
    },

    replay: (caller, id, keep) =>
      write(async (own) => {
        const result = await replayDelivery(own, caller, id);
        await own.outcomes.keep(keep, result);
        return result;
      }),
  };
}

const instant = ({ clock }: Rules): string => clock().toISOString();

const note = (
  { versions }: Rules,
  caller: Caller,
  action: string,
  resourceId: string,
  effect?: Deed['effect'],
): Promise<void> => versions.note(caller, { effect, action, resource: 'webhook-endpoint', resourceId });

async function rowOf({ rows }: ReadingRules, id: string): Promise<EndpointRow> {
  const row = await rows.endpoints.byId(id);
  if (!row) throw notFound('webhook endpoint');
  return row;
}

const updateEndpoint = (own: Rules, row: EndpointRow, changes: Partial<EndpointRow>): Promise<EndpointRow> =>
  own.rows.endpoints.update(row.seq, { ...changes, version: row.version + 1, updatedAt: instant(own) });

/** Axles that are already due when the first endpoint is added raise no event. */
async function startingToListen<Result>({ events }: Rules, work: () => Promise<Result>): Promise<Result> {
  const listened = await events.isListening();
  const result = await work();
  if (!listened && (await events.isListening())) await events.beginListening();
  return result;
}

async function createEndpoint(own: Rules, caller: Caller, body: EndpointBody): Promise<EndpointWithSecret> {
  if ((await own.rows.endpoints.all()).length >= MAX_ENDPOINTS) {
    const detail = `there are already ${MAX_ENDPOINTS} webhook endpoints, the maximum; remove one first`;
    throw new Refusal('conflict', 'too-many-webhook-endpoints', detail);
  }
  const at = instant(own);
  const fresh = {
    id: uuid(),
    version: 1,
    ...columnsOf(body),
    ...newSecret(),
    createdAt: at,
    updatedAt: at,
  };
  const row = await startingToListen(own, () => own.rows.endpoints.insert(fresh));
  await note(own, caller, 'created', row.id);
  return withSecret(row, instant(own));
}

async function changeEndpoint(
  own: Rules,
  caller: Caller,
  row: EndpointRow,
  body: EndpointBody,
): Promise<Endpoint> {
  const columns = columnsOf(body);
  const cleared = { disabledBecause: columns.enabled ? null : row.disabledBecause, pausedUntil: null };
  const next = await startingToListen(own, () => updateEndpoint(own, row, { ...columns, ...cleared }));
  await note(own, caller, 'changed', row.id, 'change');
  return toEndpoint(next, instant(own));
}

async function rotateSecret(
  own: Rules,
  caller: Caller,
  row: EndpointRow,
  overlapHours: number,
): Promise<EndpointWithSecret> {
  const until = new Date(own.clock().getTime() + overlapHours * HOUR_MS).toISOString();
  const previous =
    overlapHours > 0
      ? { previousSecret: row.secret, previousSecretUntil: until }
      : { previousSecret: null, previousSecretUntil: null };
  const next = await updateEndpoint(own, row, { ...newSecret(), ...previous });
  await note(own, caller, 'secret-rotated', row.id);
  return withSecret(next, instant(own));
}

function refuseDisabled({ enabled, id }: EndpointRow): void {
  if (enabled) return;
  const detail = `webhook endpoint ${id} is disabled; enable it first`;
  throw new Refusal('conflict', 'webhook-endpoint-disabled', detail);
}

async function replayDelivery(own: Rules, caller: Caller, id: string): Promise<Delivery> {
  const { delivery, endpointId } = await findDelivery(own.rows, id);
  refuseDisabled(await rowOf(own, endpointId));
  await own.rows.deliveries.update(delivery.seq, {
    status: 'pending',
    tries: 0,
    nextAttemptAt: instant(own),
    deliveredAt: null,
    version: delivery.version + 1,
  });
  await own.versions.note(caller, { action: 'replayed', resource: 'webhook-delivery', resourceId: id });
  return toDelivery(await findDelivery(own.rows, id));
}
