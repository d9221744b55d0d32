/** Access to values that must exist. If one is missing, the error names it. */

/** @param index from the end if negative @throws RangeError */
export function itemAt<Item>(
  items: { readonly length: number; at(index: number): Item | undefined },
  index: number,
): Item {
  const item = items.at(index);
  if (item === undefined) throw new RangeError(`there is no item ${index} among ${items.length}`);
  return item;
}

/** @throws RangeError */
export function entryOf<Key, Value>(entries: ReadonlyMap<Key, Value>, key: Key): Value {
  const value = entries.get(key);
  if (value === undefined) throw new RangeError(`there is no entry for ${String(key)}`);
  return value;
}

/** @param what names the value for the error @throws RangeError */
export function required<Value>(value: Value | null | undefined, what: string): Value {
  if (value === null || value === undefined) throw new RangeError(`there is no ${what}`);
  return value;
}
