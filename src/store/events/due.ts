import { toDay, toFullDate } from '../../core/calendar.js';
import { axleDue } from '../../core/events/payloads.js';
import type { Axle } from '../../core/vocabulary/terms.js';
import type { DueAxle } from '../contract/reports.js';
import type { Components, ReadingComponents } from '../engine/contract/engine.js';
import { dueAxles } from '../reports/due.js';
import type { Settings } from '../settings/inForce.js';
import type { EventRaiser } from './raising.js';

export interface ReadingParts {
  rows: ReadingComponents;
  today: () => string;
  settings: () => Promise<Settings>;
}

export interface Parts extends ReadingParts {
  rows: Components;
  clock: () => Date;
}

/** An axle stays due until its chance falls below this share of the policy's, so that it does not flicker. */
const STAYS_DUE_SHARE = 0.5;

/** The axles due today under the policy, and those that may stay due. */
async function dueNow({ rows, today, settings }: ReadingParts, vehicleSeq: number | null) {
  const { withinDays, chance } = (await settings()).dueSoon;
  const date = today();
  const horizon = toFullDate(toDay(date) + withinDays);
  const asked = { today: date, horizon, chance: STAYS_DUE_SHARE * chance };
  const nearly = await dueAxles(rows, asked, vehicleSeq);
  return { horizon, nearly, due: nearly.filter(({ item }) => item.chance >= chance) };
}

/** Vehicles with an axle that has become due or stopped being due since the last check. */
export async function vehiclesWithNews(parts: ReadingParts): Promise<number[]> {
  const { nearly, due } = await dueNow(parts, null);
  const placeOf = (seq: number, axle: Axle): string => `${seq} ${axle}`;
  const noted = await parts.rows.dueAxles.all();
  const known = new Set(noted.map(({ vehicleSeq, axle }) => placeOf(vehicleSeq, axle)));
  const stays = new Set(nearly.map(({ seq, item }) => placeOf(seq, item.axle)));
  const became = due.filter(({ seq, item }) => !known.has(placeOf(seq, item.axle)));
  const ceased = noted.filter(({ vehicleSeq, axle }) => !stays.has(placeOf(vehicleSeq, axle)));
  return [...became.map(({ seq }) => seq), ...ceased.map(({ vehicleSeq }) => vehicleSeq)];
}

/** Tracks which axles are due and raises events for newly due ones, within a transaction. */
export function dueFollower(parts: Parts, { raise, wanting }: EventRaiser) {
  const { rows, clock } = parts;

  const noteDue = (due: readonly { seq: number; item: DueAxle }[]): Promise<void> => {
    const since = clock().toISOString();
    return rows.dueAxles.insert(due.map(({ seq, item }) => ({ vehicleSeq: seq, axle: item.axle, since })));
  };

  async function raiseDue(item: DueAxle, horizon: string): Promise<void> {
    const event = axleDue({ ...item, horizon }, clock().toISOString());
    await raise(event, await wanting(event, item.fleet));
  }

  return {
    /**
     * Raises events for a vehicle's axles that have become due, and forgets those no longer due.
     *
     * @param raisesNew false to leave newly due axles to the next daily check
     */
    async follow(vehicleSeq: number, raisesNew = true): Promise<void> {
      const { horizon, nearly, due } = await dueNow(parts, vehicleSeq);
      const known = new Set(await rows.dueAxles.ofVehicle(vehicleSeq));
      const fresh = raisesNew ? due.filter(({ item }) => !known.has(item.axle)) : [];
      await noteDue(fresh);
      for (const { item } of fresh) await raiseDue(item, horizon);
      for (const axle of known) {
        if (!nearly.some(({ item }) => item.axle === axle)) await rows.dueAxles.remove(vehicleSeq, axle);
      }
    },

    /** Marks the axles that are due now as known, without raising events. */
    async begin(): Promise<void> {
      await rows.dueAxles.clear();
      await noteDue((await dueNow(parts, null)).due);
    },
  };
}
