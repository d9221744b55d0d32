import type { Page, Paged } from './contract/paging.js';

/** Rows to read for a page; one extra row shows that another page follows. */
export const rowsFor = ({ limit }: Page): number => limit + 1;

/** The position after which a list ordered by one number continues. */
export const placeAfter = ({ after }: Page): number => Number(after?.[0] ?? 0);

/**
 * Builds a page from rows that were read from its beginning on.
 *
 * @param page null for all rows
 * @param placeOf a row's position in the list's order; the next page begins after it
 */
export function pageOf<Row, Item>(
  rows: readonly Row[],
  page: Page | null,
  itemOf: (row: Row) => Item,
  placeOf: (row: Row) => readonly (string | number)[],
): Paged<Item> {
  const shown = page ? rows.slice(0, page.limit) : rows;
  const last = shown.at(-1);
  return {
    items: shown.map(itemOf),
    next: rows.length > shown.length && last !== undefined ? placeOf(last) : null,
  };
}
