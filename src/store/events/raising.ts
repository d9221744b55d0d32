import { v7 as uuid } from 'uuid';
import type { WebhookEvent } from '../../core/vocabulary/events.js';
import { maySee } from '../contract/caller.js';
import type { Components, ReadingComponents } from '../engine/contract/engine.js';
import type { EndpointRow } from '../engine/contract/events.js';

type Rows = Pick<Components, 'endpoints' | 'events' | 'deliveries'>;

/** Whether any endpoint wants events. */
export const isListening = async ({ endpoints }: Pick<ReadingComponents, 'endpoints'>): Promise<boolean> =>
  (await endpoints.enabled()).length > 0;

/** Queues events for the endpoints that subscribe to them, within a transaction. */
export function eventRaiser({ endpoints, events, deliveries }: Rows, clock: () => Date) {
  return {
    /**
     * Queues one event for endpoints; does nothing if there are none.
     *
     * @param once the key under which it is raised at most once
     * @returns the ids of the deliveries
     */
    async raise(
      body: WebhookEvent,
      to: readonly EndpointRow[],
      once: string | null = null,
    ): Promise<string[]> {
      if (to.length === 0) return [];
      const createdAt = clock().toISOString();
      const eventSeq = await events.insert({ id: uuid(), type: body.type, once, body, createdAt });
      // Already raised; this event fires once.
      if (eventSeq === null) return [];
      const queued = { eventSeq, version: 1, status: 'pending', tries: 0, attempts: [], createdAt } as const;
      const rows = to.map(({ seq: endpointSeq }) => ({
        ...queued,
        id: uuid(),
        endpointSeq,
        attempts: [],
        nextAttemptAt: createdAt,
      }));
      await deliveries.insert(rows);
      return rows.map(({ id }) => id);
    },

    wanting: async ({ type }: WebhookEvent, fleet: string | null): Promise<EndpointRow[]> =>
      (await endpoints.enabled()).filter(
        ({ eventTypes, fleets }) =>
          (eventTypes === null || eventTypes.some((wanted) => wanted === type)) && maySee({ fleets }, fleet),
      ),
  };
}

export type EventRaiser = ReturnType<typeof eventRaiser>;
