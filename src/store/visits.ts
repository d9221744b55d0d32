import { and, desc, eq, sql, type SQL } from 'drizzle-orm';
import { v7 as uuid } from 'uuid';
import { latestDateAt } from '../core/calendar.js';
import { asHistoryVisit, inOrder, type History } from '../core/history.js';
import { invalid, notFound, Refusal } from '../core/refusal.js';
import { checkPlaceInHistory, contentIssues } from '../core/visitRules.js';
import type { EntryBody, Visit, VisitBody } from '../core/vocabulary/visit.js';
import { digestOf } from './digest.js';
import type { VisitRow } from './history.js';
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
  const insert = database
    .insert(visits)
    .values({
      id: sql.placeholder('id'),
      vehicleSeq: sql.placeholder('vehicleSeq'),
      version: 1,
      date: sql.placeholder('date'),
      time: sql.placeholder('time'),
      odometerValue: sql.placeholder('odometerValue'),
      odometerUnit: sql.placeholder('odometerUnit'),
      odometerReplaced: sql.placeholder('odometerReplaced'),
      workOrder: sql.placeholder('workOrder'),
      shop: sql.placeholder('shop'),
      technician: sql.placeholder('technician'),
      complaint: sql.placeholder('complaint'),
      notes: sql.placeholder('notes'),
      roadTest: sql.placeholder('roadTest'),
      contentDigest: sql.placeholder('contentDigest'),
      createdAt: sql.placeholder('now'),
      updatedAt: sql.placeholder('now'),
    })
    .returning()
    .prepare();

  return {
    insert(vehicleSeq: number, id: string, body: VisitBody): VisitRow {
      const row = insert.get({
        id,
        vehicleSeq,
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
        now: clock().toISOString(),
      });
      items.insert(row, body, { readings: 0, notMeasured: 0, conditions: 0, work: 0, torques: 0 });
      return row;
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
  const ofVisit = {
    vehicleSeq: sql.placeholder('vehicleSeq'),
    visitSeq: sql.placeholder('visitSeq'),
    number: sql.placeholder('number'),
    axle: sql.placeholder('axle'),
    side: sql.placeholder('side'),
  };
  const insertReading = database
    .insert(readings)
    .values({
      ...ofVisit,
      kind: sql.placeholder('kind'),
      pad: sql.placeholder('pad'),
      at: sql.placeholder('at'),
      point: sql.placeholder('point'),
      repeat: sql.placeholder('repeat'),
      value: sql.placeholder('value'),
      unit: sql.placeholder('unit'),
      taken: sql.placeholder('taken'),
      gauge: sql.placeholder('gauge'),
    })
    .prepare();
  const insertNotMeasured = database
    .insert(notMeasured)
    .values({
      ...ofVisit,
      part: sql.placeholder('part'),
      pad: sql.placeholder('pad'),
      why: sql.placeholder('why'),
    })
    .prepare();
  const insertCondition = database
    .insert(conditions)
    .values({
      ...ofVisit,
      part: sql.placeholder('part'),
      pad: sql.placeholder('pad'),
      state: sql.placeholder('state'),
      notes: sql.placeholder('notes'),
    })
    .prepare();
  const insertWork = database
    .insert(workItems)
    .values({ ...ofVisit, kind: sql.placeholder('kind'), body: sql.placeholder('body') })
    .prepare();
  const insertTorque = database
    .insert(torques)
    .values({
      ...ofVisit,
      fastener: sql.placeholder('fastener'),
      position: sql.placeholder('position'),
      value: sql.placeholder('value'),
      unit: sql.placeholder('unit'),
    })
    .prepare();

  return {
    insert(visit: VisitRow, contents: Contents, already: Record<keyof Contents, number>): void {
      const rows = <Item extends { side?: unknown }>(
        name: keyof Contents,
        list: readonly Item[] | null | undefined,
      ) =>
        (list ?? []).map((item, index) => ({
          vehicleSeq: visit.vehicleSeq,
          visitSeq: visit.seq,
          number: already[name] + index + 1,
          ...item,
          side: item.side ?? null,
        }));
      for (const row of rows('readings', contents.readings)) {
        const where = { pad: null, at: null, point: null };
        insertReading.run({
          ...where,
          ...row,
          gauge: row.gauge ?? null,
          ...('point' in row ? { point: row.point ?? null } : {}),
        });
      }
      for (const row of rows('notMeasured', contents.notMeasured)) {
        insertNotMeasured.run({ ...row, part: row.part ?? null, pad: row.pad ?? null });
      }
      for (const row of rows('conditions', contents.conditions)) {
        insertCondition.run({ ...row, pad: row.pad ?? null, notes: row.notes ?? null });
      }
      for (const [index, row] of rows('work', contents.work).entries()) {
        insertWork.run({ ...row, axle: row.axle ?? null, body: contents.work![index]! });
      }
      for (const row of rows('torques', contents.torques))
        insertTorque.run({ ...row, position: row.position ?? null });
    },
  };
}
