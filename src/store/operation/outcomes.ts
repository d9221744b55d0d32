import { Refusal } from '../../core/refusal.js';
import type { IdempotencyKey, Keep, KeyedWrite } from '../contract/idempotency.js';
import type { Components } from '../engine/contract/engine.js';

/** Outcomes are promised for one day and stored for two. */
const KEPT_MS = 48 * 3_600_000;

/** Stores the outcomes of idempotent writes, in the transactions of those writes. */
export function outcomeKeeper({ outcomes }: Pick<Components, 'outcomes'>, clock: () => Date) {
  /** @returns false if there is an outcome already; it is left unchanged */
  async function add(write: KeyedWrite, outcome: string): Promise<boolean> {
    const now = clock();
    await outcomes.removeBefore(new Date(now.getTime() - KEPT_MS).toISOString());
    return outcomes.insert({ ...write, outcome, createdAt: now.toISOString() });
  }

  return {
    add,
    remove: (key: IdempotencyKey): Promise<void> => outcomes.remove(key),
    /** @throws Refusal if another process has stored an outcome under this key meanwhile */
    async keep<Result>(keep: Keep<Result> | null, result: Result): Promise<void> {
      if (!keep || (await add(keep.write, keep.outcome(result)))) return;
      // Throw to roll back this write too.
      throw new Refusal(
        'conflict',
        'request-under-way',
        'another request with this Idempotency-Key came first',
      );
    },
  };
}

export type OutcomeKeeper = ReturnType<typeof outcomeKeeper>;
