import { and, desc, eq, sql, type SQL } from 'drizzle-orm';
import { v7 as uuid } from 'uuid';
import { latestDateAt } from '../core/calendar.js';
import { asHistoryVisit, inOrder, type History } from '../core/history.js';
import { invalid, notFound, Refusal } from '../core/refusal.js';
import { checkPlaceInHistory, contentIssues } from '../core/visitRules.js';
import type { EntryBody, Visit, VisitBody } from '../core/vocabulary/visit.js';
import { digestOf } from './digest.js';
import type { VisitRow } from './history.js';
import { inserter } from './inserts.js';
import { outlookReader } from './outlookStore.js';
import type { StoreParts } from './parts.js';
import { conditions, notMeasured, readings, torques, vehicles, visits, workItems } from './schema.js';
import type { Keep, Page, Paged, RecordedVisit, Scope, VisitStore } from './store.js';
import { isInScope, type VehicleRow } from './vehicles.js';

type Contents = Pick<EntryBody, 'readings' | 'notMeasured' | 'conditions' | 'work' | 'torques'>;

export function visitStore(parts: StoreParts): VisitStore {
  const { database, clock, write, history, writeOutlook, keepAnswer } = parts;
  const recorder = visitRecorder(parts);
  const readOutlook = outlookReader(database);
  const vehicleById = database
    .select()
    .from(vehicles)
    .where(eq(vehicles.id, sql.placeholder('id')))
    .prepare();
  const visitById = database
    .select({
      visit: visits,
      vehicle: { seq: vehicles.seq, id: vehicles.id, fleet: vehicles.fleet, body: vehicles.body },
    })
    .from(visits)
    .innerJoin(vehicles, eq(vehicles.seq, visits.vehicleSeq))
    .where(eq(visits.id, sql.placeholder('id')))
    .prepare();
  const byWorkOrder = database
    .select()
    .from(visits)
    .where(
      and(
        eq(visits.vehicleSeq, sql.placeholder('vehicleSeq')),
        eq(sql`(case when shop is null then '' else shop end)`, sql.placeholder('shop')),
        eq(visits.workOrder, sql.placeholder('workOrder')),
      ),
    )
    .prepare();
  function findVehicle(scope: Scope, id: string): VehicleRow {
    const row = vehicleById.get({ id });
    if (!row || !isInScope(row, scope)) throw notFound('vehicle');
    return row;
  }

  function findVisit(scope: Scope, id: string) {
    const found = visitById.get({ id });
    if (!found || !isInScope(found.vehicle, scope)) throw notFound('visit');
    return found;
  }

  /** The visit of the same work order: null where there is none, refused where its content is another. */
  function knownVisit(vehicle: VehicleRow, body: VisitBody): VisitRow | null {
    if (body.workOrder == null) return null;
    const known = byWorkOrder.get({
      vehicleSeq: vehicle.seq,
      shop: body.shop ?? '',
      workOrder: body.workOrder,
    });
    if (!known) return null;
    if (known.contentDigest === digestOf(body)) return known;
    const detail = `work order ${body.workOrder} is recorded already with other content, as visit ${known.id}`;
    throw new Refusal('conflict', 'work-order-known', detail, [], { visitId: known.id });
  }

  return {
    async record(scope: Scope, vehicleId: string, body: VisitBody, keep: Keep<RecordedVisit> | null) {
      return write(() => {
        const vehicle = findVehicle(scope, vehicleId);
        const known = knownVisit(vehicle, body);
        if (known) {
          const visit = withoutArrival(history.visit(known, vehicle.id));
          const result = { visit, outlook: readOutlook(vehicle.seq), isNew: false };
          keepAnswer(keep, result);
          return result;
        }
        const earlier = history.visitsOf(vehicle.seq, vehicle.id);
        const id = uuid();
        const visits = inOrder([...earlier, asHistoryVisit(id, body)]);
        const after: History = { vehicle: vehicle.body, visits };
        checkPlaceInHistory(after, id, latestDateAt(clock()), contentIssues(vehicle.body, body));

        const row = recorder.insert(vehicle.seq, id, body);
        const outlook = writeOutlook(vehicle.seq, after);
        const result = { visit: withoutArrival(history.visit(row, vehicle.id)), outlook, isNew: true };
        keepAnswer(keep, result);
        return result;
      });
    },

    async add(scope: Scope, visitId: string, entry: EntryBody, keep: Keep<RecordedVisit> | null) {
      return write(() => {
        const { visit: row, vehicle } = findVisit(scope, visitId);
        const before = history.visit(row, vehicle.id);
        const issues = contentIssues(vehicle.body, entry, before.readings);
        if (issues.length > 0) throw invalid(issues);
        if (entry.roadTest && before.roadTest) {
          throw new Refusal('conflict', 'road-test-recorded', 'this visit has its road test already', [], {
            visitId,
          });
        }
        const extended = recorder.extend(row, before, entry);
        const outlook = writeOutlook(vehicle.seq, {
          vehicle: vehicle.body,
          visits: history.visitsOf(vehicle.seq, vehicle.id),
        });
        const visit = withoutArrival(history.visit(extended, vehicle.id));
        const result = { visit, outlook, isNew: true };
        keepAnswer(keep, result);
        return result;
      });
    },

    async get(scope: Scope, id: string) {
      const { visit, vehicle } = findVisit(scope, id);
      return withoutArrival(history.visit(visit, vehicle.id));
    },

    async list(scope: Scope, vehicleId: string, page: Page): Promise<Paged<Visit>> {
      const vehicle = findVehicle(scope, vehicleId);
      const rows = database
        .select()
        .from(visits)
        .where(and(eq(visits.vehicleSeq, vehicle.seq), page.after ? before(page.after) : undefined))
        .orderBy(desc(visits.date), desc(timeKey), desc(visits.seq))
        .limit(page.limit + 1)
        .all();
      const shown = rows.slice(0, page.limit);
      const last = shown.at(-1);
      return {
        items: shown.map((row) => withoutArrival(history.visit(row, vehicle.id))),
        next: rows.length > page.limit && last ? [last.date, last.time ?? '', last.seq] : null,
      };
    },
  };
}

const timeKey = sql<string>`ifnull(${visits.time}, '')`;

function before([date, time, seq]: readonly (string | number)[]): SQL {
  return sql`(${visits.date}, ${timeKey}, ${visits.seq}) < (${date}, ${time}, ${seq})`;
}

function withoutArrival({ arrival: _arrival, ...visit }: Visit & { arrival: number }): Visit {
  return visit;
}

/** Writes visits and what is added to them; to be called within a transaction, once they have been checked. */
export function visitRecorder(parts: StoreParts) {
  const { database, clock } = parts;
  const items = itemWriter(parts);
  const insertVisit = inserter(database, visits);

  return {
    insert(vehicleSeq: number, id: string, body: VisitBody): VisitRow {
      const now = clock().toISOString();
      const row = {
        id,
        vehicleSeq,
        version: 1,
        date: body.date,
        time: body.time ?? null,
        odometerValue: body.odometer?.value ?? null,
        odometerUnit: body.odometer?.unit ?? null,
        odometerReplaced: body.odometerReplaced ?? null,
        workOrder: body.workOrder ?? null,
        shop: body.shop ?? null,
        technician: body.technician ?? null,
        complaint: body.complaint ?? null,
        notes: body.notes ?? null,
        roadTest: body.roadTest ?? null,
        contentDigest: digestOf(body),
        createdAt: now,
        updatedAt: now,
      };
      const stored = { ...row, seq: insertVisit(row) };
      items.insert(stored, body, { readings: 0, notMeasured: 0, conditions: 0, work: 0, torques: 0 });
      return stored;
    },

    /** @param before the visit as it is stored */
    extend(row: VisitRow, before: Visit, entry: EntryBody): VisitRow {
      const next = {
        version: row.version + 1,
        updatedAt: clock().toISOString(),
        roadTest: entry.roadTest ?? row.roadTest,
      };
      database.update(visits).set(next).where(eq(visits.seq, row.seq)).run();
      items.insert(row, entry, {
        readings: before.readings.length,
        notMeasured: before.notMeasured.length,
        conditions: before.conditions.length,
        work: before.work.length,
        torques: before.torques.length,
      });
      return { ...row, ...next };
    },
  };
}

/** Writes the items of a visit, each numbered on from those it has already. */
function itemWriter({ database }: StoreParts) {
  const insertReading = inserter(database, readings);
  const insertNotMeasured = inserter(database, notMeasured);
  const insertCondition = inserter(database, conditions);
  const insertWork = inserter(database, workItems);
  const insertTorque = inserter(database, torques);

  return {
    insert(visit: VisitRow, contents: Contents, already: Record<keyof Contents, number>): void {
      const { vehicleSeq, seq: visitSeq } = visit;
      const place = (name: keyof Contents, index: number) => ({
        vehicleSeq,
        visitSeq,
        number: already[name] + index + 1,
      });
      contents.readings?.forEach((item, index) => insertReading({ ...item, ...place('readings', index) }));
      contents.notMeasured?.forEach((item, index) =>
        insertNotMeasured({ ...item, ...place('notMeasured', index) }),
      );
      contents.conditions?.forEach((item, index) =>
        insertCondition({ ...item, ...place('conditions', index) }),
      );
      contents.work?.forEach((item, index) => {
        const { kind, axle, side } = item;
        insertWork({ kind, axle, side, body: item, ...place('work', index) });
      });
      contents.torques?.forEach((item, index) => insertTorque({ ...item, ...place('torques', index) }));
    },
  };
}
