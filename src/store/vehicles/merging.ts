import { inOrder, type History } from '../../core/history.js';
import { odometerConflict } from '../../core/odometerConflict.js';
import { invalid, Refusal, type Issue } from '../../core/refusal.js';
import { contentIssues } from '../../core/visitRules.js';
import type { MergeBody } from '../../core/vocabulary/records.js';
import type { Vehicle, VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { Caller } from '../contract/caller.js';
import { refuseStale, type Expected } from '../contract/expected.js';
import type { MergeStore } from '../contract/vehicles.js';
import type { VehicleRow } from '../engine/contract/vehicles.js';
import type { Rules, StoreParts } from '../parts.js';
import { sourceOf } from '../visits/recording.js';
import { toVehicle } from './answer.js';
import { nameKeys } from './names.js';

export const mergeStore = ({ write }: StoreParts): MergeStore => ({
  merge: (caller, vehicleId, expected, body, keep) =>
    write(async (own) => {
      const result = await mergeRecords(own, caller, vehicleId, expected, body);
      await own.outcomes.keep(keep, result);
      return result;
    }),
});

async function mergeRecords(
  own: Rules,
  caller: Caller,
  vehicleId: string,
  expected: Expected,
  { from, reason }: MergeBody,
): Promise<Vehicle> {
  const into = await own.findVehicle.open(caller, vehicleId);
  refuseStale(expected, into.version);
  const other = await otherRecord(own, caller, into, from);
  const patch = missingIdentifiers(into.body, other.body);
  const history = await mergedHistory(own, into, other, { ...into.body, ...patch });

  const at = own.clock().toISOString();
  const current = await joinRecords(own, caller, into, other, { patch, reason, at });
  await moveVisits(own, caller, into, other, { reason, at });
  await own.rows.outlooks.remove(other.seq);
  await own.writeOutlook(into.seq, history);
  return toVehicle(current);
}

async function otherRecord(
  { findVehicle }: Rules,
  caller: Caller,
  into: VehicleRow,
  from: string,
): Promise<VehicleRow> {
  const refuse = (detail: string) => invalid([fromIssue(detail)]);
  if (from === into.id) throw refuse('is the id of this vehicle; give the id of the other record');
  try {
    return await findVehicle.open(caller, from);
  } catch (error) {
    throw error instanceof Refusal ? refuse(error.message) : error;
  }
}

async function refuseKnownWorkOrders(
  { rows, findVisit }: Rules,
  into: VehicleRow,
  other: VehicleRow,
): Promise<void> {
  const issues: Issue[] = [];
  for (const row of await rows.visits.allOf(other.seq)) {
    const known = row.voided ? null : await findVisit.byWorkOrder(into.seq, row);
    const detail = `work order ${row.workOrder} is recorded on both, as visits ${known?.id} and ${row.id}`;
    if (known) issues.push(fromIssue(detail));
  }
  if (issues.length === 0) return;
  const detail =
    'both records have a visit with the same work order; correct or void one visit of each pair; see errors';
  throw new Refusal('conflict', 'work-orders-collide', detail, issues);
}

/** Moves all records of the other vehicle, including voided visits. */
async function moveVisits(
  { rows, versions }: Rules,
  caller: Caller,
  into: VehicleRow,
  other: VehicleRow,
  { reason, at }: { reason: string; at: string },
): Promise<void> {
  const moving = await rows.visits.allOf(other.seq);
  await rows.visits.moveItems(other.seq, into.seq);
  for (const row of moving) {
    const moved = { vehicleSeq: into.seq, version: row.version + 1, updatedAt: at };
    await rows.visits.update(row.seq, moved);
    const source = { ...sourceOf({ ...row, ...moved }), version: moved.version, at };
    const body = await versions.visitBody(row.seq);
    await versions.visit(caller, { ...source, kind: 'moved', reason, body });
  }
}

async function contentsThatDoNotFit(
  { versions, settings }: Rules,
  vehicle: VehicleBody,
  moving: History['visits'],
): Promise<Issue[]> {
  const { gauges } = await settings();
  const issues: Issue[] = [];
  for (const { id, arrival } of moving) {
    const body = await versions.visitBody(arrival);
    issues.push(
      ...contentIssues(vehicle, body, [], gauges).map(({ detail }) => fromIssue(`visit ${id}: ${detail}`)),
    );
  }
  return issues;
}

/** The combined history of both records, if nothing conflicts. */
async function mergedHistory(
  own: Rules,
  into: VehicleRow,
  other: VehicleRow,
  body: VehicleBody,
): Promise<History> {
  await refuseKnownWorkOrders(own, into, other);
  const moving = await own.history.visitsOf(other.seq, other.id);
  const current = await own.history.visitsOf(into.seq, into.id);
  const history: History = { vehicle: body, visits: inOrder([...current, ...moving]) };
  const issues = [...(await contentsThatDoNotFit(own, body, moving)), ...placesThatDoNotFit(history, moving)];
  if (issues.length > 0) throw invalid(issues);
  return history;
}

/** Closes the other record before changing this one, since both may have the same identifiers. */
async function joinRecords(
  { rows, versions }: Rules,
  caller: Caller,
  into: VehicleRow,
  other: VehicleRow,
  { patch, ...written }: { patch: Partial<VehicleBody>; reason: string; at: string },
): Promise<VehicleRow> {
  const closed = { mergedInto: into.id, version: other.version + 1, updatedAt: written.at };
  await rows.vehicles.update(other.seq, closed);
  await versions.vehicle(caller, {
    ...written,
    id: other.id,
    vehicleSeq: other.seq,
    version: closed.version,
    kind: 'merged-into',
    body: other.body,
    mergedWith: into.id,
  });
  const body = { ...into.body, ...patch };
  const current = { body, ...nameKeys(body), version: into.version + 1, updatedAt: written.at };
  await rows.vehicles.update(into.seq, current);
  await versions.vehicle(caller, {
    ...written,
    id: into.id,
    vehicleSeq: into.seq,
    version: current.version,
    kind: 'merged',
    body,
    patch,
    mergedWith: other.id,
  });
  return { ...into, ...current };
}

/** The identifiers that one record lacks and the other has. */
function missingIdentifiers(into: VehicleBody, other: VehicleBody): Partial<VehicleBody> {
  const names = ['externalId', 'registration', 'vin'] as const;
  const missing = names.filter((name) => into[name] == null && other[name] != null);
  return Object.fromEntries(missing.map((name) => [name, other[name]]));
}

const fromIssue = (detail: string): Issue => ({ path: ['from'], detail });

/** Errors for dates and odometer readings that cannot belong to one vehicle. */
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
