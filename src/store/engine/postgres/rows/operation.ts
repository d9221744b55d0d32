import { and, eq, lt, sql } from 'drizzle-orm';
import type { OutcomeRows, SecretRows } from '../../contract/operation.js';
import type { Database } from '../connections.js';
import { idempotencyRecords, serviceSecrets } from '../schema.js';

export function outcomeRows(database: Database): OutcomeRows {
  const byKey = and(
    eq(idempotencyRecords.keyName, sql.placeholder('keyName')),
    eq(idempotencyRecords.target, sql.placeholder('target')),
    eq(idempotencyRecords.key, sql.placeholder('key')),
  );
  const { fingerprint, outcome } = idempotencyRecords;
  const select = database.select({ fingerprint, outcome }).from(idempotencyRecords).where(byKey).prepare('');
  const remove = database.delete(idempotencyRecords).where(byKey).prepare('');
  return {
    find: async (key) => (await select.execute({ ...key }))[0] ?? null,
    insert: async (row) => {
      const inserted = await database
        .insert(idempotencyRecords)
        .values(row)
        .onConflictDoNothing()
        .returning({ key: idempotencyRecords.key });
      return inserted.length > 0;
    },
    async remove(key) {
      await remove.execute({ ...key });
    },
    async removeBefore(createdAt) {
      await database.delete(idempotencyRecords).where(lt(idempotencyRecords.createdAt, createdAt));
    },
  };
}

export function secretRows(database: Database): SecretRows {
  return {
    find: async (name) =>
      (await database.select().from(serviceSecrets).where(eq(serviceSecrets.name, name)))[0]?.secret ?? null,
    async insert(name, secret) {
      await database.insert(serviceSecrets).values({ name, secret }).onConflictDoNothing();
    },
  };
}
