import { and, eq, inArray, lt, sql } from 'drizzle-orm';
import {
  ERASED,
  erasedVehicle,
  erasedVehicleBody,
  erasedVehicleVersion,
  erasedVisit,
} from '../../core/erasure.js';
import { notFound } from '../../core/refusal.js';
import type { VisitBody } from '../../core/vocabulary/visit.js';
import { changingHistory, overwriteDeleted, rewriteFile } from '../engine/sqlite/appendOnly.js';
import { digestOf } from '../../digest.js';
import type { VehicleRow } from '../vehicles/findVehicle.js';
import type { VisitRow } from '../visits/history.js';
import { nameKeys } from '../vehicles/names.js';
import type { StoreParts } from '../parts.js';
import {
  audit,
  events,
  idempotencyRecords,
  imports,
  vehicles,
  vehicleVersions,
  visits,
  visitVersions,
} from '../engine/sqlite/schema.js';
import { OPERATOR } from '../contract/caller.js';
import type { Erased, Pruned, RetentionStore } from '../contract/retention.js';
import { headOf, itemWriter, NONE_YET, sourceOf } from '../visits/visits.js';

const REASON = 'personal data erased';
const HISTORY = ['visit_versions', 'vehicle_versions', 'audit'];

export function retentionStore(parts: StoreParts): RetentionStore {
  const { database, clock, today, write, history, versions, writeOutlook } = parts;
  const items = itemWriter(parts);

  /** The vehicle and every record merged into it, directly or indirectly. */
  function recordsOf(vehicleId: string): VehicleRow[] {
    const found = database.select().from(vehicles).where(eq(vehicles.id, vehicleId)).get();
    if (!found) throw notFound('vehicle');
    const records = [found];
    for (const record of records)
      records.push(...database.select().from(vehicles).where(eq(vehicles.mergedInto, record.id)).all());
    return records;
  }

  function eraseVersions(record: VehicleRow, pseudonym: string): void {
    const ofVehicle = eq(vehicleVersions.vehicleSeq, record.seq);
    for (const { version, body, patch, reason } of database
      .select()
      .from(vehicleVersions)
      .where(ofVehicle)
      .all()) {
      database
        .update(vehicleVersions)
        .set({
          body: erasedVehicleBody(body, pseudonym),
          patch: patch && erasedVehicleVersion(patch, pseudonym),
          reason: reason && ERASED,
        })
        .where(and(ofVehicle, eq(vehicleVersions.version, version)))
        .run();
    }
  }

  function eraseVisit(row: VisitRow): void {
    const ofVisit = eq(visitVersions.visitSeq, row.seq);
    for (const { version, body, reason } of database.select().from(visitVersions).where(ofVisit).all()) {
      database
        .update(visitVersions)
        .set({ body: erasedVisit(body), reason: reason && ERASED })
        .where(and(ofVisit, eq(visitVersions.version, version)))
        .run();
    }
    const body: VisitBody = versions.visitBody(row.seq);
    const at = clock().toISOString();
    const version = row.version + 1;
    database
      .update(visits)
      .set({
        ...headOf(body),
        version,
        updatedAt: at,
        contentDigest: digestOf(body),
        voided: row.voided && { ...row.voided, reason: ERASED },
      })
      .where(eq(visits.seq, row.seq))
      .run();
    items.clear(row);
    items.insert([{ visit: row, contents: body, already: NONE_YET }]);
    versions.visit(OPERATOR, { ...sourceOf(row), version, at, kind: 'corrected', reason: REASON, body });
  }

  function eraseRecord(record: VehicleRow): VisitRow[] {
    const pseudonym = `${ERASED}-${record.id}`;
    eraseVersions(record, pseudonym);
    const rows = database.select().from(visits).where(eq(visits.vehicleSeq, record.seq)).all();
    rows.forEach(eraseVisit);
    const body = erasedVehicle(record.body, pseudonym, today());
    const at = clock().toISOString();
    const next = { body, ...nameKeys(body), version: record.version + 1, updatedAt: at };
    database
      .update(vehicles)
      .set({ ...next, erasedAt: at })
      .where(eq(vehicles.seq, record.seq))
      .run();
    versions.vehicle(OPERATOR, {
      id: record.id,
      vehicleSeq: record.seq,
      version: next.version,
      kind: 'changed',
      at: next.updatedAt,
      reason: REASON,
      body,
      patch: { outOfService: body.outOfService },
      effectiveFrom: today(),
    });
    if (record.mergedInto === null)
      writeOutlook(record.seq, { vehicle: body, visits: history.visitsOf(record.seq, record.id) });
    return rows;
  }

  /** Every identifier the records ever had, as texts to search for. */
  function namesOf(records: readonly VehicleRow[]): string[] {
    const seqs = records.map(({ seq }) => seq);
    const said = database
      .select()
      .from(vehicleVersions)
      .where(inArray(vehicleVersions.vehicleSeq, seqs))
      .all();
    const bodies = [...records, ...said].map(({ body }) => body);
    const names = bodies.flatMap(({ externalId, registration, vin }) => [externalId, registration, vin]);
    return [...new Set(names.filter((name) => name != null))];
  }

  function eraseOutcomes(texts: readonly string[]): number {
    const mentions = ({ target, outcome }: typeof idempotencyRecords.$inferSelect): boolean =>
      texts.some(
        (text) => target.includes(text) || outcome?.includes(JSON.stringify(text).slice(1, -1)) === true,
      );
    const found = database.select().from(idempotencyRecords).all().filter(mentions);
    for (const { keyName, target, key } of found) {
      database
        .update(idempotencyRecords)
        .set({ outcome: null })
        .where(
          and(
            eq(idempotencyRecords.keyName, keyName),
            eq(idempotencyRecords.target, target),
            eq(idempotencyRecords.key, key),
          ),
        )
        .run();
    }
    return found.length;
  }

  function eraseImports(names: readonly string[]): void {
    for (const { seq, body } of database.select().from(imports).all()) {
      const errors = body.errors.map((error) =>
        names.some((name) => error.detail.includes(name)) ? { ...error, detail: ERASED } : error,
      );
      if (errors.some(({ detail }, index) => detail !== body.errors[index]!.detail))
        database
          .update(imports)
          .set({ body: { ...body, errors } })
          .where(eq(imports.seq, seq))
          .run();
    }
  }

  function eraseEvents(vehicleIds: readonly string[]): void {
    const ofVehicle = inArray(sql<string>`json_extract(${events.body}, '$.data.vehicleId')`, [...vehicleIds]);
    database
      .update(events)
      .set({ body: sql`json_set(${events.body}, '$.data.externalId', null, '$.data.fleet', null)` })
      .where(ofVehicle)
      .run();
  }

  function erase(vehicleId: string): Erased {
    const records = recordsOf(vehicleId);
    const names = namesOf(records);
    const ids = records.map(({ id }) => id);
    const erasedVisits = records.flatMap(eraseRecord).map(({ id }) => id);
    const resources = [...ids, ...erasedVisits];
    for (const id of resources)
      database.update(audit).set({ detail: null }).where(eq(audit.resourceId, id)).run();
    const outcomes = eraseOutcomes([...resources, ...names]);
    eraseImports(names);
    eraseEvents(ids);
    versions.note(OPERATOR, {
      action: 'erased',
      resource: 'vehicle',
      resourceId: vehicleId,
      detail: `${records.length} records, ${erasedVisits.length} visits, ${outcomes} answers`,
    });
    return { records: records.length, visits: erasedVisits.length, outcomes };
  }

  function prune(before: string): Pruned {
    const isOld = (at: typeof audit.at | typeof visitVersions.at | typeof vehicleVersions.at) =>
      lt(at, before);
    const pruned = {
      audit: database.delete(audit).where(isOld(audit.at)).run().changes,
      visitVersions: database
        .delete(visitVersions)
        .where(
          and(
            isOld(visitVersions.at),
            sql`exists (select 1 from visit_versions later where later.visit_seq = visit_versions.visit_seq and later.version > visit_versions.version)`,
          ),
        )
        .run().changes,
      vehicleVersions: database
        .delete(vehicleVersions)
        .where(
          and(
            isOld(vehicleVersions.at),
            sql`exists (select 1 from vehicle_versions later where later.vehicle_seq = vehicle_versions.vehicle_seq and later.version > vehicle_versions.version)`,
          ),
        )
        .run().changes,
    };
    // The first remaining version becomes the earliest known state.
    database
      .update(vehicleVersions)
      .set({ effectiveFrom: null })
      .where(
        sql`effective_from is not null and version = (select min(version) from vehicle_versions first where first.vehicle_seq = vehicle_versions.vehicle_seq)`,
      )
      .run();
    versions.note(OPERATOR, {
      action: 'pruned',
      resource: 'audit',
      resourceId: before,
      detail: `${pruned.audit} audit entries, ${pruned.visitVersions} versions of visits, ${pruned.vehicleVersions} of vehicles`,
    });
    return pruned;
  }

  return {
    async erase(vehicleId) {
      overwriteDeleted(database);
      return write(() => changingHistory(database, HISTORY, () => erase(vehicleId)));
    },
    async prune(before) {
      overwriteDeleted(database);
      return write(() => changingHistory(database, HISTORY, () => prune(before)));
    },
    async vacuum() {
      rewriteFile(database);
    },
  };
}
