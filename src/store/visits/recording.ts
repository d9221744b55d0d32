import { itemAt } from '../../core/items.js';
import type { EntryBody, Visit, VisitBody } from '../../core/vocabulary/visit.js';
import { digestOf } from '../../digest.js';
import type { Caller } from '../contract/caller.js';
import type { Components } from '../engine/contract/engine.js';
import type { VisitRow } from '../engine/contract/visits.js';
import type { VersionKeeper } from '../vehicles/versions.js';
import { numbersAfter } from './itemNumbers.js';
import { itemsOf, NONE_YET, type Contents } from './items.js';

/** The columns of a visit's row that are copied from its body. */
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

/** Writes visits and additions to them, within a transaction and after the checks. */
export function visitRecorder(
  { visits }: Pick<Components, 'visits'>,
  versions: VersionKeeper,
  clock: () => Date,
) {
  /** Visits of one vehicle, in order of arrival. */
  async function insertAll(
    caller: Caller,
    vehicleSeq: number,
    bodies: readonly { id: string; body: VisitBody }[],
  ): Promise<VisitRow[]> {
    const now = clock().toISOString();
    const rows = bodies.map(({ id, body }) => ({
      id,
      vehicleSeq,
      version: 1,
      ...headOf(body),
      contentDigest: digestOf(body),
      voided: null,
      itemNumbers: null,
      createdAt: now,
      updatedAt: now,
    }));
    const seqs = await visits.insert(rows);
    const stored = rows.map((row, index) => ({ ...row, seq: itemAt(seqs, index) }));
    await visits.insertItems(
      itemsOf(
        stored.map((visit, index) => ({ visit, contents: itemAt(bodies, index).body, already: NONE_YET })),
      ),
    );
    const recorded = { version: 1, kind: 'recorded', at: now } as const;
    await versions.visits(
      caller,
      stored.map((visit, index) => ({ ...sourceOf(visit), ...recorded, body: itemAt(bodies, index).body })),
    );
    return stored;
  }

  return {
    insertAll,
    insert: async (caller: Caller, vehicleSeq: number, id: string, body: VisitBody): Promise<VisitRow> =>
      itemAt(await insertAll(caller, vehicleSeq, [{ id, body }]), 0),

    /** @param before the visit as stored */
    async extend(caller: Caller, row: VisitRow, before: Visit, entry: EntryBody): Promise<VisitRow> {
      const current = await versions.visitBody(row.seq);
      const body = bodyWithEntry(current, entry);
      const next = {
        version: row.version + 1,
        updatedAt: clock().toISOString(),
        roadTest: entry.roadTest ?? row.roadTest,
        itemNumbers: row.itemNumbers && numbersAfter(row.itemNumbers, current, body),
      };
      await visits.update(row.seq, next);
      const already = {
        readings: before.readings.length,
        notMeasured: before.notMeasured.length,
        conditions: before.conditions.length,
        work: before.work.length,
        torques: before.torques.length,
      };
      await visits.insertItems(itemsOf([{ visit: row, contents: entry, already }]));
      await versions.visit(caller, {
        ...sourceOf(row),
        version: next.version,
        kind: 'entries-added',
        at: next.updatedAt,
        body,
      });
      return { ...row, ...next };
    },

    /** Replaces a visit's items with those of its new body. */
    async replaceItems(visit: VisitRow, body: VisitBody): Promise<void> {
      await visits.removeItems(visit);
      await visits.insertItems(itemsOf([{ visit, contents: body, already: NONE_YET }]));
    },
  };
}

export type VisitRecorder = ReturnType<typeof visitRecorder>;
