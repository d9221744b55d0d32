import { toDay, toFullDate } from '../../core/calendar.js';
import { fleetsSeen, OPERATOR, type Caller } from '../contract/caller.js';
import type { DueAxle, DueSoonQuery } from '../contract/reports.js';
import type { ReadingComponents } from '../engine/contract/engine.js';
import type { GroupedDueQuestion } from '../engine/contract/reports.js';
import { partOf, toDueAxle } from './axles.js';

/** Latest possible visit date, in days from today: today may be the date at UTC−12, and the visit at UTC+14. */
const MAX_VISIT_DAYS = 2;

/** A report's query as a question to the engine. */
export const questionOf = (
  caller: Pick<Caller, 'fleets'>,
  { today, horizon, chance, fleet, axle, groupBy }: DueSoonQuery,
): GroupedDueQuestion => ({
  fleets: fleetsSeen(caller, fleet),
  today,
  axle,
  horizon,
  chance,
  latestVisit: toFullDate(toDay(today) + MAX_VISIT_DAYS),
  groupBy: groupBy ?? null,
});

/**
 * Reads the axles whose chance of reaching their limit by a horizon is at least the given one, of one vehicle or all.
 */
export async function dueAxles(
  { reports }: Pick<ReadingComponents, 'reports'>,
  dates: Pick<DueSoonQuery, 'today' | 'horizon' | 'chance'>,
  vehicleSeq: number | null,
): Promise<{ seq: number; item: DueAxle }[]> {
  const query = { ...dates, fleet: null, axle: null };
  const rows = await reports.perhapsDue(questionOf(OPERATOR, query), vehicleSeq);
  return rows.flatMap((row) => {
    const due = partOf(row, query);
    return due ? [{ seq: row.seq, item: toDueAxle(row, query, due).item }] : [];
  });
}
