import { and, asc, count, desc, eq, inArray, lt, lte, notExists, sql, type SQL } from 'drizzle-orm';
import { itemAt, required } from '../../../../core/items.js';
import type {
  DeliveryRows,
  DueAxleRows,
  EndpointRows,
  EventRows,
  UntoldRows,
} from '../../contract/events.js';
import type { Database } from '../connections.js';
import { dueAxles, events, untoldVehicles, webhookDeliveries, webhookEndpoints } from '../schema.js';

export function endpointRows(database: Database): EndpointRows {
  const enabled = database
    .select()
    .from(webhookEndpoints)
    .where(eq(webhookEndpoints.enabled, true))
    .orderBy(asc(webhookEndpoints.seq))
    .prepare('');
  return {
    byId: async (id) =>
      (await database.select().from(webhookEndpoints).where(eq(webhookEndpoints.id, id)))[0] ?? null,
    all: async () => database.select().from(webhookEndpoints).orderBy(asc(webhookEndpoints.seq)),
    enabled: async () => enabled.execute(),
    insert: async (row) => itemAt(await database.insert(webhookEndpoints).values(row).returning(), 0),
    async update(seq, changes) {
      const [row] = await database
        .update(webhookEndpoints)
        .set(changes)
        .where(eq(webhookEndpoints.seq, seq))
        .returning();
      return required(row, 'row');
    },
    async remove(seq) {
      await database.delete(webhookDeliveries).where(eq(webhookDeliveries.endpointSeq, seq));
      await database.delete(webhookEndpoints).where(eq(webhookEndpoints.seq, seq));
      await removeUndelivered(database);
    },
  };
}

/** Removes the events that have no delivery left. */
async function removeUndelivered(database: Database, where?: SQL): Promise<void> {
  const delivery = database
    .select({ one: sql`1` })
    .from(webhookDeliveries)
    .where(eq(webhookDeliveries.eventSeq, events.seq));
  await database.delete(events).where(and(where, notExists(delivery)));
}

export function eventRows(database: Database): EventRows {
  return {
    async insert(row) {
      const [inserted] = await database
        .insert(events)
        .values(row)
        .onConflictDoNothing()
        .returning({ seq: events.seq });
      return inserted?.seq ?? null;
    },
  };
}

const isPending = sql`${webhookDeliveries.status} = 'pending'`;

export function deliveryRows(database: Database): DeliveryRows {
  const joined = () =>
    database
      .select({ delivery: webhookDeliveries, event: events, endpointId: webhookEndpoints.id })
      .from(webhookDeliveries)
      .innerJoin(events, eq(events.seq, webhookDeliveries.eventSeq))
      .innerJoin(webhookEndpoints, eq(webhookEndpoints.seq, webhookDeliveries.endpointSeq));
  const waiting = database
    .select({
      seq: webhookDeliveries.seq,
      tries: webhookDeliveries.tries,
      webhookId: events.id,
      body: sql<string>`${events.body}::text`,
    })
    .from(webhookDeliveries)
    .innerJoin(events, eq(events.seq, webhookDeliveries.eventSeq))
    .where(
      and(
        eq(webhookDeliveries.endpointSeq, sql.placeholder('endpointSeq')),
        isPending,
        lte(webhookDeliveries.nextAttemptAt, sql.placeholder('now')),
      ),
    )
    .orderBy(asc(webhookDeliveries.nextAttemptAt), asc(webhookDeliveries.seq))
    .limit(sql.placeholder('limit'))
    .prepare('');

  return {
    byId: async (id) => (await joined().where(eq(webhookDeliveries.id, id)))[0] ?? null,
    list: async ({ endpointId, status, type }, before, limit) =>
      joined()
        .where(
          and(
            endpointId === null ? undefined : eq(webhookEndpoints.id, endpointId),
            status === null ? undefined : eq(webhookDeliveries.status, status),
            type === null ? undefined : eq(events.type, type),
            before === null ? undefined : lt(webhookDeliveries.seq, before),
          ),
        )
        .orderBy(desc(webhookDeliveries.seq))
        .limit(limit),
    async insert(rows) {
      if (rows.length > 0) await database.insert(webhookDeliveries).values([...rows]);
    },
    waiting: async (endpointSeq, now, limit) => waiting.execute({ endpointSeq, now, limit }),
    async defer(seqs, until) {
      await database
        .update(webhookDeliveries)
        .set({ nextAttemptAt: until })
        .where(inArray(webhookDeliveries.seq, [...seqs]));
    },
    async pending(seq, tries) {
      const [row] = await database
        .select()
        .from(webhookDeliveries)
        .where(and(eq(webhookDeliveries.seq, seq), eq(webhookDeliveries.tries, tries), isPending));
      return row ?? null;
    },
    async update(seq, changes) {
      await database.update(webhookDeliveries).set(changes).where(eq(webhookDeliveries.seq, seq));
    },
    async giveUpAll(endpointSeq) {
      await database
        .update(webhookDeliveries)
        .set({ status: 'given-up', nextAttemptAt: null, version: sql`${webhookDeliveries.version} + 1` })
        .where(and(eq(webhookDeliveries.endpointSeq, endpointSeq), isPending));
    },
    async count(status) {
      const [counted] = await database
        .select({ rows: count() })
        .from(webhookDeliveries)
        .where(eq(webhookDeliveries.status, status));
      return required(counted, 'count').rows;
    },
    async removeBefore(createdAt) {
      await database.delete(webhookDeliveries).where(lt(webhookDeliveries.createdAt, createdAt));
      await removeUndelivered(database, lt(events.createdAt, createdAt));
    },
  };
}

export function dueAxleRows(database: Database): DueAxleRows {
  const ofVehicle = database
    .select({ axle: dueAxles.axle })
    .from(dueAxles)
    .where(eq(dueAxles.vehicleSeq, sql.placeholder('vehicleSeq')))
    .prepare('');
  return {
    all: async () => database.select().from(dueAxles),
    ofVehicle: async (vehicleSeq) => (await ofVehicle.execute({ vehicleSeq })).map(({ axle }) => axle),
    async insert(rows) {
      if (rows.length > 0) await database.insert(dueAxles).values([...rows]);
    },
    async remove(vehicleSeq, axle) {
      await database
        .delete(dueAxles)
        .where(and(eq(dueAxles.vehicleSeq, vehicleSeq), eq(dueAxles.axle, axle)));
    },
    async clear() {
      await database.delete(dueAxles);
    },
  };
}

export function untoldRows(database: Database): UntoldRows {
  const find = database
    .select()
    .from(untoldVehicles)
    .where(eq(untoldVehicles.vehicleSeq, sql.placeholder('vehicleSeq')))
    .prepare('');
  return {
    async all() {
      const rows = await database.select({ vehicleSeq: untoldVehicles.vehicleSeq }).from(untoldVehicles);
      return rows.map(({ vehicleSeq }) => vehicleSeq);
    },
    find: async (vehicleSeq) => (await find.execute({ vehicleSeq }))[0]?.before ?? null,
    async insert(vehicleSeq, before) {
      await database.insert(untoldVehicles).values({ vehicleSeq, before });
    },
    async remove(vehicleSeq) {
      await database.delete(untoldVehicles).where(eq(untoldVehicles.vehicleSeq, vehicleSeq));
    },
    async clear() {
      await database.delete(untoldVehicles);
    },
  };
}
