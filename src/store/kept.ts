import { LRUCache } from 'lru-cache';

/**
 * Keeps a reader's results, at most the given number; those unused the longest go first. It is for what does not
 * change, or need not be newer.
 */
export function kept<Key extends string | number, Result extends object>(
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
