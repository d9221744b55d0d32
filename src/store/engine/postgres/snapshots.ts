import { LRUCache } from 'lru-cache';
import { required } from '../../../core/items.js';
import type { WhileUnchanged } from '../contract/engine.js';
import type { Query } from './connections.js';

/**
 * Caches a reader's results for as long as the server's snapshot stays the same. A snapshot names the transactions that
 * it does not see yet; if a later one names the same, nothing was committed in between, by this instance or any other.
 * One short query per turn of the event loop reads the snapshot for all requests of that turn, so a result is never
 * older than its request. A notification would arrive a moment after the commit that it reports.
 *
 * @param query runs a single statement
 * @param commits how many transactions this process has committed
 */
export function whileUnchanged(query: Query, commits: () => number): WhileUnchanged {
  let current: Promise<string> | null = null;
  let readAfter = -1;

  function snapshot(): Promise<string> {
    if (!current || readAfter !== commits()) {
      current = query('select pg_current_snapshot()::text', []).then(
        ([row]) => required(row, 'row')[0] as string,
      );
      readAfter = commits();
      // Requests of a later turn may follow another instance's commit that this query does not see.
      setImmediate(() => (current = null));
    }
    return current;
  }

  return <Arguments extends (string | null)[], Result extends object | null>(
    read: (...args: Arguments) => Promise<Result>,
    max: number,
  ) => {
    const kept = new LRUCache<string, { result: Result; at: string }>({ max });
    return async (...args: Arguments) => {
      const name = args.join('\n');
      const before = await snapshot();
      const known = kept.get(name);
      if (known?.at === before) return known.result;
      const result = await read(...args);
      // If anything was committed meanwhile, the result may or may not include it.
      if ((await snapshot()) === before) kept.set(name, { result, at: before });
      return result;
    };
  };
}
