import { toDay, toFullDate } from '../../core/calendar.js';
import { OPERATOR } from '../contract/caller.js';
import type { DueAxle, DueSoonQuery } from '../contract/reports.js';
import type { Database } from '../engine/sqlite/connection.js';
import { daysBelow, dueBy, dueRowsOf, placeOf } from '../engine/sqlite/forecastStatements.js';
import { askedOf } from '../engine/sqlite/reportConditions.js';
import { partOf, toDueAxle, type Horizon } from './axles.js';

/** Latest possible visit date, in days from today: today may be the date at UTC−12, and the visit at UTC+14. */
const LATEST_VISIT_DAYS = 2;

/** Date and chance parameters of the forecast statements. */
export function datesOf({ today, horizon, chance }: Horizon & Pick<DueSoonQuery, 'chance'>) {
  const latestVisit = toFullDate(toDay(today) + LATEST_VISIT_DAYS);
  return {
    today,
    horizon,
    latest: horizon > latestVisit ? horizon : latestVisit,
    ...daysBelow(chance),
  };
}

/**
 * Reads the axles whose chance of reaching their limit by a horizon is at least the given one, of one vehicle or all.
 */
export function dueReader(database: Database) {
  const rows = dueRowsOf(database);
  return (
    question: Pick<DueSoonQuery, 'today' | 'horizon' | 'chance'>,
    vehicleSeq: number | null,
  ): { seq: number; item: DueAxle }[] => {
    const query = { ...question, fleet: null, axle: null };
    const { values } = askedOf(OPERATOR, query);
    const statementFor = vehicleSeq === null ? rows.all : rows.ofVehicle;
    return statementFor(dueBy(query.chance))
      .all({ ...values, ...datesOf(query), ...placeOf(null), vehicleSeq })
      .flatMap((row) => {
        const due = partOf(row, query);
        return due ? [{ seq: row.seq, item: toDueAxle(row, query, due).item }] : [];
      });
  };
}
