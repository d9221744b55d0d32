import { toDay, toFullDate } from '../../core/calendar.js';
import { axleDue } from '../../core/events/payloads.js';
import type { Axle } from '../../core/vocabulary/terms.js';
import type { DueAxle } from '../contract/reports.js';
import type { Components } from '../engine/contract/engine.js';
import { dueReader } from '../reports/due.js';
import type { Settings } from '../settings/inForce.js';
import type { EventRaiser } from './raising.js';

export interface Parts {
  rows: Components;
  clock: () => Date;
  today: () => string;
  settings: () => Promise<Settings>;
}

/** An axle stays due until its chance falls below this share of the policy's, so that it does not flicker. */
const STAYS_DUE_SHARE = 0.5;

/** Tracks which axles are due and raises events for newly due ones, within a transaction. */
export function dueFollower({ rows, clock, today, settings }: Parts, { raise, wanting }: EventRaiser) {
  const { dueAxles } = rows;
  const readDue = dueReader(rows);

  /** What is due under the policy on today's date, and what may remain due. */
  async function dueNow(vehicleSeq: number | null) {
    const { withinDays, chance } = (await settings()).dueSoon;
    const date = today();
    const horizon = toFullDate(toDay(date) + withinDays);
    const nearly = await readDue({ today: date, horizon, chance: STAYS_DUE_SHARE * chance }, vehicleSeq);
    return { horizon, nearly, due: nearly.filter(({ item }) => item.chance >= chance) };
  }

  const noteDue = (due: readonly { seq: number; item: DueAxle }[]): Promise<void> => {
    const since = clock().toISOString();
    return dueAxles.insert(due.map(({ seq, item }) => ({ vehicleSeq: seq, axle: item.axle, since })));
  };

  async function tellDue(item: DueAxle, horizon: string): Promise<void> {
    const event = axleDue({ ...item, horizon }, clock().toISOString());
    await raise(event, await wanting(event, item.fleet));
  }

  return {
    /**
     * Raises events for a vehicle's axles that have become due, and forgets those no longer due.
     *
     * @param telling false to leave newly due axles to the next daily check
     */
    async follow(vehicleSeq: number, telling = true): Promise<void> {
      const { horizon, nearly, due } = await dueNow(vehicleSeq);
      const known = new Set(await dueAxles.ofVehicle(vehicleSeq));
      const fresh = telling ? due.filter(({ item }) => !known.has(item.axle)) : [];
      await noteDue(fresh);
      for (const { item } of fresh) await tellDue(item, horizon);
      for (const axle of known) {
        if (!nearly.some(({ item }) => item.axle === axle)) await dueAxles.remove(vehicleSeq, axle);
      }
    },

    /** Vehicles with an axle that has become due or stopped being due since the last check. */
    async vehicles(): Promise<number[]> {
      const { nearly, due } = await dueNow(null);
      const placeOf = (seq: number, axle: Axle): string => `${seq} ${axle}`;
      const noted = await dueAxles.all();
      const known = new Set(noted.map(({ vehicleSeq, axle }) => placeOf(vehicleSeq, axle)));
      const stays = new Set(nearly.map(({ seq, item }) => placeOf(seq, item.axle)));
      const became = due.filter(({ seq, item }) => !known.has(placeOf(seq, item.axle)));
      const ceased = noted.filter(({ vehicleSeq, axle }) => !stays.has(placeOf(vehicleSeq, axle)));
      return [...became.map(({ seq }) => seq), ...ceased.map(({ vehicleSeq }) => vehicleSeq)];
    },

    /** Marks what is due now as known, without raising events. */
    async begin(): Promise<void> {
      await dueAxles.clear();
      await noteDue((await dueNow(null)).due);
    },
  };
}
