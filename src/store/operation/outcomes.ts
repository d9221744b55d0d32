import { and, eq, lt, sql } from 'drizzle-orm';
import { Refusal } from '../../core/refusal.js';
import type { IdempotencyKey, Keep, KeptOutcome, KeyedWrite, OutcomeStore } from '../contract/idempotency.js';
import type { Database } from '../engine/sqlite/connection.js';
import type { Write } from '../engine/sqlite/engine.js';
import { idempotencyRecords } from '../engine/sqlite/schema.js';

/** Outcomes are promised for one day and kept for two. */
const KEPT_MS = 48 * 3_600_000;

/** Stores the outcomes of idempotent writes; call within a transaction, except for `find`. */
export function outcomeKeeper(database: Database, clock: () => Date) {
  const byKey = and(
    eq(idempotencyRecords.keyName, sql.placeholder('keyName')),
    eq(idempotencyRecords.target, sql.placeholder('target')),
    eq(idempotencyRecords.key, sql.placeholder('key')),
  );
  const { fingerprint, outcome } = idempotencyRecords;
  const select = database.select({ fingerprint, outcome }).from(idempotencyRecords).where(byKey).prepare();
  const remove = database.delete(idempotencyRecords).where(byKey).prepare();

  /** @returns false if there is an outcome already; it is left unchanged */
  function add(write: KeyedWrite, outcome: string): boolean {
    const now = clock();
    const expired = new Date(now.getTime() - KEPT_MS).toISOString();
    database.delete(idempotencyRecords).where(lt(idempotencyRecords.createdAt, expired)).run();
    const { changes } = database
      .insert(idempotencyRecords)
      .values({ ...write, outcome, createdAt: now.toISOString() })
      .onConflictDoNothing()
      .run();
    return changes > 0;
  }

  return {
    find: (key: IdempotencyKey): KeptOutcome | null => select.get({ ...key }) ?? null,
    add,
    remove: (key: IdempotencyKey): void => void remove.run({ ...key }),
    /** @throws Refusal if another process has stored an outcome under this key meanwhile */
    keep<Result>(keep: Keep<Result> | null, result: Result): void {
      if (!keep || add(keep.write, keep.outcome(result))) return;
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

export function outcomeStore(outcomes: OutcomeKeeper, write: Write): OutcomeStore {
  return {
    find: async (key) => outcomes.find(key),
    keep: async (keyed, outcome) => {
      await write(() => outcomes.add(keyed, outcome));
    },
    forget: (key) => write(() => outcomes.remove(key)),
  };
}
