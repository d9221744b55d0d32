import { and, asc, desc, eq, gt, gte, isNull, or, sql, type SQL } from 'drizzle-orm';
import { itemAt, required } from '../../../../core/items.js';
import type { VisitItems, VisitRows, VisitSelection, VisitVersionRows } from '../../contract/visits.js';
import type { Database } from '../connections.js';
import { nestedRows } from '../nested.js';
import {
  conditions,
  notMeasured,
  readings,
  torques,
  vehicles,
  visits,
  visitVersions,
  workItems,
} from '../schema.js';

const PARTS = { readings, notMeasured, conditions, work: workItems, torques } as const;

type ItemTable = (typeof PARTS)[keyof typeof PARTS];

/** Reads the items that meet a condition, in the order in which they were sent. */
function itemsReader(condition: (part: ItemTable) => SQL) {
  const nested = <Table extends ItemTable>(part: Table) =>
    nestedRows(part, condition(part), sql`${part.visitSeq}, ${part.number}`);
  const from = {
    readings: nested(readings),
    notMeasured: nested(notMeasured),
    conditions: nested(conditions),
    work: nested(workItems),
    torques: nested(torques),
  };
  return {
    select: {
      readings: from.readings.select,
      notMeasured: from.notMeasured.select,
      conditions: from.conditions.select,
      work: from.work.select,
      torques: from.torques.select,
    },
    items: (read: Record<keyof VisitItems, unknown[][]>): VisitItems => ({
      readings: from.readings.rows(read.readings),
      notMeasured: from.notMeasured.rows(read.notMeasured),
      conditions: from.conditions.rows(read.conditions),
      work: from.work.rows(read.work),
      torques: from.torques.rows(read.torques),
    }),
  };
}

export function visitRows(database: Database): VisitRows {
  const byId = database
    .select({
      visit: visits,
      vehicle: {
        seq: vehicles.seq,
        id: vehicles.id,
        fleet: vehicles.fleet,
        body: vehicles.body,
        erasedAt: vehicles.erasedAt,
      },
    })
    .from(visits)
    .innerJoin(vehicles, eq(vehicles.seq, visits.vehicleSeq))
    .where(eq(visits.id, sql.placeholder('id')))
    .prepare('');
  const seqs = sql.placeholder('seqs');
  const ofVehicle = itemsReader((part) => sql`${part.vehicleSeq} = ${sql.placeholder('vehicleSeq')}`);
  const ofVisits = itemsReader((part) => sql`${part.visitSeq} = any(${seqs}::bigint[])`);
  const current = nestedRows(
    visits,
    sql`${visits.vehicleSeq} = ${sql.placeholder('vehicleSeq')} and ${visits.voided} is null`,
    sql`${visits.date}, ${visits.seq}`,
  );
  const history = database
    .select({ visits: current.select, ...ofVehicle.select })
    .from(sql`(select 1) one`)
    .prepare('');
  const items = database
    .select(ofVisits.select)
    .from(sql`(select 1) one`)
    .prepare('');

  return {
    byId: async (id) => (await byId.execute({ id }))[0] ?? null,
    async byWorkOrder(vehicleSeq, shop, workOrder) {
      const [row] = await database
        .select()
        .from(visits)
        .where(
          and(
            eq(visits.vehicleSeq, vehicleSeq),
            sql`coalesce(${visits.shop}, '') = ${shop ?? ''}`,
            eq(visits.workOrder, workOrder),
            isNull(visits.voided),
          ),
        );
      return row ?? null;
    },

    async historyOf(vehicleSeq) {
      const [read] = await history.execute({ vehicleSeq });
      return { visits: current.rows(read!.visits), items: ofVehicle.items(read!) };
    },

    async itemsOf(some) {
      const [read] = await items.execute({ seqs: some.map(({ seq }) => seq) });
      return ofVisits.items(read!);
    },
    allOf: async (vehicleSeq) =>
      database.select().from(visits).where(eq(visits.vehicleSeq, vehicleSeq)).orderBy(asc(visits.seq)),

    list: async (selection, limit) =>
      database
        .select()
        .from(visits)
        .where(isSelected(selection))
        .orderBy(desc(visits.date), desc(timeKey), desc(visits.seq))
        .limit(limit),

    async stateOf(vehicleSeq) {
      const [row] = await database
        .select({ state: sql<string>`concat_ws(' ', count(*), sum(${visits.version}), max(${visits.seq}))` })
        .from(visits)
        .where(eq(visits.vehicleSeq, vehicleSeq));
      return required(row, 'visit').state;
    },

    async insert(rows) {
      if (rows.length === 0) return [];
      const inserted = await database
        .insert(visits)
        .values([...rows])
        .returning({ seq: visits.seq });
      return inserted.map(({ seq }) => seq);
    },

    async update(seq, changes) {
      await database.update(visits).set(changes).where(eq(visits.seq, seq));
    },

    async insertItems(items) {
      if (items.readings.length > 0) await database.insert(readings).values(items.readings as never);
      if (items.notMeasured.length > 0) await database.insert(notMeasured).values(items.notMeasured as never);
      if (items.conditions.length > 0) await database.insert(conditions).values(items.conditions as never);
      if (items.work.length > 0) await database.insert(workItems).values(items.work as never);
      if (items.torques.length > 0) await database.insert(torques).values(items.torques as never);
    },

    async removeItems({ vehicleSeq, seq }) {
      for (const part of Object.values(PARTS))
        await database.delete(part).where(and(eq(part.vehicleSeq, vehicleSeq), eq(part.visitSeq, seq)));
    },

    async moveItems(from, to) {
      for (const part of Object.values(PARTS))
        await database.update(part).set({ vehicleSeq: to }).where(eq(part.vehicleSeq, from));
    },
  };
}

const timeKey = sql<string>`coalesce(${visits.time}, '')`;

function isSelected({ vehicleSeq, includeVoided, since, after }: VisitSelection): SQL | undefined {
  return and(
    eq(visits.vehicleSeq, vehicleSeq),
    includeVoided ? undefined : isNull(visits.voided),
    after
      ? sql`(${visits.date}, ${timeKey}, ${visits.seq}) < (${after[0]}, ${after[1]}, ${after[2]})`
      : undefined,
    since
      ? or(gt(visits.date, since.date), and(eq(visits.date, since.date), gte(visits.createdAt, since.at)))
      : undefined,
  );
}

export function visitVersionRows(database: Database): VisitVersionRows {
  const latest = database
    .select({ body: visitVersions.body })
    .from(visitVersions)
    .where(eq(visitVersions.visitSeq, sql.placeholder('visitSeq')))
    .orderBy(desc(visitVersions.version))
    .limit(1)
    .prepare('');
  return {
    async insert(rows) {
      if (rows.length > 0) await database.insert(visitVersions).values([...rows]);
    },
    latestBody: async (visitSeq) => itemAt(await latest.execute({ visitSeq }), 0).body,
    async page(visitSeq, after, limit) {
      const rows = await database
        .select({ version: visitVersions, vehicleId: vehicles.id })
        .from(visitVersions)
        .innerJoin(vehicles, eq(vehicles.seq, visitVersions.vehicleSeq))
        .where(and(eq(visitVersions.visitSeq, visitSeq), gt(visitVersions.version, after)))
        .orderBy(asc(visitVersions.version))
        .limit(limit);
      return rows.map(({ version, vehicleId }) => ({ ...version, vehicleId }));
    },
  };
}
