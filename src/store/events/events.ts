import { and, eq, sql } from 'drizzle-orm';
import { v7 as uuid } from 'uuid';
import type { Outlook } from '../../core/assessment/outlookShape.js';
import { toDay, toFullDate } from '../../core/calendar.js';
import { isBacklog, newsOf, standingIn, tellsOfReadings, type Cause } from '../../core/events/news.js';
import { axleDue, readingNews, type NamedVehicle } from '../../core/events/payloads.js';
import type { WebhookEvent } from '../../core/vocabulary/events.js';
import type { Axle } from '../../core/vocabulary/terms.js';
import type { Database } from '../engine/sqlite/connection.js';
import { inserter } from '../engine/sqlite/inserts.js';
import { dueReader } from '../reports/reports.js';
import {
  dueAxles,
  events,
  outlooks,
  untoldVehicles,
  vehicles,
  webhookDeliveries,
  webhookEndpoints,
} from '../engine/sqlite/schema.js';
import { selector } from '../engine/sqlite/selects.js';
import type { Settings } from '../settings/settings.js';
import type { DueAxle } from '../contract/reports.js';

type EndpointRow = typeof webhookEndpoints.$inferSelect;

/**
 * Asked before an outlook is written over. Null where nobody wants to be told; else to be called with what was written,
 * within the same transaction.
 */
export type NewsListener = (vehicleSeq: number) => ((after: Outlook, cause: Cause) => void) | null;

interface Parts {
  database: Database;
  clock: () => Date;
  today: () => string;
  settings: () => Settings;
}

/** An axle stays due until its chance has fallen below this share of the policy's, so that none flickers about it. */
const STAYS_DUE_SHARE = 0.5;

/** Writes what happened into the outbox; everything here is to be called within the transaction that made it happen. */
export function eventLog({ database, clock, today, settings }: Parts) {
  const listening = selector(database, webhookEndpoints, 'enabled = 1');
  const outlookOf = database
    .select({ body: outlooks.body })
    .from(outlooks)
    .where(eq(outlooks.vehicleSeq, sql.placeholder('vehicleSeq')))
    .prepare();
  const named = database
    .select({
      vehicleId: vehicles.id,
      externalId: vehicles.externalId,
      fleet: vehicles.fleet,
      model: vehicles.model,
    })
    .from(vehicles)
    .where(eq(vehicles.seq, sql.placeholder('vehicleSeq')))
    .prepare();
  const knownDue = database
    .select({ axle: dueAxles.axle })
    .from(dueAxles)
    .where(eq(dueAxles.vehicleSeq, sql.placeholder('vehicleSeq')))
    .prepare();
  const untold = database
    .select()
    .from(untoldVehicles)
    .where(eq(untoldVehicles.vehicleSeq, sql.placeholder('vehicleSeq')))
    .prepare();
  const insertUntold = inserter(database, untoldVehicles);
  const deleteUntold = database
    .delete(untoldVehicles)
    .where(eq(untoldVehicles.vehicleSeq, sql.placeholder('vehicleSeq')))
    .prepare();
  const readDue = dueReader(database);
  const insertDue = inserter(database, dueAxles);
  const deleteDue = database
    .delete(dueAxles)
    .where(
      and(eq(dueAxles.vehicleSeq, sql.placeholder('vehicleSeq')), eq(dueAxles.axle, sql.placeholder('axle'))),
    )
    .prepare();
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
   * Puts one event into the queues of endpoints; nothing where there are none.
   *
   * @param once what it may be told of no more than once
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
    // One that may be told of once only has been told of.
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
        (eventTypes === null || eventTypes.some((wanted) => wanted === type)) &&
        (fleets === null || (fleet !== null && fleets.includes(fleet))),
    );

  /** What is due under the policy on today's date, and what may stay so. */
  function dueNow(vehicleSeq: number | null) {
    const { withinDays, chance } = settings().dueSoon;
    const date = today();
    const horizon = toFullDate(toDay(date) + withinDays);
    const nearly = readDue({ today: date, horizon, chance: STAYS_DUE_SHARE * chance }, vehicleSeq);
    return { horizon, nearly, due: nearly.filter(({ item }) => item.chance >= chance) };
  }

  const noteDue = (vehicleSeq: number, axle: Axle): void =>
    void insertDue({ vehicleSeq, axle, since: clock().toISOString() });

  const tellDue = (item: DueAxle, horizon: string): void => {
    const event = axleDue({ ...item, horizon }, clock().toISOString());
    raise(event, wanting(event, item.fleet));
  };

  /**
   * Tells of a vehicle's axles that have become due, and forgets those that are due no more.
   *
   * @param telling false where what has become due is left for the next look at the calendar
   */
  function followDue(vehicleSeq: number, telling = true): void {
    const { horizon, nearly, due } = dueNow(vehicleSeq);
    const known = new Set(knownDue.all({ vehicleSeq }).map(({ axle }) => axle));
    for (const { item } of telling ? due : []) {
      if (known.has(item.axle)) continue;
      noteDue(vehicleSeq, item.axle);
      tellDue(item, horizon);
    }
    for (const axle of known) {
      if (!nearly.some(({ item }) => item.axle === axle)) deleteDue.run({ vehicleSeq, axle });
    }
  }

  /** Tells of limits and forecasts what stands now and did not before, history entered meanwhile included. */
  function tellReadings(vehicleSeq: number, before: Outlook | null, after: Outlook, cause: Cause): void {
    const entered = untold.get({ vehicleSeq });
    if (entered) deleteUntold.run({ vehicleSeq });
    const news = newsOf(entered?.before ?? standingIn(before), after, cause);
    if (news.length === 0) return;
    const vehicle: NamedVehicle = named.get({ vehicleSeq })!;
    for (const each of news) {
      const event = readingNews(vehicle, each, clock().toISOString());
      const once = each.type === 'reading.off_forecast' ? `${vehicle.vehicleId} ${each.key}` : null;
      raise(event, wanting(event, vehicle.fleet), once);
    }
  }

  function leaveForLater(vehicleSeq: number, before: Outlook | null): void {
    if (!untold.get({ vehicleSeq })) insertUntold({ vehicleSeq, before: standingIn(before) });
  }

  const listen: NewsListener = (vehicleSeq) => {
    if (!isListening()) return null;
    const before = outlookOf.get({ vehicleSeq })?.body ?? null;
    return (after, cause) => {
      const backlog = isBacklog(before, after, today());
      if (backlog) leaveForLater(vehicleSeq, before);
      else if (tellsOfReadings(cause)) tellReadings(vehicleSeq, before, after, cause);
      followDue(vehicleSeq, !backlog);
    };
  };

  return {
    listen,
    isListening,
    raise,

    /** Tells of one vehicle what is news without a write: what history left at its end, and axles that are due by now. */
    follow(vehicleSeq: number): void {
      const outlook = outlookOf.get({ vehicleSeq })?.body;
      if (outlook) tellReadings(vehicleSeq, outlook, outlook, 'import');
      // The record may have been merged into another, which is told of for itself.
      else deleteUntold.run({ vehicleSeq });
      followDue(vehicleSeq);
    },

    /** Vehicles whose history was entered, or with an axle that has become due or is due no more since last followed. */
    vehiclesToFollow(): number[] {
      const { nearly, due } = dueNow(null);
      const placeOf = (seq: number, axle: Axle): string => `${seq} ${axle}`;
      const rows = database.select().from(dueAxles).all();
      const known = new Set(rows.map(({ vehicleSeq, axle }) => placeOf(vehicleSeq, axle)));
      const stays = new Set(nearly.map(({ seq, item }) => placeOf(seq, item.axle)));
      const became = due.filter(({ seq, item }) => !known.has(placeOf(seq, item.axle)));
      const ceased = rows.filter(({ vehicleSeq, axle }) => !stays.has(placeOf(vehicleSeq, axle)));
      const entered = database.select().from(untoldVehicles).all();
      const seqs = [...became.map(({ seq }) => seq), ...[...ceased, ...entered].map((row) => row.vehicleSeq)];
      return [...new Set(seqs)];
    },

    /** Takes what is due now as known, when the first endpoint begins to listen: it is no news. */
    beginListening(): void {
      database.delete(untoldVehicles).run();
      database.delete(dueAxles).run();
      for (const { seq, item } of dueNow(null).due) noteDue(seq, item.axle);
    },
  };
}

export type EventLog = ReturnType<typeof eventLog>;
