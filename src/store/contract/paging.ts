/** A page of a list; `after` continues behind the last item of the one before. */
export interface Page {
  limit: number;
  after: readonly (string | number)[] | null;
}

export interface Paged<Item> {
  items: Item[];
  next: readonly (string | number)[] | null;
}
