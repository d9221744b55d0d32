import { and, asc, gte, sql } from 'drizzle-orm';
import type { AuditRows } from '../../contract/audit.js';
import type { Database } from '../connections.js';
import { audit } from '../schema.js';

/**
 * Transactions may commit in another order than they got their numbers. Pages therefore follow the order of the
 * transactions and end before the oldest one that is still open: whatever commits later comes after every page read so
 * far.
 */
const isSettled = sql`${audit.writtenBy} < pg_snapshot_xmin(pg_current_snapshot())`;

/** Where a page ended: that row's place in the order of the transactions. */
const placeOf = (seq: number) =>
  sql`(select place.written_by, place.seq from ${audit} place where place.seq = ${seq})`;

export function auditRows(database: Database): AuditRows {
  return {
    async insert(rows) {
      if (rows.length > 0) await database.insert(audit).values([...rows]);
    },
    page: async (since, after, limit) => {
      const rows = await database
        .select()
        .from(audit)
        .where(
          and(
            since === null ? undefined : gte(audit.at, since),
            after === 0 ? undefined : sql`(${audit.writtenBy}, ${audit.seq}) > ${placeOf(after)}`,
            isSettled,
          ),
        )
        .orderBy(asc(audit.writtenBy), asc(audit.seq))
        .limit(limit);
      return rows.map(({ writtenBy: _writtenBy, ...row }) => row);
    },
  };
}
