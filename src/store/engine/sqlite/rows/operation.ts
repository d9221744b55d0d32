import { and, asc, eq, gt, gte, lt, sql } from 'drizzle-orm';
import type { AuditRows } from '../../contract/audit.js';
import type { OutcomeRows, SecretRows } from '../../contract/operation.js';
import type { Database } from '../connection.js';
import { rowsInserter } from '../inserts.js';
import { audit, idempotencyRecords, serviceSecrets } from '../schema.js';

export function auditRows(database: Database): AuditRows {
  const insert = rowsInserter(database, audit);
  return {
    async insert(rows) {
      insert(rows);
    },
    page: async (since, after, limit) =>
      database
        .select()
        .from(audit)
        .where(and(since === null ? undefined : gte(audit.at, since), gt(audit.seq, after)))
        .orderBy(asc(audit.seq))
        .limit(limit)
        .all(),
  };
}

export function outcomeRows(database: Database): OutcomeRows {
  const byKey = and(
    eq(idempotencyRecords.keyName, sql.placeholder('keyName')),
    eq(idempotencyRecords.target, sql.placeholder('target')),
    eq(idempotencyRecords.key, sql.placeholder('key')),
  );
  const { fingerprint, outcome } = idempotencyRecords;
  const select = database.select({ fingerprint, outcome }).from(idempotencyRecords).where(byKey).prepare();
  const remove = database.delete(idempotencyRecords).where(byKey).prepare();
  return {
    find: async (key) => select.get({ ...key }) ?? null,
    insert: async (row) =>
      database.insert(idempotencyRecords).values(row).onConflictDoNothing().run().changes > 0,
    async remove(key) {
      remove.run({ ...key });
    },
    async removeBefore(createdAt) {
      database.delete(idempotencyRecords).where(lt(idempotencyRecords.createdAt, createdAt)).run();
    },
  };
}

export function secretRows(database: Database): SecretRows {
  return {
    find: async (name) =>
      database.select().from(serviceSecrets).where(eq(serviceSecrets.name, name)).get()?.secret ?? null,
    async insert(name, secret) {
      database.insert(serviceSecrets).values({ name, secret }).onConflictDoNothing().run();
    },
  };
}
