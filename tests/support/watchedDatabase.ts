import BetterSqlite from 'better-sqlite3';

/**
 * Changes better-sqlite3 for tests of faults. Every connection is a real one that the test knows. The test can take
 * away its disk space or its right to write, and let one of its statements fail.
 */

export const connections = new Set<BetterSqlite.Database>();

let toGo = Infinity;

/** Makes the n-th statement from now on fail once; what the transaction did before must be rolled back. */
export function failAt(n: number): void {
  toGo = n;
}

/** Whether no statement has failed yet; from now on none fails. */
export function noneFailed(): boolean {
  const left = toGo;
  toGo = Infinity;
  return left > 0;
}

function count(): void {
  toGo -= 1;
  if (toGo === 0) throw new BetterSqlite.SqliteError('disk I/O error', 'SQLITE_IOERR_WRITE');
}

/**
 * Watches every connection that this process opens from now on.
 *
 * @returns a function that ends it; the worker may run other files afterwards
 */
export function watchConnections(): () => void {
  const { prepare, pragma } = BetterSqlite.prototype;
  BetterSqlite.prototype.pragma = function (source, options) {
    connections.add(this);
    return pragma.call(this, source, options);
  };
  BetterSqlite.prototype.prepare = function (this: BetterSqlite.Database, sql: string): never {
    connections.add(this);
    const statement = prepare.call(this, sql);
    for (const method of ['run', 'get', 'all'] as const) {
      const original = statement[method].bind(statement) as (...values: unknown[]) => unknown;
      const counted = (...values: unknown[]): unknown => {
        const result = original(...values);
        count();
        return result;
      };
      Object.defineProperty(statement, method, { value: counted });
    }
    return statement as never;
  };
  return () => Object.assign(BetterSqlite.prototype, { prepare, pragma });
}
