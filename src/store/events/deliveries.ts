import { notFound } from '../../core/refusal.js';
import type { Delivery } from '../../core/vocabulary/events.js';
import type { ReadingComponents } from '../engine/contract/engine.js';
import type { DeliveryOfEvent } from '../engine/contract/events.js';

/** @throws Refusal of kind not-found */
export async function findDelivery(
  { deliveries }: Pick<ReadingComponents, 'deliveries'>,
  id: string,
): Promise<DeliveryOfEvent> {
  const found = await deliveries.byId(id);
  if (!found) throw notFound('webhook delivery');
  return found;
}

export function toDelivery({ delivery, event, endpointId }: DeliveryOfEvent): Delivery {
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
