import { and, asc, eq, gt, gte } from 'drizzle-orm';
import { visitFinder } from '../visits/findVisit.js';
import type { StoreParts } from '../parts.js';
import { audit, vehicles, vehicleVersions, visitVersions } from '../engine/sqlite/schema.js';
import type { HistoryStore } from '../contract/histories.js';
import type { Page, Paged } from '../contract/paging.js';

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
        .where(and(eq(visitVersions.visitSeq, visit.seq), gt(visitVersions.version, afterOf(page))))
        .orderBy(asc(visitVersions.version))
        .limit(page.limit + 1)
        .all();
      return pageOf(rows, page, ({ version: { version, kind, at, keyName, reason, body }, vehicleId }) => ({
        item: sight.visitVersion(visit, { version, kind, at, by: keyName, reason, vehicleId, body }),
        position: version,
      }));
    },

    async ofVehicle(caller, vehicleId, page) {
      const { seq } = findVehicle.record(caller, vehicleId);
      const sight = sightOf(caller, seq);
      const rows = database
        .select()
        .from(vehicleVersions)
        .where(and(eq(vehicleVersions.vehicleSeq, seq), gt(vehicleVersions.version, afterOf(page))))
        .orderBy(asc(vehicleVersions.version))
        .limit(page.limit + 1)
        .all();
      return pageOf(
        rows,
        page,
        ({ version, kind, at, keyName, reason, effectiveFrom, mergedWith, body }) => ({
          item: sight.vehicleVersion({
            version,
            kind,
            at,
            by: keyName,
            reason,
            effectiveFrom,
            mergedWith,
            body,
          }),
          position: version,
        }),
      );
    },

    async audit(since, page) {
      const rows = database
        .select()
        .from(audit)
        .where(and(since === null ? undefined : gte(audit.at, since), gt(audit.seq, afterOf(page))))
        .orderBy(asc(audit.seq))
        .limit(page.limit + 1)
        .all();
      return pageOf(rows, page, ({ seq, at, keyName, effect, action, resource, resourceId, detail }) => ({
        item: { id: String(seq), at, key: keyName, effect, action, resource, resourceId, detail },
        position: seq,
      }));
    },
  };
}

const afterOf = ({ after }: Page): number => Number(after?.[0] ?? 0);

function pageOf<Row, Item>(
  rows: Row[],
  { limit }: Page,
  read: (row: Row) => { item: Item; position: number },
): Paged<Item> {
  const shown = rows.slice(0, limit).map(read);
  return {
    items: shown.map(({ item }) => item),
    next: rows.length > limit ? [shown.at(-1)!.position] : null,
  };
}
