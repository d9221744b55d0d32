import type BetterSqlite from 'better-sqlite3';

/**
 * Replaces better-sqlite3 in a test of faults. Every connection is a real one that the test knows; the test can take
 * away its room or its right to write, and let one of its statements fail.
 */

export const connections: BetterSqlite.Database[] = [];

let toGo = Infinity;

/** Makes the n-th statement from now on fail once; what it did before must be rolled back. */
export function failAt(n: number): void {
  toGo = n;
}

/** Whether the failing statement has not been reached; from now on none fails. */
export function noneFailed(): boolean {
  const left = toGo;
  toGo = Infinity;
  return left > 0;
}

export function watched(Original: typeof BetterSqlite): typeof BetterSqlite {
  function count(): void {
    toGo -= 1;
    if (toGo === 0) throw new Original.SqliteError('disk I/O error', 'SQLITE_IOERR_WRITE');
  }

  class Watched extends Original {
    constructor(file?: string | Buffer, options?: BetterSqlite.Options) {
      super(file, options);
      connections.push(this);
    }

    override prepare(sql: string): never {
      const statement = super.prepare(sql);
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
    }
  }
  return Watched as unknown as typeof BetterSqlite;
}
