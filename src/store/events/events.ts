import type { Outlook } from '../../core/assessment/outlookShape.js';
import { isBacklog, newsOf, standingIn, tellsOfReadings, type Cause } from '../../core/events/news.js';
import { readingNews, type NamedVehicle } from '../../core/events/payloads.js';
import { required } from '../../core/items.js';
import { dueFollower, vehiclesWithNews, type Parts, type ReadingParts } from './due.js';
import { eventRaiser, isListening } from './raising.js';

/**
 * Called before an outlook is overwritten. Resolves to null if nobody listens; otherwise to a function to call with the
 * new outlook within the same transaction.
 */
export type NewsListener = (
  vehicleSeq: number,
) => Promise<((after: Outlook, cause: Cause) => Promise<void>) | null>;

/** Finds vehicles with events that no write raises. */
export function eventReader(parts: ReadingParts) {
  return {
    isListening: (): Promise<boolean> => isListening(parts.rows),

    /**
     * Vehicles whose history was entered, or with an axle that has become due or stopped being due since the last
     * check.
     */
    async vehiclesToFollow(): Promise<number[]> {
      return [...new Set([...(await vehiclesWithNews(parts)), ...(await parts.rows.untold.all())])];
    },
  };
}

export type EventReader = ReturnType<typeof eventReader>;

/** Writes events to the outbox, within the transaction that caused them. */
export function eventLog(parts: Parts) {
  const { rows, clock, today } = parts;
  const { outlooks, untold } = rows;
  const raiser = eventRaiser(rows, clock);
  const { raise, wanting } = raiser;
  const due = dueFollower(parts, raiser);

  async function named(vehicleSeq: number): Promise<NamedVehicle> {
    const {
      id: vehicleId,
      externalId,
      fleet,
      model,
    } = required(await rows.vehicles.bySeq(vehicleSeq), 'vehicle');
    return { vehicleId, externalId, fleet, model };
  }

  /**
   * Raises events for limits and forecasts that are news since the previous outlook, including history entered
   * meanwhile.
   */
  async function raiseReadings(
    vehicleSeq: number,
    before: Outlook | null,
    after: Outlook,
    cause: Cause,
  ): Promise<void> {
    const entered = await untold.find(vehicleSeq);
    if (entered) await untold.remove(vehicleSeq);
    const news = newsOf(entered ?? standingIn(before), after, cause);
    if (news.length === 0) return;
    const vehicle = await named(vehicleSeq);
    for (const each of news) {
      const event = readingNews(vehicle, each, clock().toISOString());
      const once = each.type === 'reading.off_forecast' ? `${vehicle.vehicleId} ${each.key}` : null;
      await raise(event, await wanting(event, vehicle.fleet), once);
    }
  }

  async function deferNews(vehicleSeq: number, before: Outlook | null): Promise<void> {
    if (!(await untold.find(vehicleSeq))) await untold.insert(vehicleSeq, standingIn(before));
  }

  const listen: NewsListener = async (vehicleSeq) => {
    if (!(await isListening(rows))) return null;
    const before = await outlooks.find(vehicleSeq);
    return async (after, cause) => {
      const backlog = isBacklog(before, after, today());
      if (backlog) await deferNews(vehicleSeq, before);
      else if (tellsOfReadings(cause)) await raiseReadings(vehicleSeq, before, after, cause);
      await due.follow(vehicleSeq, !backlog);
    };
  };

  return {
    ...eventReader(parts),
    listen,
    raise,

    /** Raises one vehicle's events that need no write: the final state of entered history, and axles now due. */
    async follow(vehicleSeq: number): Promise<void> {
      const outlook = await outlooks.find(vehicleSeq);
      if (outlook) await raiseReadings(vehicleSeq, outlook, outlook, 'import');
      // The record may have been merged into another, which raises its own events.
      else await untold.remove(vehicleSeq);
      await due.follow(vehicleSeq);
    },

    /** When the first endpoint is added, marks axles that are already due as known, so that they raise no event. */
    async beginListening(): Promise<void> {
      await untold.clear();
      await due.begin();
    },
  };
}

export type EventLog = ReturnType<typeof eventLog>;
