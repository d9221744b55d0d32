import { LRUCache } from 'lru-cache';
import type { Database } from './connection.js';

/** Caches a reader's results until the database is next written to. */
export type WhileUnchanged = <Arguments extends (string | null)[], Result extends object | null>(
  read: (...asked: Arguments) => Result,
  max: number,
) => (...asked: Arguments) => Result;

/**
 * Detects writes by this connection and by other processes with SQLite's own counters, so that writers need not
 * invalidate anything. Within a transaction everything is read afresh, since it may be rolled back. Other processes'
 * writes are checked once per turn of the event loop, however many requests it serves.
 *
 * A reader's result must depend only on its arguments and the database; only the first argument may contain a line end.
 * The cache holds the given number of results.
 */
export function whileUnchanged({ $client: connection }: Database): WhileUnchanged {
  const countOfOthers = connection.prepare('pragma data_version').pluck();
  const countOfThis = connection.prepare('select total_changes()').pluck();
  let byOthers: unknown = null;

  function writtenByOthers(): unknown {
    if (byOthers === null) {
      byOthers = countOfOthers.get();
      setImmediate(() => (byOthers = null));
    }
    return byOthers;
  }

  return <Arguments extends (string | null)[], Result extends object | null>(
    read: (...asked: Arguments) => Result,
    max: number,
  ) => {
    const kept = new LRUCache<string, { result: Result }>({ max });
    let standing: unknown[] = [];
    return (...asked: Arguments) => {
      if (connection.inTransaction) return read(...asked);
      const counts = [writtenByOthers(), countOfThis.get()];
      if (counts.some((count, index) => count !== standing[index])) {
        kept.clear();
        standing = counts;
      }
      const name = asked.join('\n');
      const known = kept.get(name);
      if (known) return known.result;
      const result = read(...asked);
      kept.set(name, { result });
      return result;
    };
  };
}
