import { setTimeout as sleep } from 'node:timers/promises';
import { isLocked } from './faults.js';

/** Delay between attempts to take a lock that another process holds. */
const RETRY_MS = 20;

/**
 * Queues writes. SQLite has one writer, and waiting inside SQLite blocks the whole process. While an import writes over
 * its own connection, or a writer waits for another process, other writers therefore wait here, without blocking.
 *
 * @param patienceMs how long a write waits for another process's write lock, from the time it was requested
 * @param onWrite called after every write that began and did not fail, with its waiting time
 */
export function writeTurns(patienceMs: number, onWrite: (waitSeconds: number) => void = () => undefined) {
  let held: Promise<void> | null = null;

  /** Retries a work that begins by taking SQLite's lock while another process holds it. */
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

  /** Blocks all other writers until the work is done. */
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

  /** Reports a write once it is done, with its waiting time. */
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
    /** Runs a short write, immediately if no other is in progress. */
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
     * Blocks all other writers until a long write is done.
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
