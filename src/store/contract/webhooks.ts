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

/** Where events are posted, and what became of each. For owners alone. */
export interface WebhookStore {
  /** @throws Refusal of kind conflict where there are as many as there may be */
  create(
    caller: Caller,
    body: EndpointBody,
    keep: Keep<EndpointWithSecret> | null,
  ): Promise<EndpointWithSecret>;
  get(id: string): Promise<Endpoint>;
  /** All there are, earliest first. */
  list(): Promise<Endpoint[]>;
  /** @param change makes the new body of the standing one, or throws where that is not one */
  change(
    caller: Caller,
    id: string,
    expected: Expected,
    change: (body: EndpointBody) => EndpointBody,
  ): Promise<Endpoint>;
  /** With its secret and its deliveries. */
  remove(caller: Caller, id: string): Promise<void>;
  /** Makes a new secret; the one until now signs beside it for so long. */
  rotateSecret(
    caller: Caller,
    id: string,
    overlapHours: number,
    keep: Keep<EndpointWithSecret> | null,
  ): Promise<EndpointWithSecret>;
  /** Puts a test into the endpoint's queue. */
  test(caller: Caller, id: string, keep: Keep<Delivery> | null): Promise<Delivery>;
  delivery(id: string): Promise<Delivery>;
  /** Latest first. */
  deliveries(filter: DeliveryFilter, page: Page): Promise<Paged<Delivery>>;
  /** Puts a delivery into the queue again, at the head of the schedule, under the same webhook-id. */
  replay(caller: Caller, id: string, keep: Keep<Delivery> | null): Promise<Delivery>;
}

/** One delivery taken out of the queue to be sent. */
export interface ClaimedDelivery {
  seq: number;
  endpointSeq: number;
  endpointId: string;
  url: string;
  webhookId: string;
  /** The text to send, byte for byte. */
  body: string;
  /** Those that sign, the present one first. */
  secrets: string[];
  /** Attempts made before this one. */
  tries: number;
}

/** What the process that delivers asks of the store. Several may share a database: none gets what another has taken. */
export interface OutboxStore {
  /**
   * Takes deliveries whose time has come. What is never settled comes back after a minute.
   *
   * @param room how many there is room for, of one endpoint and in all
   * @param busy how many of each endpoint are being sent, by its seq
   */
  claim(
    room: { perEndpoint: number; inAll: number },
    busy: ReadonlyMap<number, number>,
  ): Promise<ClaimedDelivery[]>;
  /**
   * Writes what became of an attempt and what follows from it.
   *
   * @param chance from 0 to 1: where within the jitter a next attempt falls
   */
  settle(
    delivery: ClaimedDelivery,
    attempt: Attempt,
    answer: WebhookAnswer,
    chance: number,
  ): Promise<{ isAbandoned: boolean }>;
  /**
   * Raises what is news without a write: axles whose date has come nearer than the policy's horizon, and what stands
   * at the end of history that was entered. Forgets deliveries that were done long ago.
   */
  lookAtCalendar(): Promise<void>;
}
