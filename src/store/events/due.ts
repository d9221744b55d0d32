import { and, eq, sql } from 'drizzle-orm';
import { toDay, toFullDate } from '../../core/calendar.js';
import { axleDue } from '../../core/events/payloads.js';
import type { Axle } from '../../core/vocabulary/terms.js';
import type { DueAxle } from '../contract/reports.js';
import type { Database } from '../engine/sqlite/connection.js';
import { inserter } from '../engine/sqlite/inserts.js';
import { dueAxles } from '../engine/sqlite/schema.js';
import { dueReader } from '../reports/due.js';
import type { Settings } from '../settings/inForce.js';
import type { EventRaiser } from './raising.js';

export interface Parts {
  database: Database;
  clock: () => Date;
  today: () => string;
  settings: () => Settings;
}

/** An axle stays due until its chance falls below this share of the policy's, so that it does not flicker. */
const STAYS_DUE_SHARE = 0.5;

/** Tracks which axles are due and raises events for newly due ones; call within a transaction. */
export function dueFollower({ database, clock, today, settings }: Parts, { raise, wanting }: EventRaiser) {
  const knownDue = database
    .select({ axle: dueAxles.axle })
    .from(dueAxles)
    .where(eq(dueAxles.vehicleSeq, sql.placeholder('vehicleSeq')))
    .prepare();
  const readDue = dueReader(database);
  const insertDue = inserter(database, dueAxles);
  const deleteDue = database
    .delete(dueAxles)
    .where(
      and(eq(dueAxles.vehicleSeq, sql.placeholder('vehicleSeq')), eq(dueAxles.axle, sql.placeholder('axle'))),
    )
    .prepare();

  /** What is due under the policy on today's date, and what may remain due. */
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
   * Raises events for a vehicle's axles that have become due, and forgets those no longer due.
   *
   * @param telling false to leave newly due axles to the next daily check
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

  return {
    follow: followDue,

    /** Vehicles with an axle that has become due or stopped being due since the last check. */
    vehicles(): number[] {
      const { nearly, due } = dueNow(null);
      const placeOf = (seq: number, axle: Axle): string => `${seq} ${axle}`;
      const rows = database.select().from(dueAxles).all();
      const known = new Set(rows.map(({ vehicleSeq, axle }) => placeOf(vehicleSeq, axle)));
      const stays = new Set(nearly.map(({ seq, item }) => placeOf(seq, item.axle)));
      const became = due.filter(({ seq, item }) => !known.has(placeOf(seq, item.axle)));
      const ceased = rows.filter(({ vehicleSeq, axle }) => !stays.has(placeOf(vehicleSeq, axle)));
      return [...became.map(({ seq }) => seq), ...ceased.map(({ vehicleSeq }) => vehicleSeq)];
    },

    /** Marks what is due now as known, without raising events. */
    begin(): void {
      database.delete(dueAxles).run();
      for (const { seq, item } of dueNow(null).due) noteDue(seq, item.axle);
    },
  };
}
