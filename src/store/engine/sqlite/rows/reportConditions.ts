import { and, gt, isNull, or, sql, type SQL } from 'drizzle-orm';
import type { AxleFilter } from '../../contract/reports.js';
import { axleOutlooks } from '../schema.js';
import { isSeen, whoseOf, type Whose } from '../visibility.js';

/** Conditions that select a report's axles. */

export const inService = (today: string | SQL): SQL | undefined =>
  or(isNull(axleOutlooks.outOfServiceDate), gt(axleOutlooks.outOfServiceDate, today));

/** The parameters of `matchesQuestion`, and which statement to use. */
export function parametersOf({ fleets: wanted, today, axle }: AxleFilter) {
  const { whose, fleets } = whoseOf(wanted);
  return { whose, values: { today, axle, fleets } };
}

/** The filters as a condition of a prepared statement, except for being in service. */
export const matchesQuestion = (whose: Whose): SQL | undefined =>
  and(
    isSeen(axleOutlooks.fleet, whose, sql.placeholder('fleets')),
    sql`${axleOutlooks.axle} = ifnull(${sql.placeholder('axle')}, ${axleOutlooks.axle})`,
  );

export const TODAY = sql.placeholder('today');
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
