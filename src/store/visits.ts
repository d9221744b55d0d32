import { and, desc, eq, isNull, sql, type SQL } from 'drizzle-orm';
import { v7 as uuid } from 'uuid';
import { latestDateAt } from '../core/calendar.js';
import { inOrder, type History, type HistoryVisit } from '../core/history.js';
import { invalid, Refusal } from '../core/refusal.js';
import { withConversions } from '../core/units.js';
import { checkOthersInHistory, checkPlaceInHistory, contentIssues } from '../core/visitRules.js';
import type { EntryBody, Reading, Visit, VisitBody, WorkItem } from '../core/vocabulary/visit.js';
import { digestOf } from './digest.js';
import type { VehicleRow } from './findVehicle.js';
import { visitFinder } from './findVisit.js';
import type { VisitRow } from './history.js';
import { numbersAfter } from './itemNumbers.js';
import { outlookReader } from './outlookStore.js';
import type { StoreParts } from './parts.js';
import { conditions, notMeasured, readings, torques, visits, workItems } from './schema.js';
import type { Keep, Page, Paged, RecordedVisit, Scope, VisitStore } from './store.js';

type Contents = Pick<EntryBody, 'readings' | 'notMeasured' | 'conditions' | 'work' | 'torques'>;

export function visitStore(parts: StoreParts): VisitStore {
  const { database, clock, write, findVehicle, history, versions, writeOutlook, keepAnswer, settings } =
    parts;
  const find = visitFinder(database);
  const items = itemWriter(parts);
  const readOutlook = outlookReader(database);
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

  /** The visit of the same work order: null where there is none, refused where its content is another. */
  function knownVisit(vehicle: VehicleRow, body: VisitBody, contentDigest: string): VisitRow | null {
    const known = find.byWorkOrder(vehicle.seq, body);
    if (!known) return null;
    const standing = () => digestOf(versions.visitBody(known.seq));
    if (known.contentDigest === contentDigest || standing() === contentDigest) return known;
    throw workOrderKnown(body, known);
  }

  return {
    async record(scope: Scope, vehicleId: string, body: VisitBody, keep: Keep<RecordedVisit> | null) {
      return write(() => {
        const vehicle = findVehicle.standing(scope, vehicleId);
        const contentDigest = digestOf(body);
        const known = knownVisit(vehicle, body, contentDigest);
        if (known) {
          const visit = withoutArrival(history.visit(known, vehicle.id));
          const result = { visit, outlook: readOutlook(vehicle.seq), isNew: false };
          keepAnswer(keep, result);
          return result;
        }
        const earlier = history.visitsOf(vehicle.seq, vehicle.id);
        const id = uuid();
        const visits = inOrder([...earlier, asHistoryVisit(id, body, Number.MAX_SAFE_INTEGER)]);
        const after: History = { vehicle: vehicle.body, visits };
        checkPlaceInHistory(
          after,
          id,
          latestDateAt(clock()),
          contentIssues(vehicle.body, body, [], settings().gauges),
        );
        // A visit without a time may put the others of its day into another order.
        if (earlier.some(({ date }) => date === body.date))
          checkOthersInHistory({ vehicle: vehicle.body, visits: earlier }, after);

        const row = insert.get({
          id,
          vehicleSeq: vehicle.seq,
          ...headOf(body),
          contentDigest,
          now: clock().toISOString(),
        });
        items.insert(row, body, NONE_YET);
        versions.visit(scope, { ...sourceOf(row), version: 1, kind: 'recorded', at: row.createdAt, body });
        const outlook = writeOutlook(vehicle.seq, after);
        const result = { visit: withoutArrival(history.visit(row, vehicle.id)), outlook, isNew: true };
        keepAnswer(keep, result);
        return result;
      });
    },

    async add(scope: Scope, visitId: string, entry: EntryBody, keep: Keep<RecordedVisit> | null) {
      return write(() => {
        const { visit: row, vehicle } = find.visit(scope, visitId);
        refuseVoided(row);
        const before = history.visit(row, vehicle.id);
        const issues = contentIssues(vehicle.body, entry, before.readings, settings().gauges);
        if (issues.length > 0) throw invalid(issues);
        if (entry.roadTest && before.roadTest) {
          throw new Refusal('conflict', 'road-test-recorded', 'this visit has its road test already', [], {
            visitId,
          });
        }
        const standing = versions.visitBody(row.seq);
        const body = withEntry(standing, entry);
        const next = {
          version: row.version + 1,
          updatedAt: clock().toISOString(),
          roadTest: entry.roadTest ?? row.roadTest,
          itemNumbers: row.itemNumbers && numbersAfter(row.itemNumbers, standing, body),
        };
        database.update(visits).set(next).where(eq(visits.seq, row.seq)).run();
        items.insert(row, entry, {
          readings: before.readings.length,
          notMeasured: before.notMeasured.length,
          conditions: before.conditions.length,
          work: before.work.length,
          torques: before.torques.length,
        });
        versions.visit(scope, {
          ...sourceOf(row),
          version: next.version,
          kind: 'entries-added',
          at: next.updatedAt,
          body,
        });
        const outlook = writeOutlook(vehicle.seq, {
          vehicle: vehicle.body,
          visits: history.visitsOf(vehicle.seq, vehicle.id),
        });
        const visit = withoutArrival(history.visit({ ...row, ...next }, vehicle.id));
        const result = { visit, outlook, isNew: true };
        keepAnswer(keep, result);
        return result;
      });
    },

    async get(scope: Scope, id: string) {
      const { visit, vehicle } = find.visit(scope, id);
      return withoutArrival(history.visit(visit, vehicle.id));
    },

    async list(
      scope: Scope,
      vehicleId: string,
      { includeVoided }: { includeVoided: boolean },
      page: Page,
    ): Promise<Paged<Visit>> {
      const vehicle = findVehicle.standing(scope, vehicleId);
      const rows = database
        .select()
        .from(visits)
        .where(
          and(
            eq(visits.vehicleSeq, vehicle.seq),
            includeVoided ? undefined : isNull(visits.voided),
            page.after ? before(page.after) : undefined,
          ),
        )
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

export function withoutArrival({ arrival: _arrival, ...visit }: Visit & { arrival: number }): Visit {
  return visit;
}

export function workOrderKnown({ workOrder }: VisitBody, known: VisitRow): Refusal {
  const detail = `work order ${workOrder} is recorded already with other content, as visit ${known.id}`;
  return new Refusal('conflict', 'work-order-known', detail, [], { visitId: known.id });
}

/** @throws Refusal when a visit is voided: only its restoring may change it */
export function refuseVoided({ id, voided }: VisitRow): void {
  if (!voided) return;
  const detail = `this visit was voided (${voided.reason}); an owner may restore it`;
  throw new Refusal('conflict', 'visit-voided', detail, [], { visitId: id });
}

/** The columns of a visit's own row that come from its body. */
export function headOf(body: VisitBody) {
  return {
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
  };
}

export const NONE_YET = { readings: 0, notMeasured: 0, conditions: 0, work: 0, torques: 0 };

/** What a version of a visit hangs on. */
export const sourceOf = ({ id, seq, vehicleSeq }: VisitRow) => ({ id, visitSeq: seq, vehicleSeq });

/** A visit's body with what was added later. */
function withEntry(body: VisitBody, entry: EntryBody): VisitBody {
  const joined = <Part extends keyof Contents>(part: Part): Contents[Part] =>
    entry[part] ? ([...(body[part] ?? []), ...entry[part]] as Contents[Part]) : body[part];
  return {
    ...body,
    readings: joined('readings'),
    notMeasured: joined('notMeasured'),
    conditions: joined('conditions'),
    work: joined('work'),
    torques: joined('torques'),
    roadTest: entry.roadTest ?? body.roadTest,
  };
}

/** A visit's body as the core sees it, before it is stored. */
export function asHistoryVisit(id: string, body: VisitBody, arrival: number): HistoryVisit {
  const { date, time, odometer, odometerReplaced, roadTest } = body;
  const withIds = <Item>(list: readonly object[] | null | undefined): Item[] =>
    withConversions((list ?? []).map((item) => ({ id: '', ...item }))) as Item[];
  return {
    id,
    arrival,
    date,
    time: time ?? null,
    odometer: withConversions(odometer ?? null) as HistoryVisit['odometer'],
    odometerReplaced: withConversions(odometerReplaced ?? null) as HistoryVisit['odometerReplaced'],
    readings: withIds<Reading>(body.readings),
    work: withIds<WorkItem>(body.work),
    torques: withIds<HistoryVisit['torques'][number]>(body.torques),
    conditions: body.conditions ?? [],
    notMeasured: body.notMeasured ?? [],
    roadTest: roadTest ?? null,
  };
}

/** Writes the items of a visit, each numbered on from those it has already. */
export function itemWriter({ database }: StoreParts) {
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
    /** Takes all items of a visit away, so that those of a corrected one can be written. */
    clear(visit: VisitRow): void {
      for (const part of [readings, notMeasured, conditions, workItems, torques]) {
        database
          .delete(part)
          .where(and(eq(part.vehicleSeq, visit.vehicleSeq), eq(part.visitSeq, visit.seq)))
          .run();
      }
    },
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
          ...('shoe' in row ? { pad: row.shoe } : {}),
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
