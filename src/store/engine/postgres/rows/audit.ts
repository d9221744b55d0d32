import { and, asc, gte, lt, sql } from 'drizzle-orm';
import { itemAt } from '../../../../core/items.js';
import type { AuditRows } from '../../contract/audit.js';
import type { Database } from '../connections.js';
import { audit } from '../schema.js';

/**
 * The oldest transaction of this database that is still open, or the next one if none is. To sessions of any user, the
 * server shows the low half of each session's transaction number.
 */
const OLDEST_OPEN = sql`
  with next as (select pg_snapshot_xmax(pg_current_snapshot())::text::bigint as xid),
    open as (
      select (xid - backend_xid::text::bigint) & 4294967295 as behind from next, pg_stat_activity
      where datname = current_database() and backend_xid is not null)
  select least(xid, (select min(xid - behind) from open where behind < 2147483648))::text from next`;

/** Where a page ended: that row's place in the order of the transactions. */
const placeOf = (seq: number) =>
  sql`(select place.written_by, place.seq from ${audit} place where place.seq = ${seq})`;

/**
 * Transactions may commit in another order than they got their numbers. Pages therefore follow the order of the numbers
 * and end before the oldest transaction that is still open: whatever commits later comes after every page read so far.
 * Ask for the oldest one first; the query that follows sees what was open then and has ended since. Both need their own
 * snapshot, so pages cannot be read within a transaction.
 */
export function auditRows(database: Database): AuditRows {
  const oldestOpen = async (): Promise<string> => {
    const [row] = (await database.execute(OLDEST_OPEN)) as unknown as string[][];
    return itemAt(row!, 0);
  };

  return {
    async insert(rows) {
      if (rows.length > 0) await database.insert(audit).values([...rows]);
    },
    page: async (since, after, limit) => {
      const oldest = await oldestOpen();
      const rows = await database
        .select()
        .from(audit)
        .where(
          and(
            since === null ? undefined : gte(audit.at, since),
            after === 0 ? undefined : sql`(${audit.writtenBy}, ${audit.seq}) > ${placeOf(after)}`,
            lt(audit.writtenBy, sql`${oldest}::xid8`),
          ),
        )
        .orderBy(asc(audit.writtenBy), asc(audit.seq))
        .limit(limit);
      return rows.map(({ writtenBy: _writtenBy, ...row }) => row);
    },
  };
}
