import { eq, sql } from 'drizzle-orm';
import type { Outlook } from '../../core/assessment/outlookShape.js';
import { isBacklog, newsOf, standingIn, tellsOfReadings, type Cause } from '../../core/events/news.js';
import { readingNews, type NamedVehicle } from '../../core/events/payloads.js';
import { inserter } from '../engine/sqlite/inserts.js';
import { outlooks, untoldVehicles, vehicles } from '../engine/sqlite/schema.js';
import { dueFollower, type Parts } from './due.js';
import { eventRaiser } from './raising.js';

/**
 * Called before an outlook is overwritten. Returns null if nobody listens; otherwise a function to call with the new
 * outlook within the same transaction.
 */
export type NewsListener = (vehicleSeq: number) => ((after: Outlook, cause: Cause) => void) | null;

/** Writes events to the outbox; call everything here within the transaction that caused the event. */
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

  /**
   * Raises events for limits and forecasts that are news since the previous outlook, including history entered
   * meanwhile.
   */
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

    /** Raises one vehicle's events that need no write: the final state of entered history, and axles now due. */
    follow(vehicleSeq: number): void {
      const outlook = outlookOf.get({ vehicleSeq })?.body;
      if (outlook) tellReadings(vehicleSeq, outlook, outlook, 'import');
      // The record may have been merged into another, which raises its own events.
      else deleteUntold.run({ vehicleSeq });
      due.follow(vehicleSeq);
    },

    /**
     * Vehicles whose history was entered, or with an axle that has become due or stopped being due since the last
     * check.
     */
    vehiclesToFollow(): number[] {
      const entered = database.select().from(untoldVehicles).all();
      return [...new Set([...due.vehicles(), ...entered.map(({ vehicleSeq }) => vehicleSeq)])];
    },

    /** When the first endpoint is added, marks what is due as known: it is not news. */
    beginListening(): void {
      database.delete(untoldVehicles).run();
      due.begin();
    },
  };
}

export type EventLog = ReturnType<typeof eventLog>;
