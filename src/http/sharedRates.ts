import { LRUCache } from 'lru-cache';
import { itemAt } from '../core/items.js';
import type { SharedCounts } from '../store/contract/counts.js';

/** How often a server exchanges its counts with the other servers. */
const SHARE_EVERY_MS = 1000;
/** Callers to remember; beyond that, those that called longest ago are forgotten. */
const MAX_REMEMBERED = 10_000;

interface Counted {
  period: number;
  endsAt: number;
  /** By all servers, as of the last exchange. */
  shared: number;
  /** By this server since then. */
  own: number;
}

type Done = (error: Error | null, counted?: { current: number; ttl: number }) => void;

/**
 * A store for the rate limiter that counts the requests to all servers on one database: each counts for itself and
 * shares its counts once a second, so that no request waits for the database.
 *
 * @param clock milliseconds since 1970
 */
export function sharedRates(
  counts: SharedCounts,
  onFault: (fault: unknown) => void,
  clock: () => number = Date.now,
) {
  return class SharedRates {
    readonly #counted = new LRUCache<string, Counted>({ max: MAX_REMEMBERED });
    #unshared = new Set<string>();
    #isWaiting = false;

    /** One store serves all limits, because the caller names include the limit's id. */
    child(): this {
      return this;
    }

    incr(name: string, done: Done, periodMs: number): void {
      const now = clock();
      const period = Math.floor(now / periodMs);
      const known = this.#counted.get(name);
      const counted =
        known?.period === period ? known : { period, endsAt: (period + 1) * periodMs, shared: 0, own: 0 };
      counted.own += 1;
      this.#counted.set(name, counted);
      this.#unshared.add(name);
      this.#shareSoon();
      done(null, { current: counted.shared + counted.own, ttl: counted.endsAt - now });
    }

    #shareSoon(): void {
      if (this.#isWaiting) return;
      this.#isWaiting = true;
      setTimeout(() => {
        this.share().catch(onFault);
      }, SHARE_EVERY_MS).unref();
    }

    /** Adds this server's new counts to the shared ones and reads the totals. */
    async share(): Promise<void> {
      this.#isWaiting = false;
      const dirty = [...this.#unshared].flatMap((name) => {
        const counted = this.#counted.get(name);
        return counted ? [{ name, counted, by: counted.own }] : [];
      });
      this.#unshared = new Set();
      if (dirty.length === 0) return;
      const additions = dirty.map(({ name, by, counted: { period, endsAt } }) => ({
        name,
        period,
        endsAt,
        by,
      }));
      const totals = await counts.add(additions).catch((fault: unknown) => {
        for (const { name } of dirty) this.#unshared.add(name);
        throw fault;
      });
      dirty.forEach(({ counted, by }, index) => {
        counted.shared = itemAt(totals, index);
        counted.own -= by;
      });
    }
  };
}
