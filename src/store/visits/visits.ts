import { and, desc, eq, isNull, sql, type SQL } from 'drizzle-orm';
import { v7 as uuid } from 'uuid';
import { latestDateAt } from '../../core/calendar.js';
import { asHistoryVisit, inOrder, type History } from '../../core/history.js';
import { invalid, Refusal } from '../../core/refusal.js';
import { checkOthersInHistory, checkPlaceInHistory, contentIssues } from '../../core/visitRules.js';
import type { VisitPart } from '../../core/vocabulary/terms.js';
import { VisitBody, type EntryBody, type Visit } from '../../core/vocabulary/visit.js';
import { digestOf } from '../../digest.js';
import { refuseErased, type VehicleRow } from '../vehicles/findVehicle.js';
import { visitFinder } from './findVisit.js';
import type { VisitRow } from './history.js';
import { inserter, rowsInserter } from '../engine/sqlite/inserts.js';
import { numbersAfter } from './itemNumbers.js';
import { workOut } from '../outlooks/outlooks.js';
import { outlookReader } from '../outlooks/outlookStore.js';
import { pageOf, rowsFor } from '../paging.js';
import type { StoreParts } from '../parts.js';
import { conditions, notMeasured, readings, torques, visits, workItems } from '../engine/sqlite/schema.js';
import type { Caller } from '../contract/caller.js';
import type { Keep } from '../contract/idempotency.js';
import type { Page, Paged } from '../contract/paging.js';
import type { RecordedVisit, VisitStore } from '../contract/visits.js';
import { fingerprinter } from '../outlooks/vehicleState.js';

type Contents = Pick<EntryBody, VisitPart>;

export function visitStore(parts: StoreParts): VisitStore {
  const { database, clock, write, findVehicle, history, versions, outcomes, settings } = parts;
  const { experience, shareWork, recordOutlook, writeOutlook, sightOf } = parts;
  const fingerprintOf = fingerprinter(parts);
  const find = visitFinder(database);
  const recorder = visitRecorder(parts);
  const readOutlook = outlookReader(database);
  /**
   * The visit of the same work order: null if there is none.
   *
   * @throws Refusal if its content is different
   */
  function knownVisit(vehicle: VehicleRow, body: VisitBody): VisitRow | null {
    const known = find.byWorkOrder(vehicle.seq, body);
    if (!known) return null;
    const contentDigest = digestOf(body);
    // Parse it again as today: an early program stored texts as typed.
    const standing = () => digestOf(VisitBody.parse(versions.visitBody(known.seq)));
    if (known.contentDigest === contentDigest || standing() === contentDigest) return known;
    throw workOrderKnown(body, known);
  }

  /**
   * The history with a visit that is not recorded yet.
   *
   * @throws Refusal if the visit cannot be placed there
   */
  function historyWith(vehicle: VehicleRow, id: string, body: VisitBody): History {
    const earlier = history.visitsOf(vehicle.seq, vehicle.id);
    const visits = inOrder([...earlier, asHistoryVisit(id, body, Number.MAX_SAFE_INTEGER)]);
    const after: History = { vehicle: vehicle.body, visits };
    checkPlaceInHistory(
      after,
      id,
      latestDateAt(clock()),
      contentIssues(vehicle.body, body, [], settings().gauges),
    );
    // A visit without a time may change the order of the day's other visits.
    if (earlier.some(({ date }) => date === body.date))
      checkOthersInHistory({ vehicle: vehicle.body, visits: earlier }, after);
    return after;
  }

  /**
   * Computes the outlook of a visit before the transaction that records it, so that the slow part blocks no other
   * writer and can be offloaded. Null if the work order is recorded already.
   */
  async function foresee(caller: Caller, vehicleId: string, id: string, body: VisitBody) {
    // One transaction, to read a consistent state.
    const seen = database.transaction(() => {
      const vehicle = findVehicle.open(caller, vehicleId);
      if (knownVisit(vehicle, body)) return null;
      const after = historyWith(vehicle, id, body);
      return { fingerprint: fingerprintOf(vehicle), after, known: experience(), inForce: settings() };
    });
    if (!seen) return null;
    const { fingerprint, after, known, inForce } = seen;
    return { fingerprint, worked: await shareWork(after, known, inForce) };
  }

  return {
    async record(caller: Caller, vehicleId: string, body: VisitBody, keep: Keep<RecordedVisit> | null) {
      const id = uuid();
      const foreseen = await foresee(caller, vehicleId, id, body);
      return write(() => {
        const vehicle = findVehicle.open(caller, vehicleId);
        const known = knownVisit(vehicle, body);
        if (known) {
          const visit = withoutArrival(history.visit(known, vehicle.id));
          const result = { visit, outlook: readOutlook(vehicle.seq), isNew: false };
          outcomes.keep(keep, result);
          return result;
        }
        // Recompute if anything has changed since.
        const worked =
          foreseen?.fingerprint === fingerprintOf(vehicle)
            ? foreseen.worked
            : workOut(historyWith(vehicle, id, body), experience(), settings());
        const row = recorder.insert(caller, vehicle.seq, id, body);
        recordOutlook(vehicle.seq, vehicle.body, worked, 'history');
        const visit = withoutArrival(history.visit(row, vehicle.id));
        const result = { visit, outlook: worked.outlook, isNew: true };
        outcomes.keep(keep, result);
        return result;
      });
    },

    async add(caller: Caller, visitId: string, entry: EntryBody, keep: Keep<RecordedVisit> | null) {
      return write(() => {
        const { visit: row, vehicle } = find.visit(caller, visitId);
        refuseErased(vehicle);
        refuseVoided(row);
        const before = history.visit(row, vehicle.id);
        const issues = contentIssues(vehicle.body, entry, before.readings, settings().gauges);
        if (issues.length > 0) throw invalid(issues);
        if (entry.roadTest && before.roadTest) {
          throw new Refusal(
            'conflict',
            'road-test-recorded',
            'this visit already has a road test; correct the visit to change it',
            [],
            {
              visitId,
            },
          );
        }
        const extended = recorder.extend(caller, row, before, entry);
        const outlook = writeOutlook(vehicle.seq, {
          vehicle: vehicle.body,
          visits: history.visitsOf(vehicle.seq, vehicle.id),
        });
        const visit = withoutArrival(history.visit(extended, vehicle.id));
        const result = { visit, outlook, isNew: true };
        outcomes.keep(keep, result);
        return result;
      });
    },

    async get(caller: Caller, id: string) {
      const { visit, vehicle } = find.visit(caller, id);
      const sight = sightOf(caller, vehicle.seq);
      sight.refuseHidden(visit);
      return sight.visit(withoutArrival(history.visit(visit, vehicle.id)));
    },

    async list(
      caller: Caller,
      vehicleId: string,
      { includeVoided }: { includeVoided: boolean },
      page: Page,
    ): Promise<Paged<Visit>> {
      const vehicle = findVehicle.standing(caller, vehicleId);
      const sight = sightOf(caller, vehicle.seq);
      const rows = database
        .select()
        .from(visits)
        .where(
          and(
            eq(visits.vehicleSeq, vehicle.seq),
            includeVoided ? undefined : isNull(visits.voided),
            page.after ? before(page.after) : undefined,
            sight.condition,
          ),
        )
        .orderBy(desc(visits.date), desc(timeKey), desc(visits.seq))
        .limit(rowsFor(page))
        .all();
      return pageOf(
        rows,
        page,
        (row) => sight.visit(withoutArrival(history.visit(row, vehicle.id))),
        ({ date, time, seq }) => [date, time ?? '', seq],
      );
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
  const detail = `work order ${workOrder} is already recorded with different content as visit ${known.id}`;
  return new Refusal('conflict', 'work-order-known', detail, [], { visitId: known.id });
}

/** @throws Refusal if a visit is voided: it can only be restored */
export function refuseVoided({ id, voided }: VisitRow): void {
  if (!voided) return;
  const detail = `this visit was voided (${voided.reason}); an owner can restore it`;
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

/** Foreign keys of a visit version. */
export const sourceOf = ({ id, seq, vehicleSeq }: VisitRow) => ({ id, visitSeq: seq, vehicleSeq });

/** A visit's body including what was added later. */
function bodyWithEntry(body: VisitBody, entry: EntryBody): VisitBody {
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

/** Writes visits and additions to them; call within a transaction, after the checks. */
export function visitRecorder(parts: StoreParts) {
  const { database, clock, versions } = parts;
  const items = itemWriter(parts);
  const insertVisit = inserter(database, visits);

  /** Visits of one vehicle, in order of arrival. */
  function insertAll(
    caller: Caller,
    vehicleSeq: number,
    bodies: readonly { id: string; body: VisitBody }[],
  ): VisitRow[] {
    const now = clock().toISOString();
    const stored = bodies.map(({ id, body }) => {
      const row = {
        id,
        vehicleSeq,
        version: 1,
        ...headOf(body),
        contentDigest: digestOf(body),
        voided: null,
        itemNumbers: null,
        createdAt: now,
        updatedAt: now,
      };
      return { visit: { ...row, seq: insertVisit(row) }, body };
    });
    items.insert(stored.map(({ visit, body }) => ({ visit, contents: body, already: NONE_YET })));
    const recorded = { version: 1, kind: 'recorded', at: now } as const;
    versions.visits(
      caller,
      stored.map(({ visit, body }) => ({ ...sourceOf(visit), ...recorded, body })),
    );
    return stored.map(({ visit }) => visit);
  }

  return {
    insertAll,
    insert: (caller: Caller, vehicleSeq: number, id: string, body: VisitBody): VisitRow =>
      insertAll(caller, vehicleSeq, [{ id, body }])[0]!,

    /** @param before the visit as stored */
    extend(caller: Caller, row: VisitRow, before: Visit, entry: EntryBody): VisitRow {
      const standing = versions.visitBody(row.seq);
      const body = bodyWithEntry(standing, entry);
      const next = {
        version: row.version + 1,
        updatedAt: clock().toISOString(),
        roadTest: entry.roadTest ?? row.roadTest,
        itemNumbers: row.itemNumbers && numbersAfter(row.itemNumbers, standing, body),
      };
      database.update(visits).set(next).where(eq(visits.seq, row.seq)).run();
      const already = {
        readings: before.readings.length,
        notMeasured: before.notMeasured.length,
        conditions: before.conditions.length,
        work: before.work.length,
        torques: before.torques.length,
      };
      items.insert([{ visit: row, contents: entry, already }]);
      versions.visit(caller, {
        ...sourceOf(row),
        version: next.version,
        kind: 'entries-added',
        at: next.updatedAt,
        body,
      });
      return { ...row, ...next };
    },
  };
}

/** The rows of a visit other than its own. */
interface VisitItems {
  visit: VisitRow;
  contents: Contents;
  already: Record<keyof Contents, number>;
}

/** Writes the items of visits, numbered after those that the visit already has. */
export function itemWriter({ database }: StoreParts) {
  const insertReadings = rowsInserter(database, readings);
  const insertNotMeasured = rowsInserter(database, notMeasured);
  const insertConditions = rowsInserter(database, conditions);
  const insertWork = rowsInserter(database, workItems);
  const insertTorques = rowsInserter(database, torques);

  return {
    /** Deletes all items of a visit, so that those of a corrected one can be written. */
    clear(visit: VisitRow): void {
      for (const part of [readings, notMeasured, conditions, workItems, torques]) {
        database
          .delete(part)
          .where(and(eq(part.vehicleSeq, visit.vehicleSeq), eq(part.visitSeq, visit.seq)))
          .run();
      }
    },
    insert(visits: readonly VisitItems[]): void {
      const rowsOf = <Part extends keyof Contents>(
        part: Part,
        columnsOf: (item: NonNullable<Contents[Part]>[number]) => object = (item) => item,
      ) =>
        visits.flatMap(({ visit, contents, already }) =>
          (contents[part] ?? []).map((item, index) => ({
            ...columnsOf(item),
            vehicleSeq: visit.vehicleSeq,
            visitSeq: visit.seq,
            number: already[part] + index + 1,
          })),
        );
      insertReadings(rowsOf('readings', (item) => ('shoe' in item ? { ...item, pad: item.shoe } : item)));
      insertNotMeasured(rowsOf('notMeasured'));
      insertConditions(rowsOf('conditions'));
      insertWork(rowsOf('work', (item) => ({ ...item, body: item })));
      insertTorques(rowsOf('torques'));
    },
  };
}
