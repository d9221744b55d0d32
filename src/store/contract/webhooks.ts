import type { Answer as WebhookAnswer } from '../../core/events/retries.js';
import type {
  Attempt,
  Delivery,
  Endpoint,
  EndpointBody,
  EndpointWithSecret,
} from '../../core/vocabulary/events.js';
import type { DeliveryState, EventType } from '../../core/vocabulary/terms.js';
import type { Caller } from './caller.js';
import type { Expected } from './expected.js';
import type { Keep } from './idempotency.js';
import type { Page, Paged } from './paging.js';

export interface DeliveryFilter {
  endpointId: string | null;
  status: DeliveryState | null;
  type: EventType | null;
}

/** Webhook endpoints and their deliveries; for owners only. */
export interface WebhookStore {
  /** @throws Refusal of kind conflict if the maximum number of endpoints exists */
  create(
    caller: Caller,
    body: EndpointBody,
    keep: Keep<EndpointWithSecret> | null,
  ): Promise<EndpointWithSecret>;
  get(id: string): Promise<Endpoint>;
  /** All endpoints, earliest first. */
  list(): Promise<Endpoint[]>;
  /** @param change builds the new body from the current one, or throws if the result is invalid */
  change(
    caller: Caller,
    id: string,
    expected: Expected,
    change: (body: EndpointBody) => EndpointBody,
  ): Promise<Endpoint>;
  /** Also deletes its secret and its deliveries. */
  remove(caller: Caller, id: string): Promise<void>;
  /** Creates a new secret; the previous one also signs for the overlap. */
  rotateSecret(
    caller: Caller,
    id: string,
    overlapHours: number,
    keep: Keep<EndpointWithSecret> | null,
  ): Promise<EndpointWithSecret>;
  /** Queues a test event for the endpoint. */
  test(caller: Caller, id: string, keep: Keep<Delivery> | null): Promise<Delivery>;
  delivery(id: string): Promise<Delivery>;
  /** Latest first. */
  deliveries(filter: DeliveryFilter, page: Page): Promise<Paged<Delivery>>;
  /** Queues a delivery again from the first attempt, with the same webhook-id. */
  replay(caller: Caller, id: string, keep: Keep<Delivery> | null): Promise<Delivery>;
}

/** A delivery taken from the queue for sending. */
export interface ClaimedDelivery {
  seq: number;
  endpointSeq: number;
  endpointId: string;
  url: string;
  webhookId: string;
  /** The text to send, byte for byte. */
  body: string;
  /** The signing secrets, the current one first. */
  secrets: string[];
  /** Attempts made before this one. */
  tries: number;
}

/**
 * The store's interface for the delivery loop. Several processes may share a database; none gets a delivery that
 * another has claimed.
 */
export interface OutboxStore {
  /**
   * Claims deliveries that are due. One that is never settled becomes available again after a minute.
   *
   * @param room free slots per endpoint and in total
   * @param busy deliveries in flight by endpoint seq
   */
  claim(
    room: { perEndpoint: number; inAll: number },
    busy: ReadonlyMap<number, number>,
  ): Promise<ClaimedDelivery[]>;
  /**
   * Records an attempt's result and its consequence.
   *
   * @param chance from 0 to 1: the jitter of the next attempt
   */
  settle(
    delivery: ClaimedDelivery,
    attempt: Attempt,
    answer: WebhookAnswer,
    chance: number,
  ): Promise<{ isAbandoned: boolean }>;
  /**
   * Raises events that need no write: axles whose date has come within the policy's horizon, and the final state of
   * newly entered history. Deletes old deliveries.
   */
  raiseDateEvents(): Promise<void>;
}
