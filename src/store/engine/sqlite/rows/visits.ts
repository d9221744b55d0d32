import { and, asc, desc, eq, gt, gte, isNull, or, sql, type SQL } from 'drizzle-orm';
import type { VisitItems, VisitRows, VisitSelection, VisitVersionRows } from '../../contract/visits.js';
import type { Database } from '../connection.js';
import { inserter, rowsInserter } from '../inserts.js';
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
import { selector } from '../selects.js';
import { visitsStateReader } from '../statements.js';

const ITEMS = [readings, notMeasured, conditions, workItems, torques] as const;

/** Reads the items that meet a condition. */
function itemsReader(database: Database, condition: string): (...parameters: number[]) => VisitItems {
  const from = {
    readings: selector(database, readings, condition),
    notMeasured: selector(database, notMeasured, condition),
    conditions: selector(database, conditions, condition),
    work: selector(database, workItems, condition),
    torques: selector(database, torques, condition),
  };
  return (...parameters) => ({
    readings: from.readings(...parameters),
    notMeasured: from.notMeasured(...parameters),
    conditions: from.conditions(...parameters),
    work: from.work(...parameters),
    torques: from.torques(...parameters),
  });
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
    .prepare();
  const byWorkOrder = selector(
    database,
    visits,
    "vehicle_seq = ? and (case when shop is null then '' else shop end) = ? and work_order = ? and voided is null",
  );
  const current = selector(database, visits, 'vehicle_seq = ? and voided is null order by date, seq');
  const itemsOfVehicle = itemsReader(database, 'vehicle_seq = ?');
  const itemsOfVisit = itemsReader(database, 'vehicle_seq = ? and visit_seq = ?');
  const stateOf = visitsStateReader(database);
  const insert = inserter(database, visits);
  const insertReadings = rowsInserter(database, readings);
  const insertNotMeasured = rowsInserter(database, notMeasured);
  const insertConditions = rowsInserter(database, conditions);
  const insertWork = rowsInserter(database, workItems);
  const insertTorques = rowsInserter(database, torques);

  return {
    byId: async (id) => byId.get({ id }) ?? null,
    byWorkOrder: async (vehicleSeq, shop, workOrder) =>
      byWorkOrder(vehicleSeq, shop ?? '', workOrder)[0] ?? null,

    async historyOf(vehicleSeq) {
      const rows = current(vehicleSeq);
      return { visits: rows, items: rows.length > 0 ? itemsOfVehicle(vehicleSeq) : NO_ITEMS };
    },

    itemsOf: async (some) => joined(some.map(({ vehicleSeq, seq }) => itemsOfVisit(vehicleSeq, seq))),
    allOf: async (vehicleSeq) =>
      database.select().from(visits).where(eq(visits.vehicleSeq, vehicleSeq)).all(),

    list: async (selection, limit) =>
      database
        .select()
        .from(visits)
        .where(isSelected(selection))
        .orderBy(desc(visits.date), desc(timeKey), desc(visits.seq))
        .limit(limit)
        .all(),

    stateOf: async (vehicleSeq) => stateOf(vehicleSeq),
    insert: async (rows) => rows.map((row) => insert(row)),

    async update(seq, changes) {
      database.update(visits).set(changes).where(eq(visits.seq, seq)).run();
    },

    async insertItems(items) {
      insertReadings(items.readings);
      insertNotMeasured(items.notMeasured);
      insertConditions(items.conditions);
      insertWork(items.work);
      insertTorques(items.torques);
    },

    async removeItems({ vehicleSeq, seq }) {
      for (const part of ITEMS)
        database
          .delete(part)
          .where(and(eq(part.vehicleSeq, vehicleSeq), eq(part.visitSeq, seq)))
          .run();
    },

    async moveItems(from, to) {
      for (const part of ITEMS)
        database.update(part).set({ vehicleSeq: to }).where(eq(part.vehicleSeq, from)).run();
    },
  };
}

function joined(items: readonly VisitItems[]): VisitItems {
  const [first, ...others] = items;
  if (first && others.length === 0) return first;
  return {
    readings: items.flatMap(({ readings }) => readings),
    notMeasured: items.flatMap(({ notMeasured }) => notMeasured),
    conditions: items.flatMap(({ conditions }) => conditions),
    work: items.flatMap(({ work }) => work),
    torques: items.flatMap(({ torques }) => torques),
  };
}

const NO_ITEMS: VisitItems = { readings: [], notMeasured: [], conditions: [], work: [], torques: [] };

const timeKey = sql<string>`ifnull(${visits.time}, '')`;

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
  const insert = rowsInserter(database, visitVersions);
  const latest = database
    .select({ body: visitVersions.body })
    .from(visitVersions)
    .where(eq(visitVersions.visitSeq, sql.placeholder('visitSeq')))
    .orderBy(desc(visitVersions.version))
    .limit(1)
    .prepare();
  return {
    async insert(rows) {
      insert(rows);
    },
    latestBody: async (visitSeq) => latest.get({ visitSeq })!.body,
    page: async (visitSeq, after, limit) =>
      database
        .select({ version: visitVersions, vehicleId: vehicles.id })
        .from(visitVersions)
        .innerJoin(vehicles, eq(vehicles.seq, visitVersions.vehicleSeq))
        .where(and(eq(visitVersions.visitSeq, visitSeq), gt(visitVersions.version, after)))
        .orderBy(asc(visitVersions.version))
        .limit(limit)
        .all()
        .map(({ version, vehicleId }) => ({ ...version, vehicleId })),
  };
}
