import { and, count, gt, inArray, isNotNull, isNull, or, sql, type SQL } from 'drizzle-orm';
import type { Axle } from '../../../core/vocabulary/terms.js';
import type { Database } from './database.js';
import { axleOutlooks } from './schema.js';
import type { Scope } from '../../contract/caller.js';

/** Which axles a report is about. */

/** What every report may be narrowed to. */
export interface Narrowing {
  today: string;
  fleet: string | null;
  axle?: Axle | null;
}

/** Whose vehicles: each has statements of its own, since another index answers it. */
export type Whose = 'all' | 'one-fleet' | 'fleets';

/** The fleets of the scope, narrowed to the one asked for; null is every vehicle. */
function fleetsOf({ fleets }: Scope, asked: string | null): readonly string[] | null {
  if (asked === null) return fleets;
  return fleets === null || fleets.includes(asked) ? [asked] : [];
}

export const inFleet = (scope: Scope, asked: string | null): SQL | undefined => {
  const fleets = fleetsOf(scope, asked);
  return fleets === null ? undefined : inArray(axleOutlooks.fleet, [...fleets]);
};

export const inService = (today: string | SQL): SQL | undefined =>
  or(isNull(axleOutlooks.outOfServiceDate), gt(axleOutlooks.outOfServiceDate, today));

/** What fills `isAsked`, and whose statement it is. */
export function askedOf(scope: Scope, { today, fleet, axle = null }: Narrowing) {
  const fleets = fleetsOf(scope, fleet);
  const isOne = fleets?.length === 1;
  const whose: Whose = fleets === null ? 'all' : isOne ? 'one-fleet' : 'fleets';
  return { whose, values: { today, axle, fleets: isOne ? fleets[0] : JSON.stringify(fleets) } };
}

const FLEETS = sql.placeholder('fleets');
const IN_FLEETS: Record<Whose, SQL | undefined> = {
  all: undefined,
  'one-fleet': sql`${axleOutlooks.fleet} = ${FLEETS}`,
  fleets: sql`${axleOutlooks.fleet} in (select value from json_each(${FLEETS}))`,
};

/** The narrowing as a condition of a prepared statement, but for being in service. */
export const isAskedOf = (whose: Whose): SQL | undefined =>
  and(IN_FLEETS[whose], sql`${axleOutlooks.axle} = ifnull(${sql.placeholder('axle')}, ${axleOutlooks.axle})`);

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
export function unassessedCounter(database: Database): (scope: Scope, query: Narrowing) => number {
  const statementFor = once((whose: Whose) =>
    database
      .select({ total: count() })
      .from(axleOutlooks)
      .where(and(isNotNull(axleOutlooks.unassessed), isAskedOf(whose), inService(sql`${TODAY}`)))
      .prepare(),
  );
  return (scope, query) => {
    const { whose, values } = askedOf(scope, query);
    return statementFor(whose).get(values)!.total;
  };
}
