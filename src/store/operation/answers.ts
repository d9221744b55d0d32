import { and, eq, lt, sql } from 'drizzle-orm';
import type { Database } from '../engine/sqlite/connection.js';
import { idempotencyRecords } from '../engine/sqlite/schema.js';
import type { AnswerSlot, AnswerStore, KeptAnswer } from '../contract/idempotency.js';

/** Kept answers are promised for a day; they are kept for two. */
const KEPT_MS = 48 * 3_600_000;

export interface AnswerKeeper {
  find: AnswerStore['find'];
  /**
   * Keeps an answer within the running transaction.
   *
   * @returns false where one is kept already, which stays
   */
  write(slot: AnswerSlot, answer: KeptAnswer): boolean;
  /** Removes one within the running transaction. */
  remove(slot: Omit<AnswerSlot, 'fingerprint'>): void;
}

export function answerKeeper(database: Database, clock: () => Date): AnswerKeeper {
  const bySlot = and(
    eq(idempotencyRecords.keyName, sql.placeholder('keyName')),
    eq(idempotencyRecords.method, sql.placeholder('method')),
    eq(idempotencyRecords.path, sql.placeholder('path')),
    eq(idempotencyRecords.idempotencyKey, sql.placeholder('idempotencyKey')),
  );
  const select = database.select().from(idempotencyRecords).where(bySlot).prepare();
  const remove = database.delete(idempotencyRecords).where(bySlot).prepare();

  function write(slot: AnswerSlot, answer: KeptAnswer): boolean {
    const now = clock();
    const expired = new Date(now.getTime() - KEPT_MS).toISOString();
    database.delete(idempotencyRecords).where(lt(idempotencyRecords.createdAt, expired)).run();
    const { changes } = database
      .insert(idempotencyRecords)
      .values({ ...slot, ...answer, createdAt: now.toISOString() })
      .onConflictDoNothing()
      .run();
    return changes > 0;
  }

  return {
    async find(slot) {
      const row = select.get(slot);
      return row
        ? { fingerprint: row.fingerprint, status: row.status, headers: row.headers, body: row.body }
        : null;
    },
    write,
    remove: (slot) => void remove.run(slot),
  };
}
