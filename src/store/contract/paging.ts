/** A page of a list; `after` is the last position of the previous page. */
export interface Page {
  limit: number;
  after: readonly (string | number)[] | null;
}

export interface Paged<Item> {
  items: Item[];
  next: readonly (string | number)[] | null;
}
