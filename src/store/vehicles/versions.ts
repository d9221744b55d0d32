import { and, asc, desc, eq, isNull, lte, or, sql } from 'drizzle-orm';
import jsonMergePatch from 'json-merge-patch';
import type { VehicleEvent, VisitEvent } from '../../core/vocabulary/terms.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { VisitBody } from '../../core/vocabulary/visit.js';
import type { Database } from '../engine/sqlite/connection.js';
import { inserter, rowsInserter } from '../engine/sqlite/inserts.js';
import { audit, vehicleVersions, visitVersions } from '../engine/sqlite/schema.js';
import type { DeedEffect } from '../contract/histories.js';
import type { Caller } from '../contract/caller.js';

/** One audit entry. */
export interface Deed {
  /** Undefined for an operation that is none of the others. */
  effect?: DeedEffect;
  action: string;
  resource: string;
  resourceId: string;
  /** The result, if the resource itself does not keep it permanently. */
  detail?: string | null;
}

interface Written<Body, Kind> {
  id: string;
  vehicleSeq: number;
  version: number;
  kind: Kind;
  /** When, as an instant in UTC. */
  at: string;
  reason?: string;
  body: Body;
}

export interface VisitWritten extends Written<VisitBody, VisitEvent> {
  visitSeq: number;
}

export interface VehicleWritten extends Written<VehicleBody, VehicleEvent> {
  patch?: object;
  effectiveFrom?: string;
  mergedWith?: string;
}

/** Writes versions of visits and vehicles, and the audit; call within the transaction that made them. */
export function versionKeeper(database: Database, clock: () => Date) {
  const insertVisits = rowsInserter(database, visitVersions);
  const insertVehicle = inserter(database, vehicleVersions);
  const insertDeeds = rowsInserter(database, audit);
  const latestVisit = database
    .select({ body: visitVersions.body })
    .from(visitVersions)
    .where(eq(visitVersions.visitSeq, sql.placeholder('visitSeq')))
    .orderBy(desc(visitVersions.version))
    .limit(1)
    .prepare();
  const heldOn = database
    .select({ body: vehicleVersions.body, patch: vehicleVersions.patch })
    .from(vehicleVersions)
    .where(
      and(
        eq(vehicleVersions.vehicleSeq, sql.placeholder('vehicleSeq')),
        or(
          isNull(vehicleVersions.effectiveFrom),
          lte(vehicleVersions.effectiveFrom, sql.placeholder('date')),
        ),
      ),
    )
    .orderBy(asc(vehicleVersions.version))
    .prepare();

  function noteAll({ keyName }: Caller, deeds: readonly (Deed & { at: string })[]): void {
    insertDeeds(
      deeds.map((deed) => ({ ...deed, effect: keyName === null ? null : (deed.effect ?? 'act'), keyName })),
    );
  }

  function note(caller: Caller, deed: Deed, at = clock().toISOString()): void {
    noteAll(caller, [{ ...deed, at }]);
  }

  function writeVisits(caller: Caller, written: readonly VisitWritten[]): void {
    insertVisits(written.map(({ id: _id, ...row }) => ({ ...row, keyName: caller.keyName })));
    noteAll(
      caller,
      written.map(({ id, kind, at }) => ({ resource: 'visit', action: kind, resourceId: id, at })),
    );
  }

  return {
    note,

    visits: writeVisits,
    visit: (caller: Caller, written: VisitWritten): void => writeVisits(caller, [written]),

    vehicle(caller: Caller, { id, ...row }: VehicleWritten): void {
      insertVehicle({ ...row, keyName: caller.keyName });
      const effect = row.kind === 'changed' ? 'change' : 'act';
      note(caller, { effect, action: row.kind, resource: 'vehicle', resourceId: id }, row.at);
    },

    /** The current visit as it would be sent, including later entries; for a voided one, its last body. */
    visitBody(visitSeq: number): VisitBody {
      return latestVisit.get({ visitSeq })!.body;
    },

    /**
     * A vehicle as of a date: as first recorded, with the changes effective by then, in the order in which they were
     * made.
     */
    vehicleBodyOn(vehicleSeq: number, date: string): VehicleBody {
      const [first, ...changes] = heldOn.all({ vehicleSeq, date });
      return changes.reduce<unknown>(
        (body, { patch }) => jsonMergePatch.apply(body, patch),
        first!.body,
      ) as VehicleBody;
    },
  };
}

export type VersionKeeper = ReturnType<typeof versionKeeper>;
