import { and, eq, inArray, lt, sql } from 'drizzle-orm';
import { withoutAnswers } from '../../../../core/erasure.js';
import type { HistoryRows } from '../../contract/operation.js';
import type { Database } from '../connection.js';
import {
  audit,
  events,
  idempotencyRecords,
  imports,
  vehicleVersions,
  visitVersions,
  webhookDeliveries,
} from '../schema.js';

/** Works only inside `changeHistory`, while the triggers of the append-only tables are off. */
export function historyRows(database: Database): HistoryRows {
  return {
    vehicleVersions: async (vehicleSeq) =>
      database.select().from(vehicleVersions).where(eq(vehicleVersions.vehicleSeq, vehicleSeq)).all(),

    async updateVehicleVersion({ vehicleSeq, version, ...changes }) {
      const one = and(eq(vehicleVersions.vehicleSeq, vehicleSeq), eq(vehicleVersions.version, version));
      database.update(vehicleVersions).set(changes).where(one).run();
    },

    visitVersions: async (visitSeq) =>
      database.select().from(visitVersions).where(eq(visitVersions.visitSeq, visitSeq)).all(),

    async updateVisitVersion({ visitSeq, version, ...changes }) {
      const one = and(eq(visitVersions.visitSeq, visitSeq), eq(visitVersions.version, version));
      database.update(visitVersions).set(changes).where(one).run();
    },

    async eraseAuditDetails(resourceIds) {
      // One by one, because there may be more ids than a statement can take.
      for (const id of resourceIds)
        database.update(audit).set({ detail: null }).where(eq(audit.resourceId, id)).run();
    },

    outcomes: async () => database.select().from(idempotencyRecords).all(),

    async eraseOutcome({ keyName, target, key }) {
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
    },

    imports: async () =>
      database
        .select({ body: imports.body })
        .from(imports)
        .all()
        .map(({ body }) => body),

    async eraseEvents(vehicleIds) {
      const ofVehicle = inArray(sql<string>`json_extract(${events.body}, '$.data.vehicleId')`, [
        ...vehicleIds,
      ]);
      database
        .update(events)
        .set({ body: sql`json_set(${events.body}, '$.data.externalId', null, '$.data.fleet', null)` })
        .where(ofVehicle)
        .run();
      const sent = database.select({ seq: events.seq }).from(events).where(ofVehicle);
      for (const { seq, version, attempts } of database
        .select()
        .from(webhookDeliveries)
        .where(inArray(webhookDeliveries.eventSeq, sent))
        .all())
        database
          .update(webhookDeliveries)
          .set({ version: version + 1, attempts: withoutAnswers(attempts) })
          .where(eq(webhookDeliveries.seq, seq))
          .run();
    },

    async prune(before) {
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
      return pruned;
    },
  };
}
