import { setTimeout as sleep } from 'node:timers/promises';

/** How long between two tries for a lock that another process holds. */
const RETRY_MS = 20;

/**
 * Whose turn it is to write. SQLite has one writer, and who waits for it inside SQLite waits with the whole process:
 * so an import, which writes over another connection and lets other requests be answered meanwhile, keeps the others
 * waiting here, where waiting costs nothing. So does a writer that has to wait for another process.
 *
 * @param patienceMs how long a write waits for a writer in another process, counted from when it was asked for
 */
export function writeTurns(patienceMs: number) {
  let held: Promise<void> | null = null;

  /** Runs a work that begins by taking SQLite's lock, again and again while another process has it. */
  async function patiently<Result>(work: () => Result, until: number): Promise<Result> {
    for (;;) {
      try {
        return work();
      } catch (fault) {
        if (!isLocked(fault) || performance.now() >= until) throw fault;
      }
      await sleep(RETRY_MS);
    }
  }

  /** Keeps every other writer waiting until the work is done. */
  async function hold<Result>(work: () => Promise<Result>): Promise<Result> {
    while (held) await held;
    const done = work();
    held = done.then(
      () => undefined,
      () => undefined,
    );
    try {
      return await done;
    } finally {
      held = null;
    }
  }

  return {
    /** Runs a short write, at once where nobody else has the turn. */
    async take<Result>(work: () => Result): Promise<Result> {
      const until = performance.now() + patienceMs;
      while (held) await held;
      try {
        return work();
      } catch (fault) {
        if (!isLocked(fault)) throw fault;
      }
      return hold(() => patiently(work, until));
    },

    /**
     * Keeps every other writer waiting until a long write is done.
     *
     * @param begin takes SQLite's lock
     */
    hold: <Result>(begin: () => void, work: () => Promise<Result>): Promise<Result> =>
      hold(async () => {
        await patiently(begin, performance.now() + patienceMs);
        return work();
      }),
  };
}

const isLocked = (fault: unknown): boolean => /^SQLITE_BUSY/.test((fault as { code?: string }).code ?? '');

export type WriteTurns = ReturnType<typeof writeTurns>;
