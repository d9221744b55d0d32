import { setTimeout as sleep } from 'node:timers/promises';
import { isLocked } from './faults.js';

/** How long between two tries for a lock that another process holds. */
const RETRY_MS = 20;

/**
 * Whose turn it is to write. SQLite has one writer, and who waits for it inside SQLite waits with the whole process:
 * so an import, which writes over another connection and lets other requests be answered meanwhile, keeps the others
 * waiting here, where waiting costs nothing. So does a writer that has to wait for another process.
 *
 * @param patienceMs how long a write waits for a writer in another process, counted from when it was asked for
 * @param onWrite told of every write that began and did not fail, and how long it waited
 */
export function writeTurns(patienceMs: number, onWrite: (waitSeconds: number) => void = () => undefined) {
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

  /** Tells of a write once it is done, and how long it waited to begin. */
  function told<Result>(work: () => Result): () => Result {
    const asked = performance.now();
    return () => {
      const waited = performance.now() - asked;
      const done = work();
      onWrite(waited / 1000);
      return done;
    };
  }

  return {
    /** Runs a short write, at once where nobody else has the turn. */
    async take<Result>(write: () => Result): Promise<Result> {
      const work = told(write);
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
        await patiently(told(begin), performance.now() + patienceMs);
        return work();
      }),
  };
}
