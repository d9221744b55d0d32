import { z } from 'zod';
import { digestOf } from '../store/digest.js';
import type { Page } from '../store/store.js';
import { badParameter } from './problems.js';
import { numberQuery, wholeNumberText } from './schemas.js';

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
      description: 'Items a page.',
      example: 50,
    },
  ),
  cursor: z
    .string()
    .max(1000)
    .optional()
    .meta({ description: 'The nextCursor of the page before; bound to the other parameters.' }),
};

const Cursor = z.tuple([z.string(), z.unknown()]);
/** Where an item stands in its list. */
type Position = z.ZodType<(string | number)[]>;

/** A page of items and where the next begins. */
export const listOf = <Item extends z.ZodType>(item: Item, id: string) =>
  z
    .object({
      items: z.array(item),
      nextCursor: z.string().nullable().meta({ description: 'null at the end.' }),
    })
    .meta({ id });

/**
 * @param filters the other parameters, which a cursor is bound to
 * @param position the shape of a place in this list
 * @throws HttpProblem 400 when the cursor is not one of this list's
 */
export function readPage(
  { limit, cursor }: { limit?: number; cursor?: string },
  filters: object,
  position: Position,
): Page {
  if (cursor === undefined) return { limit: limit ?? DEFAULT_LIMIT, after: null };
  const detail = 'is not the nextCursor of a list with these parameters';
  const refusal = badParameter({ detail, parameter: 'cursor' });
  let parsed: unknown;
  try {
    parsed = JSON.parse(Buffer.from(cursor, 'base64url').toString('utf8'));
  } catch {
    throw refusal;
  }
  const read = Cursor.safeParse(parsed);
  if (!read.success || read.data[0] !== bindingOf(filters)) throw refusal;
  const after = position.safeParse(read.data[1]);
  if (!after.success) throw refusal;
  return { limit: limit ?? DEFAULT_LIMIT, after: after.data };
}

export function nextCursor(next: readonly (string | number)[] | null, filters: object): string | null {
  return next === null ? null : Buffer.from(JSON.stringify([bindingOf(filters), next])).toString('base64url');
}

const bindingOf = (filters: object): string => digestOf(filters).slice(0, 12);
