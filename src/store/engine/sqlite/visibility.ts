import { sql, type SQL, type SQLWrapper } from 'drizzle-orm';
import { fleetsSeen, type Caller } from '../../contract/caller.js';

/** The rule for which vehicles a caller may see, as a condition on a fleet column. */

/** Scopes of vehicles; each has its own statement, since another index answers it. */
export type Whose = 'all' | 'one-fleet' | 'fleets';

/** What a caller may see, narrowed to the requested fleet: which statement, and its parameter. */
export function seenBy(caller: Pick<Caller, 'fleets'>, asked: string | null) {
  const fleets = fleetsSeen(caller, asked);
  const isOne = fleets?.length === 1;
  const whose: Whose = fleets === null ? 'all' : isOne ? 'one-fleet' : 'fleets';
  return { whose, fleets: isOne ? fleets[0]! : JSON.stringify(fleets) };
}

/**
 * The rule for a prepared statement.
 *
 * @param fleets the value of {@link seenBy}, or the placeholder that it fills
 */
export function isSeen(column: SQLWrapper, whose: Whose, fleets: unknown): SQL | undefined {
  if (whose === 'all') return undefined;
  if (whose === 'one-fleet') return sql`${column} = ${fleets}`;
  return sql`${column} in (select value from json_each(${fleets}))`;
}

/** The rule for one caller. */
export function visibleTo(
  caller: Pick<Caller, 'fleets'>,
  column: SQLWrapper,
  asked: string | null = null,
): SQL | undefined {
  const { whose, fleets } = seenBy(caller, asked);
  return isSeen(column, whose, fleets);
}
