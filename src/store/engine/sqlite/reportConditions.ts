import { and, count, gt, isNotNull, isNull, or, sql, type SQL } from 'drizzle-orm';
import type { Axle } from '../../../core/vocabulary/terms.js';
import type { Database } from './connection.js';
import { axleOutlooks } from './schema.js';
import { isSeen, seenBy, type Whose } from './visibility.js';
import type { Caller } from '../../contract/caller.js';

/** Which axles a report is about. */

/** What every report may be narrowed to. */
export interface Narrowing {
  today: string;
  fleet: string | null;
  axle?: Axle | null;
}

export const inService = (today: string | SQL): SQL | undefined =>
  or(isNull(axleOutlooks.outOfServiceDate), gt(axleOutlooks.outOfServiceDate, today));

/** What fills `isAsked`, and whose statement it is. */
export function askedOf(caller: Caller, { today, fleet, axle = null }: Narrowing) {
  const { whose, fleets } = seenBy(caller, fleet);
  return { whose, values: { today, axle, fleets } };
}

/** The narrowing as a condition of a prepared statement, but for being in service. */
export const isAskedOf = (whose: Whose): SQL | undefined =>
  and(
    isSeen(axleOutlooks.fleet, whose, sql.placeholder('fleets')),
    sql`${axleOutlooks.axle} = ifnull(${sql.placeholder('axle')}, ${axleOutlooks.axle})`,
  );

const TODAY = sql.placeholder('today');
/** In service without an end. */
export const STAYS: SQL = isNull(axleOutlooks.outOfServiceDate);
/** In service, but with a date to come on which it leaves. */
export const LEAVES: SQL = gt(axleOutlooks.outOfServiceDate, TODAY);

/** Makes what belongs to a shape once, as statements, which take longer to build and prepare than to run. */
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

/** Counts axles that have no projection. */
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
