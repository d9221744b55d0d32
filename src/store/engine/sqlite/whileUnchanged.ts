import { LRUCache } from 'lru-cache';
import type { Database } from './connection.js';

/** Makes a reader of one that keeps its results at hand for as long as nothing has been written to the database. */
export type WhileUnchanged = <Arguments extends (string | null)[], Result extends object | null>(
  read: (...asked: Arguments) => Result,
  most: number,
) => (...asked: Arguments) => Result;

/**
 * Tells whether anything has been written, be it over this connection or by another process: SQLite itself counts both,
 * so that no write has to know of what is kept. Within a transaction everything is read anew, since what it wrote may
 * yet be rolled back. Others are looked for once a turn of the event loop, however many requests it brings.
 *
 * A reader takes whatever follows from its arguments and the database alone; none but the first argument may have a line
 * end. It keeps as many results as it is told.
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
    most: number,
  ) => {
    const kept = new LRUCache<string, { result: Result }>({ max: most });
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
