import type { Attempt, WebhookEvent } from '../../../core/vocabulary/events.js';
import type { Axle, DeliveryState, EventType, NewsType } from '../../../core/vocabulary/terms.js';
import type { DeliveryFilter } from '../../contract/webhooks.js';

/** Where events are posted. */
export interface EndpointRow {
  seq: number;
  id: string;
  version: number;
  url: string;
  /** Null means all. */
  eventTypes: NewsType[] | null;
  /** Null means every vehicle. */
  fleets: string[] | null;
  enabled: boolean;
  disabledBecause: string | null;
  /** `whsec_` and the key in base64. */
  secret: string;
  previousSecret: string | null;
  previousSecretUntil: string | null;
  /** The receiver asked for no requests until this instant. */
  pausedUntil: string | null;
  createdAt: string;
  updatedAt: string;
}

export type NewEndpointRow = Omit<
  EndpointRow,
  'seq' | 'disabledBecause' | 'previousSecret' | 'previousSecretUntil' | 'pausedUntil'
>;

export interface EndpointRows {
  byId(id: string): Promise<EndpointRow | null>;
  /** Earliest first. */
  all(): Promise<EndpointRow[]>;
  enabled(): Promise<EndpointRow[]>;
  insert(row: NewEndpointRow): Promise<EndpointRow>;
  update(seq: number, changes: Partial<Omit<EndpointRow, 'seq' | 'id'>>): Promise<EndpointRow>;
  /** Also removes its deliveries, and the events that have no delivery left. */
  remove(seq: number): Promise<void>;
}

/** An event, written in the transaction that caused it. */
export interface EventRow {
  seq: number;
  /** The webhook-id. */
  id: string;
  type: EventType;
  /** Key under which the event is raised only once; null if its state may recur. */
  once: string | null;
  /** The exact text that is signed and sent. */
  body: WebhookEvent;
  createdAt: string;
}

export interface EventRows {
  /** @returns its number; null if an event with the same `once` was already raised */
  insert(row: Omit<EventRow, 'seq'>): Promise<number | null>;
}

/** One event for one endpoint, and its delivery status. */
export interface DeliveryRow {
  seq: number;
  id: string;
  version: number;
  eventSeq: number;
  endpointSeq: number;
  status: DeliveryState;
  /** Attempts since it was last queued. */
  tries: number;
  attempts: Attempt[];
  /** If pending: when to try it, or, while in flight, when to consider the attempt lost. */
  nextAttemptAt: string | null;
  deliveredAt: string | null;
  createdAt: string;
}

export interface DeliveryOfEvent {
  delivery: DeliveryRow;
  event: EventRow;
  endpointId: string;
}

/** A delivery that may be sent now. */
export interface WaitingDelivery {
  seq: number;
  tries: number;
  webhookId: string;
  /** The stored text, so that every attempt sends the same bytes. */
  body: string;
}

export interface DeliveryRows {
  byId(id: string): Promise<DeliveryOfEvent | null>;
  /**
   * Latest first.
   *
   * @param before the number of the last delivery of the previous page; null for the first page
   */
  list(filter: DeliveryFilter, before: number | null, limit: number): Promise<DeliveryOfEvent[]>;
  insert(rows: readonly Omit<DeliveryRow, 'seq' | 'deliveredAt'>[]): Promise<void>;
  /** Deliveries of an endpoint that are due, the most overdue first. */
  waiting(endpointSeq: number, now: string, limit: number): Promise<WaitingDelivery[]>;
  /** Postpones deliveries until an instant. */
  defer(seqs: readonly number[], until: string): Promise<void>;
  /** A delivery that is still pending after the given number of tries. */
  pending(seq: number, tries: number): Promise<DeliveryRow | null>;
  update(seq: number, changes: Partial<Omit<DeliveryRow, 'seq' | 'id'>>): Promise<void>;
  giveUpAll(endpointSeq: number): Promise<void>;
  count(status: 'pending' | 'given-up'): Promise<number>;
  /** Also removes the events that have no delivery left. */
  removeBefore(createdAt: string): Promise<void>;
}

/** An axle known to be due: an event was raised for it, or it was due before any endpoint existed. */
export interface DueAxleRow {
  vehicleSeq: number;
  axle: Axle;
  since: string;
}

export interface DueAxleRows {
  all(): Promise<DueAxleRow[]>;
  ofVehicle(vehicleSeq: number): Promise<Axle[]>;
  insert(rows: readonly DueAxleRow[]): Promise<void>;
  remove(vehicleSeq: number, axle: Axle): Promise<void>;
  clear(): Promise<void>;
}

/** Vehicles whose history is being entered: the final state is reported at the next daily check. */
export interface UntoldRows {
  all(): Promise<number[]>;
  /** The vehicle's state before that, which is not news; null if its history is not being entered. */
  find(vehicleSeq: number): Promise<string[] | null>;
  insert(vehicleSeq: number, before: string[]): Promise<void>;
  remove(vehicleSeq: number): Promise<void>;
  clear(): Promise<void>;
}
