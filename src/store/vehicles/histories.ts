import { and, asc, eq, gt, gte } from 'drizzle-orm';
import { visitFinder } from '../visits/findVisit.js';
import { pageOf, placeAfter, rowsFor } from '../paging.js';
import type { StoreParts } from '../parts.js';
import { audit, vehicles, vehicleVersions, visitVersions } from '../engine/sqlite/schema.js';
import type { HistoryStore } from '../contract/histories.js';

/** Reads what the version keeper wrote. */
export function historyStore({ database, findVehicle, sightOf }: StoreParts): HistoryStore {
  const find = visitFinder(database);

  return {
    async ofVisit(caller, visitId, page) {
      const { visit, vehicle } = find.visit(caller, visitId);
      const sight = sightOf(caller, vehicle.seq);
      sight.refuseHidden(visit);
      const rows = database
        .select({ version: visitVersions, vehicleId: vehicles.id })
        .from(visitVersions)
        .innerJoin(vehicles, eq(vehicles.seq, visitVersions.vehicleSeq))
        .where(and(eq(visitVersions.visitSeq, visit.seq), gt(visitVersions.version, placeAfter(page))))
        .orderBy(asc(visitVersions.version))
        .limit(rowsFor(page))
        .all();
      return pageOf(
        rows,
        page,
        ({ version: { version, kind, at, keyName, reason, body }, vehicleId }) =>
          sight.visitVersion(visit, { version, kind, at, by: keyName, reason, vehicleId, body }),
        ({ version }) => [version.version],
      );
    },

    async ofVehicle(caller, vehicleId, page) {
      const { seq } = findVehicle.record(caller, vehicleId);
      const sight = sightOf(caller, seq);
      const rows = database
        .select()
        .from(vehicleVersions)
        .where(and(eq(vehicleVersions.vehicleSeq, seq), gt(vehicleVersions.version, placeAfter(page))))
        .orderBy(asc(vehicleVersions.version))
        .limit(rowsFor(page))
        .all();
      return pageOf(
        rows,
        page,
        ({ keyName: by, version, kind, at, reason, effectiveFrom, mergedWith, body }) =>
          sight.vehicleVersion({ version, kind, at, by, reason, effectiveFrom, mergedWith, body }),
        ({ version }) => [version],
      );
    },

    async audit(since, page) {
      const rows = database
        .select()
        .from(audit)
        .where(and(since === null ? undefined : gte(audit.at, since), gt(audit.seq, placeAfter(page))))
        .orderBy(asc(audit.seq))
        .limit(rowsFor(page))
        .all();
      return pageOf(
        rows,
        page,
        ({ seq, at, keyName, effect, action, resource, resourceId, detail }) => ({
          id: String(seq),
          at,
          key: keyName,
          effect,
          action,
          resource,
          resourceId,
          detail,
        }),
        ({ seq }) => [seq],
      );
    },
  };
}
