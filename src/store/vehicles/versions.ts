import jsonMergePatch from 'json-merge-patch';
import type { VehicleEvent, VisitEvent } from '../../core/vocabulary/terms.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { VisitBody } from '../../core/vocabulary/visit.js';
import type { Caller } from '../contract/caller.js';
import type { DeedEffect } from '../contract/histories.js';
import type { Components, ReadingComponents } from '../engine/contract/engine.js';

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

/** Reads versions of visits and vehicles. */
export function versionReader({
  vehicleVersions,
  visitVersions,
}: Pick<ReadingComponents, 'vehicleVersions' | 'visitVersions'>) {
  return {
    /** The current visit as it would be sent, including later entries; for a voided one, its last body. */
    visitBody: (visitSeq: number): Promise<VisitBody> => visitVersions.latestBody(visitSeq),

    /**
     * A vehicle as of a date: as first recorded, with the changes effective by then, in the order in which they were
     * made.
     */
    async vehicleBodyOn(vehicleSeq: number, date: string): Promise<VehicleBody> {
      const [first, ...changes] = await vehicleVersions.effectiveOn(vehicleSeq, date);
      return changes.reduce<unknown>(
        (body, { patch }) => jsonMergePatch.apply(body, patch),
        first!.body,
      ) as VehicleBody;
    },
  };
}

export type VersionReader = ReturnType<typeof versionReader>;

type Rows = Pick<Components, 'audit' | 'vehicleVersions' | 'visitVersions'>;

/** Writes versions of visits and vehicles, and the audit, in the transaction that made them. */
export function versionKeeper({ audit, vehicleVersions, visitVersions }: Rows, clock: () => Date) {
  const noteAll = ({ keyName }: Caller, deeds: readonly (Deed & { at: string })[]): Promise<void> =>
    audit.insert(
      deeds.map(({ effect = 'act', detail = null, ...deed }) => ({
        ...deed,
        detail,
        effect: keyName === null ? null : effect,
        keyName,
      })),
    );

  const note = (caller: Caller, deed: Deed, at = clock().toISOString()): Promise<void> =>
    noteAll(caller, [{ ...deed, at }]);

  async function writeVisits(caller: Caller, written: readonly VisitWritten[]): Promise<void> {
    await visitVersions.insert(
      written.map(({ id: _id, reason = null, ...row }) => ({ ...row, reason, keyName: caller.keyName })),
    );
    await noteAll(
      caller,
      written.map(({ id, kind, at }) => ({ resource: 'visit', action: kind, resourceId: id, at })),
    );
  }

  return {
    ...versionReader({ vehicleVersions, visitVersions }),
    note,

    visits: writeVisits,
    visit: (caller: Caller, written: VisitWritten): Promise<void> => writeVisits(caller, [written]),

    async vehicle(caller: Caller, { id, ...row }: VehicleWritten): Promise<void> {
      await vehicleVersions.insert({
        reason: null,
        patch: null,
        effectiveFrom: null,
        mergedWith: null,
        ...row,
        keyName: caller.keyName,
      });
      const effect = row.kind === 'changed' ? 'change' : 'act';
      await note(caller, { effect, action: row.kind, resource: 'vehicle', resourceId: id }, row.at);
    },
  };
}

export type VersionKeeper = ReturnType<typeof versionKeeper>;
