import { v7 as uuid } from 'uuid';
import { latestDateAt } from '../../core/calendar.js';
import { asHistoryVisit, inOrder, type History } from '../../core/history.js';
import { required } from '../../core/items.js';
import { invalid, Refusal } from '../../core/refusal.js';
import { checkOthersInHistory, checkPlaceInHistory, contentIssues } from '../../core/visitRules.js';
import { VisitBody, type EntryBody, type Visit } from '../../core/vocabulary/visit.js';
import { digestOf } from '../../digest.js';
import type { Caller } from '../contract/caller.js';
import type { Page, Paged } from '../contract/paging.js';
import type { RecordedVisit, VisitStore } from '../contract/visits.js';
import type { VehicleRow } from '../engine/contract/vehicles.js';
import type { VisitRow } from '../engine/contract/visits.js';
import { computeOutlook, type ComputedOutlook } from '../outlooks/outlooks.js';
import { pageOf, rowsFor } from '../paging.js';
import type { ReadingRules, Rules, StoreParts } from '../parts.js';
import { refuseErased } from '../vehicles/findVehicle.js';

export function visitStore({ write, consistently, shareWork }: StoreParts): VisitStore {
  /**
   * Computes the outlook of a visit before the transaction that records it, so that the slow part blocks no other
   * writer and can be offloaded. Null if the work order is already recorded.
   */
  async function precompute(caller: Caller, vehicleId: string, id: string, body: VisitBody) {
    const seen = await consistently((own) => stateWith(own, caller, vehicleId, id, body));
    if (!seen) return null;
    const { fingerprint, after, known, inForce } = seen;
    return { fingerprint, worked: await shareWork(after, known, inForce) };
  }

  return {
    async record(caller, vehicleId, body, keep) {
      const id = uuid();
      const precomputed = await precompute(caller, vehicleId, id, body);
      return write(async (own) => {
        const result = await recordNewVisit(own, caller, vehicleId, { id, body, precomputed });
        await own.outcomes.keep(keep, result);
        return result;
      });
    },

    async add(caller, visitId, entry, keep) {
      return write(async (own) => {
        const result = await extendVisit(own, caller, visitId, entry);
        await own.outcomes.keep(keep, result);
        return result;
      });
    },

    get: (caller, id) =>
      consistently(async (own) => {
        const { visit, vehicle } = await own.findVisit.visit(caller, id);
        const sight = await own.sightOf(caller, vehicle.seq);
        sight.refuseHidden(visit);
        return sight.visit(withoutArrival(await own.history.visit(visit, vehicle.id)));
      }),

    list: (caller, vehicleId, { includeVoided }, page) =>
      consistently((own) => pageOfVisits(own, caller, vehicleId, includeVoided, page)),
  };
}

async function pageOfVisits(
  own: ReadingRules,
  caller: Caller,
  vehicleId: string,
  includeVoided: boolean,
  page: Page,
): Promise<Paged<Visit>> {
  const vehicle = await own.findVehicle.current(caller, vehicleId);
  const sight = await own.sightOf(caller, vehicle.seq);
  const { items, next } = pageOf(
    await own.rows.visits.list(
      { vehicleSeq: vehicle.seq, includeVoided, since: sight.visitsSince, after: page.after },
      rowsFor(page),
    ),
    page,
    (row) => row,
    ({ date, time, seq }) => [date, time ?? '', seq],
  );
  const visits = await own.history.visits(items, vehicle.id);
  return { items: visits.map((visit) => sight.visit(withoutArrival(visit))), next };
}

interface NewVisit {
  id: string;
  body: VisitBody;
  /** Its outlook, and the state that it was computed for. */
  precomputed: { fingerprint: string; worked: ComputedOutlook } | null;
}

/** The inputs of a visit's outlook; null if the work order is already recorded. */
async function stateWith(own: ReadingRules, caller: Caller, vehicleId: string, id: string, body: VisitBody) {
  const vehicle = await own.findVehicle.open(caller, vehicleId);
  if (await knownVisit(own, vehicle, body)) return null;
  return {
    fingerprint: await own.fingerprintOf(vehicle),
    after: await historyWith(own, vehicle, id, body),
    known: await own.experience(),
    inForce: await own.settings(),
  };
}

async function recordNewVisit(
  own: Rules,
  caller: Caller,
  vehicleId: string,
  { id, body, precomputed }: NewVisit,
): Promise<RecordedVisit> {
  const vehicle = await own.findVehicle.open(caller, vehicleId);
  const isUnchanged = precomputed !== null && precomputed.fingerprint === (await own.fingerprintOf(vehicle));
  // If nothing has changed since, no visit has the work order.
  const known = isUnchanged ? null : await knownVisit(own, vehicle, body);
  if (known) {
    const visit = withoutArrival(await own.history.visit(known, vehicle.id));
    return { visit, outlook: required(await own.rows.outlooks.find(vehicle.seq), 'outlook'), isNew: false };
  }
  const worked = isUnchanged
    ? precomputed.worked
    : computeOutlook(await historyWith(own, vehicle, id, body), await own.experience(), await own.settings());
  const row = await own.recordVisit.insert(caller, vehicle.seq, id, body);
  await own.recordOutlook(vehicle.seq, vehicle.body, worked, 'history');
  const visit = withoutArrival(await own.history.visit(row, vehicle.id));
  return { visit, outlook: worked.outlook, isNew: true };
}

async function extendVisit(
  own: Rules,
  caller: Caller,
  visitId: string,
  entry: EntryBody,
): Promise<RecordedVisit> {
  const { visit: row, vehicle } = await own.findVisit.visit(caller, visitId);
  refuseErased(vehicle);
  refuseVoided(row);
  const before = await own.history.visit(row, vehicle.id);
  const issues = contentIssues(vehicle.body, entry, before.readings, (await own.settings()).gauges);
  if (issues.length > 0) throw invalid(issues);
  if (entry.roadTest && before.roadTest) {
    const detail = 'this visit already has a road test; correct the visit to change it';
    throw new Refusal('conflict', 'road-test-recorded', detail, [], { visitId });
  }
  const extendedRow = await own.recordVisit.extend(caller, row, before, entry);
  const outlook = await own.writeOutlook(vehicle.seq, {
    vehicle: vehicle.body,
    visits: await own.history.visitsOf(vehicle.seq, vehicle.id),
  });
  const visit = withoutArrival(await own.history.visit(extendedRow, vehicle.id));
  return { visit, outlook, isNew: true };
}

/**
 * The visit of the same work order: null if there is none.
 *
 * @throws Refusal if its content is different
 */
async function knownVisit(
  { findVisit, versions }: ReadingRules,
  vehicle: VehicleRow,
  body: VisitBody,
): Promise<VisitRow | null> {
  const known = await findVisit.byWorkOrder(vehicle.seq, body);
  if (!known) return null;
  const contentDigest = digestOf(body);
  if (known.contentDigest === contentDigest) return known;
  // Parse it again, because an early program stored texts as typed.
  const currentDigest = digestOf(VisitBody.parse(await versions.visitBody(known.seq)));
  if (currentDigest === contentDigest) return known;
  throw workOrderKnown(body, known);
}

/**
 * The history with a visit that is not recorded yet.
 *
 * @throws Refusal if the visit cannot be placed there
 */
async function historyWith(
  own: ReadingRules,
  vehicle: VehicleRow,
  id: string,
  body: VisitBody,
): Promise<History> {
  const earlier = await own.history.visitsOf(vehicle.seq, vehicle.id);
  const visits = inOrder([...earlier, asHistoryVisit(id, body, Number.MAX_SAFE_INTEGER)]);
  const after: History = { vehicle: vehicle.body, visits };
  const { gauges } = await own.settings();
  checkPlaceInHistory(after, id, latestDateAt(own.clock()), contentIssues(vehicle.body, body, [], gauges));
  // A visit without a time may change the order of the day's other visits.
  if (earlier.some(({ date }) => date === body.date))
    checkOthersInHistory({ vehicle: vehicle.body, visits: earlier }, after);
  return after;
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
