import { eq, sql } from 'drizzle-orm';
import type { Outlook } from '../../core/assessment/outlookShape.js';
import { isBacklog, newsOf, standingIn, tellsOfReadings, type Cause } from '../../core/events/news.js';
import { readingNews, type NamedVehicle } from '../../core/events/payloads.js';
import { inserter } from '../engine/sqlite/inserts.js';
import { outlooks, untoldVehicles, vehicles } from '../engine/sqlite/schema.js';
import { dueFollower, type Parts } from './due.js';
import { eventRaiser } from './raising.js';

/**
 * Asked before an outlook is written over. Null where nobody wants to be told; else to be called with what was written,
 * within the same transaction.
 */
export type NewsListener = (vehicleSeq: number) => ((after: Outlook, cause: Cause) => void) | null;

/** Writes what happened into the outbox; everything here is to be called within the transaction that made it happen. */
export function eventLog(parts: Parts) {
  const { database, clock, today } = parts;
  const raiser = eventRaiser(database, clock);
  const { isListening, raise, wanting } = raiser;
  const due = dueFollower(parts, raiser);
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
      due.follow(vehicleSeq, !backlog);
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
      due.follow(vehicleSeq);
    },

    /** Vehicles whose history was entered, or with an axle that has become due or is due no more since last followed. */
    vehiclesToFollow(): number[] {
      const entered = database.select().from(untoldVehicles).all();
      return [...new Set([...due.vehicles(), ...entered.map(({ vehicleSeq }) => vehicleSeq)])];
    },

    /** Takes what is due now as known, when the first endpoint begins to listen: it is no news. */
    beginListening(): void {
      database.delete(untoldVehicles).run();
      due.begin();
    },
  };
}

export type EventLog = ReturnType<typeof eventLog>;
