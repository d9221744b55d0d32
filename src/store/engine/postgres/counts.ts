import { entryOf } from '../../../core/items.js';
import type { SharedCounts } from '../../contract/counts.js';
import type { Query } from './connections.js';

/** Adds in the order of the names, so that two servers never wait for each other. */
const ADD = `
  insert into shared_counts as known (name, period, ends_at, count)
  select name, period, ends_at, by
    from unnest($1::text[], $2::bigint[], $3::bigint[], $4::int[]) added (name, period, ends_at, by) order by name
  on conflict (name) do update set
    count = case when known.period = excluded.period then known.count else 0 end + excluded.count,
    period = excluded.period, ends_at = excluded.ends_at
  returning name, count`;

const FORGET = 'delete from shared_counts where ends_at < $1';

/** How often counts of periods that have ended are deleted. */
const FORGET_EVERY_MS = 60_000;

/**
 * Counts in an unlogged table, which a crash of the database empties.
 *
 * @param query runs a single statement
 */
export function sharedCounts(query: Query): SharedCounts {
  let forgotAt = 0;
  return {
    async add(additions) {
      const rows = await query(ADD, [
        additions.map(({ name }) => name),
        additions.map(({ period }) => period),
        additions.map(({ endsAt }) => endsAt),
        additions.map(({ by }) => by),
      ]);
      const now = Date.now();
      if (now - forgotAt > FORGET_EVERY_MS) {
        forgotAt = now;
        await query(FORGET, [now]);
      }
      const counts = new Map(rows as [string, number][]);
      return additions.map(({ name }) => entryOf(counts, name));
    },
  };
}
