import { setTimeout as sleep } from 'node:timers/promises';
import { isLocked } from './faults.js';

/** Delay between attempts to take a lock that another process holds. */
const RETRY_MS = 20;

/** Runs tasks one after the other, in the order in which they were requested. */
export function oneByOne() {
  let last: Promise<unknown> = Promise.resolve();
  return <Result>(work: () => Promise<Result>): Promise<Result> => {
    const mine = last.then(work);
    last = mine.catch(() => undefined);
    return mine;
  };
}

/**
 * Queues writes. SQLite has one writer, and waiting inside SQLite blocks the whole process. While one transaction waits
 * for anything, or for another process's lock, the others therefore wait here, without blocking.
 *
 * @param maxWaitMs how long a write waits for another process's write lock, from the time it was requested
 * @param onWrite called after every write that did not fail, with its waiting time
 */
export function writeTurns(maxWaitMs: number, onWrite: (waitSeconds: number) => void = () => undefined) {
  const inTurn = oneByOne();

  /** Retries to take SQLite's lock while another process holds it. */
  async function retryWhileLocked(begin: () => void, until: number): Promise<void> {
    for (;;) {
      try {
        begin();
        return;
      } catch (fault) {
        if (!isLocked(fault) || performance.now() >= until) throw fault;
      }
      await sleep(RETRY_MS);
    }
  }

  /** @param begin takes SQLite's lock */
  return <Result>(begin: () => void, work: () => Promise<Result>): Promise<Result> => {
    const requestedAt = performance.now();
    return inTurn(async () => {
      await retryWhileLocked(begin, requestedAt + maxWaitMs);
      const waited = performance.now() - requestedAt;
      const result = await work();
      onWrite(waited / 1000);
      return result;
    });
  };
}
