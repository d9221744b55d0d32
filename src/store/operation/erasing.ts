import {
  ERASED,
  erasedVehicle,
  erasedVehicleBody,
  erasedVehicleVersion,
  erasedVisit,
} from '../../core/erasure.js';
import { itemAt } from '../../core/items.js';
import { notFound } from '../../core/refusal.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import { digestOf } from '../../digest.js';
import { OPERATOR } from '../contract/caller.js';
import type { Erased } from '../contract/retention.js';
import type { VehicleRow } from '../engine/contract/vehicles.js';
import type { VisitRow } from '../engine/contract/visits.js';
import type { Rules } from '../parts.js';
import { nameKeys } from '../vehicles/names.js';
import { headOf, sourceOf } from '../visits/recording.js';
import { countInWords } from '../../core/words.js';

const REASON = 'personal data erased';

/** Erases the personal data of a vehicle, within a transaction that may change the history. */
export async function eraseVehicle(own: Rules, vehicleId: string): Promise<Erased> {
  const { history } = own.rows;
  const records = await recordsOf(own, vehicleId);
  const names = await namesOf(own, records);
  const visits: VisitRow[] = [];
  for (const record of records) visits.push(...(await eraseRecord(own, record)));
  const ids = records.map(({ id }) => id);
  const resources = [...ids, ...visits.map(({ id }) => id)];
  await history.eraseAuditDetails(resources);
  const outcomes = await eraseOutcomes(own, [...resources, ...names]);
  await eraseImports(own, names);
  await history.eraseEvents(ids);
  await own.versions.note(OPERATOR, {
    action: 'erased',
    resource: 'vehicle',
    resourceId: vehicleId,
    detail: [
      countInWords(records.length, 'record'),
      countInWords(visits.length, 'visit'),
      countInWords(outcomes, 'answer'),
    ].join(', '),
  });
  return { records: records.length, visits: visits.length, outcomes };
}

/** The vehicle and every record merged into it, directly or indirectly. */
async function recordsOf({ rows: { vehicles } }: Rules, vehicleId: string): Promise<VehicleRow[]> {
  const found = await vehicles.byId(vehicleId);
  if (!found) throw notFound('vehicle');
  const records = [found];
  for (const record of records) records.push(...(await vehicles.mergedInto(record.id)));
  return records;
}

/** Every identifier the records ever had, as texts to search for. */
async function namesOf({ rows: { history } }: Rules, records: readonly VehicleRow[]): Promise<string[]> {
  const bodies: VehicleBody[] = [];
  for (const { seq, body } of records) {
    const versions = await history.vehicleVersions(seq);
    bodies.push(body, ...versions.map((version) => version.body));
  }
  const names = bodies.flatMap(({ externalId, registration, vin }) => [externalId, registration, vin]);
  return [...new Set(names.filter((name) => name != null))];
}

/** @returns the record's visits */
async function eraseRecord(own: Rules, record: VehicleRow): Promise<VisitRow[]> {
  const pseudonym = `${ERASED}-${record.id}`;
  await eraseVersions(own, record, pseudonym);
  const visits = await own.rows.visits.allOf(record.seq);
  for (const visit of visits) await eraseVisit(own, visit);
  const body = erasedVehicle(record.body, pseudonym, own.today());
  const at = own.clock().toISOString();
  const version = record.version + 1;
  await own.rows.vehicles.update(record.seq, {
    body,
    ...nameKeys(body),
    version,
    updatedAt: at,
    erasedAt: at,
  });
  await own.versions.vehicle(OPERATOR, {
    id: record.id,
    vehicleSeq: record.seq,
    version,
    kind: 'changed',
    at,
    reason: REASON,
    body,
    patch: { outOfService: body.outOfService },
    effectiveFrom: own.today(),
  });
  if (record.mergedInto === null)
    await own.writeOutlook(record.seq, {
      vehicle: body,
      visits: await own.history.visitsOf(record.seq, record.id),
    });
  return visits;
}

async function eraseVersions(
  { rows: { history } }: Rules,
  { seq }: VehicleRow,
  pseudonym: string,
): Promise<void> {
  for (const { vehicleSeq, version, body, patch, reason } of await history.vehicleVersions(seq))
    await history.updateVehicleVersion({
      vehicleSeq,
      version,
      body: erasedVehicleBody(body, pseudonym),
      patch: patch && erasedVehicleVersion(patch, pseudonym),
      reason: reason && ERASED,
    });
}

async function eraseVisit(own: Rules, row: VisitRow): Promise<void> {
  const { history, visits } = own.rows;
  for (const { visitSeq, version, body, reason } of await history.visitVersions(row.seq))
    await history.updateVisitVersion({
      visitSeq,
      version,
      body: erasedVisit(body),
      reason: reason && ERASED,
    });
  const body = await own.versions.visitBody(row.seq);
  const at = own.clock().toISOString();
  const version = row.version + 1;
  await visits.update(row.seq, {
    ...headOf(body),
    version,
    updatedAt: at,
    contentDigest: digestOf(body),
    voided: row.voided && { ...row.voided, reason: ERASED },
  });
  await own.recordVisit.replaceItems(row, body);
  await own.versions.visit(OPERATOR, {
    ...sourceOf(row),
    version,
    at,
    kind: 'corrected',
    reason: REASON,
    body,
  });
}

/** @returns how many outcomes were erased */
async function eraseOutcomes({ rows: { history } }: Rules, texts: readonly string[]): Promise<number> {
  const all = await history.outcomes();
  const found = all.filter(({ target, outcome }) =>
    texts.some(
      (text) => target.includes(text) || outcome?.includes(JSON.stringify(text).slice(1, -1)) === true,
    ),
  );
  for (const key of found) await history.eraseOutcome(key);
  return found.length;
}

async function eraseImports({ rows }: Rules, names: readonly string[]): Promise<void> {
  for (const report of await rows.history.imports()) {
    const errors = report.errors.map((error) =>
      names.some((name) => error.detail.includes(name)) ? { ...error, detail: ERASED } : error,
    );
    if (errors.some(({ detail }, index) => detail !== itemAt(report.errors, index).detail))
      await rows.imports.update({ ...report, errors });
  }
}
