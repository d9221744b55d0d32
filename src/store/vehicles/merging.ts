import { eq } from 'drizzle-orm';
import { inOrder, type History } from '../../core/history.js';
import { invalid, Refusal, type Issue } from '../../core/refusal.js';
import { odometerConflict } from '../../core/odometer.js';
import { contentIssues } from '../../core/visitRules.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import { refuseStale } from '../contract/expected.js';
import type { VehicleRow } from './findVehicle.js';
import { visitFinder } from '../visits/findVisit.js';
import { nameKeys } from './names.js';
import type { StoreParts } from '../parts.js';
import {
  axleOutlooks,
  conditions,
  notMeasured,
  outlooks,
  readings,
  torques,
  vehicles,
  visits,
  wearAnswers,
  workItems,
} from '../engine/sqlite/schema.js';
import type { Caller } from '../contract/caller.js';
import type { MergeStore } from '../contract/vehicles.js';
import { sourceOf } from '../visits/visits.js';
import { toVehicle } from './vehicles.js';

export function mergeStore(parts: StoreParts): MergeStore {
  const { database, clock, write, findVehicle, history, versions, settings, writeOutlook, outcomes } = parts;
  const find = visitFinder(database);

  function otherRecord(caller: Caller, into: VehicleRow, from: string): VehicleRow {
    const refuse = (detail: string) => invalid([fromIssue(detail)]);
    if (from === into.id) throw refuse('is the id of this vehicle; give the id of the other record');
    try {
      return findVehicle.open(caller, from);
    } catch (error) {
      throw error instanceof Refusal ? refuse(error.message) : error;
    }
  }

  function refuseKnownWorkOrders(into: VehicleRow, other: VehicleRow): void {
    const rows = database.select().from(visits).where(eq(visits.vehicleSeq, other.seq)).all();
    const issues = rows.flatMap((row): Issue[] => {
      const known = row.voided ? null : find.byWorkOrder(into.seq, row);
      const detail = `work order ${row.workOrder} is recorded on both, as visits ${known?.id} and ${row.id}`;
      return known ? [fromIssue(detail)] : [];
    });
    if (issues.length === 0) return;
    const detail =
      'both records have a visit with the same work order; correct or void one visit of each pair; see errors';
    throw new Refusal('conflict', 'work-orders-collide', detail, issues);
  }

  /** Moves all records of the other vehicle, including voided visits. */
  function moveVisits(caller: Caller, into: VehicleRow, other: VehicleRow, reason: string, at: string): void {
    const rows = database.select().from(visits).where(eq(visits.vehicleSeq, other.seq)).all();
    for (const part of [readings, notMeasured, conditions, workItems, torques]) {
      database.update(part).set({ vehicleSeq: into.seq }).where(eq(part.vehicleSeq, other.seq)).run();
    }
    for (const row of rows) {
      const moved = { vehicleSeq: into.seq, version: row.version + 1, updatedAt: at };
      database.update(visits).set(moved).where(eq(visits.seq, row.seq)).run();
      const source = { ...sourceOf({ ...row, ...moved }), version: moved.version, at };
      versions.visit(caller, { ...source, kind: 'moved', reason, body: versions.visitBody(row.seq) });
    }
  }

  const contentsThatDoNotFit = (vehicle: VehicleBody, moving: History['visits']): Issue[] =>
    moving.flatMap(({ id, arrival }) =>
      contentIssues(vehicle, versions.visitBody(arrival), [], settings().gauges).map(({ detail }) =>
        fromIssue(`visit ${id}: ${detail}`),
      ),
    );

  /** The combined history of both records, if nothing conflicts. */
  function mergedHistory(into: VehicleRow, other: VehicleRow, body: VehicleBody): History {
    refuseKnownWorkOrders(into, other);
    const moving = history.visitsOf(other.seq, other.id);
    const merged: History = {
      vehicle: body,
      visits: inOrder([...history.visitsOf(into.seq, into.id), ...moving]),
    };
    const issues = [...contentsThatDoNotFit(body, moving), ...placesThatDoNotFit(merged, moving)];
    if (issues.length > 0) throw invalid(issues);
    return merged;
  }

  /** Closes the other record before changing this one, since both may have the same identifiers. */
  function joinRecords(
    caller: Caller,
    into: VehicleRow,
    other: VehicleRow,
    { patch, ...written }: { patch: Partial<VehicleBody>; reason: string; at: string },
  ): VehicleRow {
    const closed = { mergedInto: into.id, version: other.version + 1, updatedAt: written.at };
    database.update(vehicles).set(closed).where(eq(vehicles.seq, other.seq)).run();
    versions.vehicle(caller, {
      ...written,
      id: other.id,
      vehicleSeq: other.seq,
      version: closed.version,
      kind: 'merged-into',
      body: other.body,
      mergedWith: into.id,
    });
    const body = { ...into.body, ...patch };
    const standing = { body, ...nameKeys(body), version: into.version + 1, updatedAt: written.at };
    database.update(vehicles).set(standing).where(eq(vehicles.seq, into.seq)).run();
    versions.vehicle(caller, {
      ...written,
      id: into.id,
      vehicleSeq: into.seq,
      version: standing.version,
      kind: 'merged',
      body,
      patch,
      mergedWith: other.id,
    });
    return { ...into, ...standing };
  }

  return {
    async merge(caller, vehicleId, expected, { from, reason }, keep) {
      return write(() => {
        const into = findVehicle.open(caller, vehicleId);
        refuseStale(expected, into.version);
        const other = otherRecord(caller, into, from);
        const patch = missingIdentifiers(into.body, other.body);
        const merged = mergedHistory(into, other, { ...into.body, ...patch });

        const at = clock().toISOString();
        const standing = joinRecords(caller, into, other, { patch, reason, at });
        moveVisits(caller, into, other, reason, at);
        database.delete(axleOutlooks).where(eq(axleOutlooks.vehicleSeq, other.seq)).run();
        database.delete(wearAnswers).where(eq(wearAnswers.vehicleSeq, other.seq)).run();
        database.delete(outlooks).where(eq(outlooks.vehicleSeq, other.seq)).run();
        writeOutlook(into.seq, merged);
        const result = toVehicle(standing);
        outcomes.keep(keep, result);
        return result;
      });
    },
  };
}

/** The identifiers that one record lacks and the other has. */
function missingIdentifiers(into: VehicleBody, other: VehicleBody): Partial<VehicleBody> {
  const names = ['externalId', 'registration', 'vin'] as const;
  const missing = names.filter((name) => into[name] == null && other[name] != null);
  return Object.fromEntries(missing.map((name) => [name, other[name]]));
}

const fromIssue = (detail: string): Issue => ({ path: ['from'], detail });

/** Dates and odometers that cannot belong to one vehicle. */
function placesThatDoNotFit(merged: History, moving: History['visits']): Issue[] {
  const { inService } = merged.vehicle;
  const early = moving.filter((visit) => inService && visit.date < inService.date);
  return [
    ...early.map(({ id, date }) =>
      fromIssue(`visit ${id} on ${date} is before the vehicle went into service on ${inService!.date}`),
    ),
    ...merged.visits.flatMap(({ id, date }) => {
      const conflict = odometerConflict(merged, id, true);
      return conflict ? [fromIssue(`visit ${id} on ${date}: ${conflict.detail}`)] : [];
    }),
  ];
}
