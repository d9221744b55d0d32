import { sql, type SQL, type SQLWrapper } from 'drizzle-orm';
import { itemAt } from '../../../core/items.js';

/** Conditions on a fleet column. */

/** Scopes of vehicles; each has its own statement, since each uses a different index. */
export type Whose = 'all' | 'one-fleet' | 'fleets';

/** Which statement selects the vehicles of some fleets, and its parameter; null fleets select all vehicles. */
export function whoseOf(fleets: readonly string[] | null) {
  const isOne = fleets?.length === 1;
  const whose: Whose = fleets === null ? 'all' : isOne ? 'one-fleet' : 'fleets';
  return { whose, fleets: isOne ? itemAt(fleets, 0) : JSON.stringify(fleets) };
}

/**
 * The condition of a prepared statement.
 *
 * @param fleets the value of {@link whoseOf}, or the placeholder that it fills
 */
export function isSeen(column: SQLWrapper, whose: Whose, fleets: unknown): SQL | undefined {
  if (whose === 'all') return undefined;
  if (whose === 'one-fleet') return sql`${column} = ${fleets}`;
  return sql`${column} in (select value from json_each(${fleets}))`;
}

/** The condition for some fleets; null for all vehicles. */
export function isAmong(column: SQLWrapper, wanted: readonly string[] | null): SQL | undefined {
  const { whose, fleets } = whoseOf(wanted);
  return isSeen(column, whose, fleets);
}
