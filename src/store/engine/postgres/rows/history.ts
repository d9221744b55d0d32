import { and, asc, eq, inArray, isNotNull, lt, sql } from 'drizzle-orm';
import { withoutAnswers } from '../../../../core/erasure.js';
import type { HistoryRows } from '../../contract/operation.js';
import type { Database } from '../connections.js';
import {
  audit,
  events,
  idempotencyRecords,
  imports,
  vehicleVersions,
  visitVersions,
  webhookDeliveries,
} from '../schema.js';

/** Works only inside `changeHistory`, while the triggers of the append-only tables allow changes. */
export function historyRows(database: Database): HistoryRows {
  return {
    vehicleVersions: async (vehicleSeq) =>
      database
        .select()
        .from(vehicleVersions)
        .where(eq(vehicleVersions.vehicleSeq, vehicleSeq))
        .orderBy(asc(vehicleVersions.version)),

    async updateVehicleVersion({ vehicleSeq, version, ...changes }) {
      const one = and(eq(vehicleVersions.vehicleSeq, vehicleSeq), eq(vehicleVersions.version, version));
      await database.update(vehicleVersions).set(changes).where(one);
    },

    visitVersions: async (visitSeq) =>
      database
        .select()
        .from(visitVersions)
        .where(eq(visitVersions.visitSeq, visitSeq))
        .orderBy(asc(visitVersions.version)),

    async updateVisitVersion({ visitSeq, version, ...changes }) {
      const one = and(eq(visitVersions.visitSeq, visitSeq), eq(visitVersions.version, version));
      await database.update(visitVersions).set(changes).where(one);
    },

    async eraseAuditDetails(resourceIds) {
      await database
        .update(audit)
        .set({ detail: null })
        .where(sql`${audit.resourceId} = any(${sql.param([...resourceIds])}::text[])`);
    },

    outcomes: async () => database.select().from(idempotencyRecords),

    async eraseOutcome({ keyName, target, key }) {
      await database
        .update(idempotencyRecords)
        .set({ outcome: null })
        .where(
          and(
            eq(idempotencyRecords.keyName, keyName),
            eq(idempotencyRecords.target, target),
            eq(idempotencyRecords.key, key),
          ),
        );
    },

    async imports() {
      const rows = await database.select({ body: imports.body }).from(imports);
      return rows.map(({ body }) => body);
    },

    async eraseEvents(vehicleIds) {
      const ofVehicles = await database
        .select()
        .from(events)
        .where(inArray(sql`${events.body} #>> '{data,vehicleId}'`, [...vehicleIds]));
      for (const { seq, body } of ofVehicles) {
        const erased = { ...body, data: { ...body.data, externalId: null, fleet: null } } as typeof body;
        await database.update(events).set({ body: erased }).where(eq(events.seq, seq));
      }
      const sent = ofVehicles.map(({ seq }) => seq);
      const ofEvents = await database
        .select()
        .from(webhookDeliveries)
        .where(inArray(webhookDeliveries.eventSeq, sent));
      for (const { seq, version, attempts } of ofEvents)
        await database
          .update(webhookDeliveries)
          .set({ version: version + 1, attempts: withoutAnswers(attempts) })
          .where(eq(webhookDeliveries.seq, seq));
    },

    async prune(before) {
      const isSuperseded = (table: typeof visitVersions | typeof vehicleVersions, seq: string) =>
        and(
          lt(table.at, before),
          sql`exists (select 1 from ${table} later where later.${sql.raw(seq)} = ${table}.${sql.raw(seq)} and later.version > ${table.version})`,
        );
      const entries = await database.delete(audit).where(lt(audit.at, before)).returning({ seq: audit.seq });
      const ofVisits = await database
        .delete(visitVersions)
        .where(isSuperseded(visitVersions, 'visit_seq'))
        .returning({ version: visitVersions.version });
      const ofVehicles = await database
        .delete(vehicleVersions)
        .where(isSuperseded(vehicleVersions, 'vehicle_seq'))
        .returning({ version: vehicleVersions.version });
      // The first remaining version becomes the earliest known state.
      await database
        .update(vehicleVersions)
        .set({ effectiveFrom: null })
        .where(
          and(
            isNotNull(vehicleVersions.effectiveFrom),
            sql`${vehicleVersions.version} = (select min(version) from ${vehicleVersions} earliest where earliest.vehicle_seq = ${vehicleVersions.vehicleSeq})`,
          ),
        );
      return {
        audit: entries.length,
        visitVersions: ofVisits.length,
        vehicleVersions: ofVehicles.length,
      };
    },
  };
}
