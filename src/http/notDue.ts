import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import type { Caller } from '../store/contract/caller.js';
import type { DueSoonQuery } from '../store/contract/reports.js';
import type { Page, Paged } from '../store/contract/paging.js';
import type { RouteContext } from './context.js';
import { AxlePosition, dueSoonQuery, readDueSoonQuery } from './dueSoon.js';
import { pagingQuery } from './paging.js';
import { CSV_CONTENT_TYPE, csvOrJson } from './schemas.js';

/** Reports on axles that need attention although the due-soon report with the same parameters leaves them out. */

export const notDueQuery = z.strictObject({ ...dueSoonQuery, format: csvOrJson, ...pagingQuery });

interface NotDueReport<Item, Members> {
  list: (caller: Caller, query: DueSoonQuery, page: Page | null) => Promise<Paged<Item> & { total: number }>;
  csv: (items: Item[]) => string;
  /** Members of the answer that repeat the query. */
  repeatQuery: (query: DueSoonQuery) => Members;
}

/** Builds a route handler that answers with one page of such a report, or with the whole report as CSV. */
export const notDueHandler =
  <Item, Members extends object>(
    { store, paging, today }: RouteContext,
    { list, csv, repeatQuery }: NotDueReport<Item, Members>,
  ) =>
  async (
    { caller, query: sent }: { caller: Caller; query: z.output<typeof notDueQuery> },
    reply: FastifyReply,
  ) => {
    const { limit, cursor, format, ...filter } = sent;
    const query = await readDueSoonQuery(store, filter, today());
    if (format === 'csv') {
      const { items } = await list(caller, query, null);
      return reply.type(CSV_CONTENT_TYPE).send(csv(items));
    }
    const page = paging.readPage({ limit, cursor }, query, AxlePosition);
    const { items, next, total } = await list(caller, query, page);
    return { ...repeatQuery(query), total, items, nextCursor: paging.nextCursor(next, query) };
  };
