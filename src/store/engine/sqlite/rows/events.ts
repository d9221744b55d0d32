import { and, asc, count, desc, eq, inArray, lt, lte, notExists, sql, type SQL } from 'drizzle-orm';
import type {
  DeliveryRows,
  DueAxleRows,
  EndpointRows,
  EventRows,
  UntoldRows,
} from '../../contract/events.js';
import type { Database } from '../connection.js';
import { inserter, rowsInserter } from '../inserts.js';
import { dueAxles, events, untoldVehicles, webhookDeliveries, webhookEndpoints } from '../schema.js';
import { selector } from '../selects.js';

export function endpointRows(database: Database): EndpointRows {
  const enabled = selector(database, webhookEndpoints, 'enabled = 1');
  return {
    byId: async (id) =>
      database.select().from(webhookEndpoints).where(eq(webhookEndpoints.id, id)).get() ?? null,
    all: async () => database.select().from(webhookEndpoints).orderBy(asc(webhookEndpoints.seq)).all(),
    enabled: async () => enabled(),
    insert: async (row) => database.insert(webhookEndpoints).values(row).returning().get(),
    update: async (seq, changes) =>
      database.update(webhookEndpoints).set(changes).where(eq(webhookEndpoints.seq, seq)).returning().get(),
    async remove(seq) {
      database.delete(webhookDeliveries).where(eq(webhookDeliveries.endpointSeq, seq)).run();
      database.delete(webhookEndpoints).where(eq(webhookEndpoints.seq, seq)).run();
      removeUndelivered(database);
    },
  };
}

/** Removes the events that have no delivery left. */
function removeUndelivered(database: Database, where?: SQL): void {
  const delivery = database
    .select({ one: sql`1` })
    .from(webhookDeliveries)
    .where(eq(webhookDeliveries.eventSeq, events.seq));
  database
    .delete(events)
    .where(and(where, notExists(delivery)))
    .run();
}

export function eventRows(database: Database): EventRows {
  const insert = database
    .insert(events)
    .values({
      id: sql.placeholder('id'),
      type: sql.placeholder('type'),
      once: sql.placeholder('once'),
      body: sql.placeholder('body'),
      createdAt: sql.placeholder('createdAt'),
    })
    .onConflictDoNothing()
    .returning({ seq: events.seq })
    .prepare();
  return {
    insert: async (row) => (insert.get({ ...row }) as { seq: number } | undefined)?.seq ?? null,
  };
}

/** SQLite uses a partial index only if the query repeats the index's condition word for word. */
const isIn = (status: 'pending' | 'given-up'): SQL => sql.raw(`status = '${status}'`);
const isPending = sql`${webhookDeliveries.status} = 'pending'`;

export function deliveryRows(database: Database): DeliveryRows {
  const joined = () =>
    database
      .select({ delivery: webhookDeliveries, event: events, endpointId: webhookEndpoints.id })
      .from(webhookDeliveries)
      .innerJoin(events, eq(events.seq, webhookDeliveries.eventSeq))
      .innerJoin(webhookEndpoints, eq(webhookEndpoints.seq, webhookDeliveries.endpointSeq));
  const insert = rowsInserter(database, webhookDeliveries);
  const waiting = database
    .select({
      seq: webhookDeliveries.seq,
      tries: webhookDeliveries.tries,
      webhookId: events.id,
      body: sql<string>`${events.body}`,
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
    .prepare();

  return {
    byId: async (id) => joined().where(eq(webhookDeliveries.id, id)).get() ?? null,
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
        .limit(limit)
        .all(),
    async insert(rows) {
      insert(rows);
    },
    waiting: async (endpointSeq, now, limit) => waiting.all({ endpointSeq, now, limit }),
    async defer(seqs, until) {
      database
        .update(webhookDeliveries)
        .set({ nextAttemptAt: until })
        .where(inArray(webhookDeliveries.seq, [...seqs]))
        .run();
    },
    pending: async (seq, tries) =>
      database
        .select()
        .from(webhookDeliveries)
        .where(and(eq(webhookDeliveries.seq, seq), eq(webhookDeliveries.tries, tries), isPending))
        .get() ?? null,
    async update(seq, changes) {
      database.update(webhookDeliveries).set(changes).where(eq(webhookDeliveries.seq, seq)).run();
    },
    async giveUpAll(endpointSeq) {
      database
        .update(webhookDeliveries)
        .set({ status: 'given-up', nextAttemptAt: null, version: sql`version + 1` })
        .where(and(eq(webhookDeliveries.endpointSeq, endpointSeq), isPending))
        .run();
    },
    count: async (status) =>
      database.select({ rows: count() }).from(webhookDeliveries).where(isIn(status)).get()!.rows,
    async removeBefore(createdAt) {
      database.delete(webhookDeliveries).where(lt(webhookDeliveries.createdAt, createdAt)).run();
      removeUndelivered(database, lt(events.createdAt, createdAt));
    },
  };
}

export function dueAxleRows(database: Database): DueAxleRows {
  const ofVehicle = database
    .select({ axle: dueAxles.axle })
    .from(dueAxles)
    .where(eq(dueAxles.vehicleSeq, sql.placeholder('vehicleSeq')))
    .prepare();
  const insert = rowsInserter(database, dueAxles);
  return {
    all: async () => database.select().from(dueAxles).all(),
    ofVehicle: async (vehicleSeq) => ofVehicle.all({ vehicleSeq }).map(({ axle }) => axle),
    async insert(rows) {
      insert(rows);
    },
    async remove(vehicleSeq, axle) {
      database
        .delete(dueAxles)
        .where(and(eq(dueAxles.vehicleSeq, vehicleSeq), eq(dueAxles.axle, axle)))
        .run();
    },
    async clear() {
      database.delete(dueAxles).run();
    },
  };
}

export function untoldRows(database: Database): UntoldRows {
  const find = selector(database, untoldVehicles, 'vehicle_seq = ?');
  const insert = inserter(database, untoldVehicles);
  return {
    all: async () =>
      database
        .select({ vehicleSeq: untoldVehicles.vehicleSeq })
        .from(untoldVehicles)
        .all()
        .map(({ vehicleSeq }) => vehicleSeq),
    find: async (vehicleSeq) => find(vehicleSeq)[0]?.before ?? null,
    async insert(vehicleSeq, before) {
      insert({ vehicleSeq, before });
    },
    async remove(vehicleSeq) {
      database.delete(untoldVehicles).where(eq(untoldVehicles.vehicleSeq, vehicleSeq)).run();
    },
    async clear() {
      database.delete(untoldVehicles).run();
    },
  };
}
