import { sql, type SQL, type SQLWrapper } from 'drizzle-orm';
import { fleetsSeen, type Caller } from '../../contract/caller.js';

/** The one rule on which vehicles a caller may see, as a condition on a column that holds their fleet. */

/** Whose vehicles: each is a statement of its own, since another index answers it. */
export type Whose = 'all' | 'one-fleet' | 'fleets';

/** What a caller may see, narrowed to the fleet asked for: which statement, and the value that it takes. */
export function seenBy(caller: Pick<Caller, 'fleets'>, asked: string | null) {
  const fleets = fleetsSeen(caller, asked);
  const isOne = fleets?.length === 1;
  const whose: Whose = fleets === null ? 'all' : isOne ? 'one-fleet' : 'fleets';
  return { whose, fleets: isOne ? fleets[0]! : JSON.stringify(fleets) };
}

/**
 * The rule, for a statement that is prepared once.
 *
 * @param fleets the value of {@link seenBy}, or the placeholder that it fills
 */
export function isSeen(column: SQLWrapper, whose: Whose, fleets: unknown): SQL | undefined {
  if (whose === 'all') return undefined;
  if (whose === 'one-fleet') return sql`${column} = ${fleets}`;
  return sql`${column} in (select value from json_each(${fleets}))`;
}

/** The rule, for one caller. */
export function visibleTo(
  caller: Pick<Caller, 'fleets'>,
  column: SQLWrapper,
  asked: string | null = null,
): SQL | undefined {
  const { whose, fleets } = seenBy(caller, asked);
  return isSeen(column, whose, fleets);
}
