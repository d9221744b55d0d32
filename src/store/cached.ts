import { LRUCache } from 'lru-cache';

/**
 * Caches a reader's results; the least recently used go first. Use it only for data that does not change, or that may
 * be stale.
 */
export function cached<Key extends string | number, Result extends object>(
  read: (key: Key) => Promise<Result>,
  max: number,
): (key: Key) => Promise<Result> {
  const known = new LRUCache<Key, Result>({ max });
  return async (key) => {
    const found = known.get(key);
    if (found) return found;
    const fresh = await read(key);
    known.set(key, fresh);
    return fresh;
  };
}
