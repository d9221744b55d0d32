import { z } from 'zod';
import { digestOf } from '../digest.js';
import type { Page } from '../store/contract/paging.js';
import { badParameter } from './problems.js';
import { numberQuery, wholeNumberText } from './schemas.js';
import { sealCursor, unsealCursor } from './sealing.js';

const DEFAULT_LIMIT = 50;

/** Query parameters of every list. */
export const pagingQuery = {
  limit: numberQuery(
    wholeNumberText(3, 'must be a whole number from 1 to 200').refine(
      (limit) => limit >= 1 && limit <= 200,
      'must be from 1 to 200',
    ),
    {
      type: 'integer',
      minimum: 1,
      maximum: 200,
      default: DEFAULT_LIMIT,
      description: 'Items per page.',
      example: 50,
    },
  ),
  cursor: z
    .string()
    .max(1000)
    .optional()
    .meta({ description: 'The `nextCursor` of the previous page. Send it with the same other parameters.' }),
};

const Cursor = z.tuple([z.string(), z.unknown()]);
/** An item's position in its list. */
type Position = z.ZodType<(string | number)[]>;

/** A page of items and the cursor of the next page. */
export const listOf = <Item extends z.ZodType>(item: Item, id: string) =>
  z
    .object({
      items: z.array(item),
      nextCursor: z.string().nullable().meta({ description: 'Null on the last page.' }),
    })
    .meta({ id });

/** Decodes and creates cursors, which are opaque to callers. */
export interface Paging {
  /**
   * @param filters the other parameters; a cursor is valid only with the same ones
   * @param position the shape of a position in this list
   * @throws HttpProblem 400 when the cursor does not belong to this list
   */
  readPage(query: { limit?: number; cursor?: string }, filters: object, position: Position): Page;
  nextCursor(next: readonly (string | number)[] | null, filters: object): string | null;
}

/** @param secret known only to the service: a cursor may contain data of vehicles that the caller must not see */
export function pagingWith(secret: string): Paging {
  return {
    readPage({ limit = DEFAULT_LIMIT, cursor }, filters, position) {
      if (cursor === undefined) return { limit, after: null };
      const after = position.safeParse(placeIn(cursor, filters));
      if (!after.success) throw badCursor();
      return { limit, after: after.data };
    },

    nextCursor: (next, filters) =>
      next === null ? null : sealCursor(secret, JSON.stringify([bindingOf(filters), next])),
  };

  function placeIn(cursor: string, filters: object): unknown {
    let opened: unknown;
    try {
      opened = JSON.parse(unsealCursor(secret, cursor));
    } catch {
      throw badCursor();
    }
    const read = Cursor.safeParse(opened);
    if (!read.success || read.data[0] !== bindingOf(filters)) throw badCursor();
    return read.data[1];
  }
}

const badCursor = () =>
  badParameter({ detail: 'is not a nextCursor of a list with these parameters', parameter: 'cursor' });

const bindingOf = (filters: object): string => digestOf(filters).slice(0, 12);
