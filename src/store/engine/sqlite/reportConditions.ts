import { and, count, gt, isNotNull, isNull, or, sql, type SQL } from 'drizzle-orm';
import type { Axle } from '../../../core/vocabulary/terms.js';
import type { Database } from './connection.js';
import { axleOutlooks } from './schema.js';
import { isSeen, seenBy, type Whose } from './visibility.js';
import type { Caller } from '../../contract/caller.js';

/** Conditions that select a report's axles. */

/** Filters common to all reports. */
export interface Narrowing {
  today: string;
  fleet: string | null;
  axle?: Axle | null;
}

export const inService = (today: string | SQL): SQL | undefined =>
  or(isNull(axleOutlooks.outOfServiceDate), gt(axleOutlooks.outOfServiceDate, today));

/** The parameters of `isAsked`, and which statement to use. */
export function askedOf(caller: Caller, { today, fleet, axle = null }: Narrowing) {
  const { whose, fleets } = seenBy(caller, fleet);
  return { whose, values: { today, axle, fleets } };
}

/** The filters as a condition of a prepared statement, except for being in service. */
export const isAskedOf = (whose: Whose): SQL | undefined =>
  and(
    isSeen(axleOutlooks.fleet, whose, sql.placeholder('fleets')),
    sql`${axleOutlooks.axle} = ifnull(${sql.placeholder('axle')}, ${axleOutlooks.axle})`,
  );

const TODAY = sql.placeholder('today');
/** In service without an end date. */
export const STAYS: SQL = isNull(axleOutlooks.outOfServiceDate);
/** In service, with an end date in the future. */
export const LEAVES: SQL = gt(axleOutlooks.outOfServiceDate, TODAY);

/** Builds and prepares statements once per shape, since that takes longer than running them. */
export function once<Shape extends (string | null)[], Made>(
  make: (...shape: Shape) => Made,
): (...shape: Shape) => Made {
  const made = new Map<string, Made>();
  return (...shape) => {
    const name = shape.join(' ');
    const known = made.get(name) ?? make(...shape);
    made.set(name, known);
    return known;
  };
}

/** Counts axles without a forecast. */
export function unassessedCounter(database: Database): (caller: Caller, query: Narrowing) => number {
  const statementFor = once((whose: Whose) =>
    database
      .select({ total: count() })
      .from(axleOutlooks)
      .where(and(isNotNull(axleOutlooks.unassessed), isAskedOf(whose), inService(sql`${TODAY}`)))
      .prepare(),
  );
  return (caller, query) => {
    const { whose, values } = askedOf(caller, query);
    return statementFor(whose).get(values)!.total;
  };
}
