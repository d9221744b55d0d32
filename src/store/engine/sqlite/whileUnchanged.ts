import { LRUCache } from 'lru-cache';
import type { WhileUnchanged } from '../contract/engine.js';
import type { Database } from './connection.js';

/**
 * Detects writes of this process by a count of its commits, and those of other processes with SQLite's own counter, so
 * that writers need not invalidate anything. Other processes' writes are checked once per turn of the event loop,
 * however many requests it serves.
 *
 * @param reading a connection that does not write
 * @param commits how many transactions this process has committed
 */
export function whileUnchanged({ $client: reading }: Database, commits: () => number): WhileUnchanged {
  const countOfOthers = reading.prepare('pragma data_version').pluck();
  let mark = '';
  let commitsSeen = -1;
  let othersSeen = false;

  /** A text that changes with every commit. */
  function state(): string {
    const own = commits();
    if (othersSeen && own === commitsSeen) return mark;
    mark = `${own} ${String(countOfOthers.get())}`;
    commitsSeen = own;
    if (!othersSeen) {
      othersSeen = true;
      setImmediate(() => (othersSeen = false));
    }
    return mark;
  }

  return <Arguments extends (string | null)[], Result extends object | null>(
    read: (...args: Arguments) => Promise<Result>,
    max: number,
  ) => {
    const kept = new LRUCache<string, { result: Result }>({ max });
    let cachedAt = '';
    return async (...args: Arguments) => {
      const before = state();
      if (before !== cachedAt) {
        kept.clear();
        cachedAt = before;
      }
      const name = args.join('\n');
      const known = kept.get(name);
      if (known) return known.result;
      const result = await read(...args);
      // Do not cache a result that may miss a write made meanwhile.
      if (state() === before && cachedAt === before) kept.set(name, { result });
      return result;
    };
  };
}
