import type { HistoryStore } from '../contract/histories.js';
import { pageOf, placeAfter, rowsFor } from '../paging.js';
import type { StoreParts } from '../parts.js';

/** Reads the versions and audit entries that the version keeper wrote. */
export const historyStore = ({ reading, consistently }: StoreParts): HistoryStore => ({
  ofVisit: (caller, visitId, page) =>
    consistently(async ({ rows, findVisit, sightOf }) => {
      const { visit, vehicle } = await findVisit.visit(caller, visitId);
      const sight = await sightOf(caller, vehicle.seq);
      sight.refuseHidden(visit);
      return pageOf(
        await rows.visitVersions.page(visit.seq, placeAfter(page), rowsFor(page)),
        page,
        ({ version, kind, at, keyName: by, reason, vehicleId, body }) =>
          sight.visitVersion(visit, { version, kind, at, by, reason, vehicleId, body }),
        ({ version }) => [version],
      );
    }),

  ofVehicle: (caller, vehicleId, page) =>
    consistently(async ({ rows, findVehicle, sightOf }) => {
      const { seq } = await findVehicle.record(caller, vehicleId);
      const sight = await sightOf(caller, seq);
      return pageOf(
        await rows.vehicleVersions.page(seq, placeAfter(page), rowsFor(page)),
        page,
        ({ keyName: by, version, kind, at, reason, effectiveFrom, mergedWith, body }) =>
          sight.vehicleVersion({ version, kind, at, by, reason, effectiveFrom, mergedWith, body }),
        ({ version }) => [version],
      );
    }),

  async audit(since, page) {
    return pageOf(
      await reading.rows.audit.page(since, placeAfter(page), rowsFor(page)),
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
});
