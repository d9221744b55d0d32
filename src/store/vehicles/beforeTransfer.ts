import { notFound } from '../../core/refusal.js';
import type { VehicleVersion, VisitVersion } from '../../core/vocabulary/records.js';
import type { PolicyBody } from '../../core/vocabulary/settings.js';
import type { Visit } from '../../core/vocabulary/visit.js';
import type { Caller } from '../contract/caller.js';
import type { ReadingComponents } from '../engine/contract/engine.js';
import type { VisitSelection } from '../engine/contract/visits.js';
import type { Settings } from '../settings/inForce.js';

/** The transfer of a vehicle from another fleet to one of the caller's. */
interface Transfer {
  /** The vehicle version that made the transfer. */
  version: number;
  date: string;
  /** An instant in UTC. Of the day's records, those made earlier belong to the time before the transfer. */
  at: string;
}

type Dated = Pick<Visit, 'date' | 'createdAt'>;

/** What a caller may see of one vehicle's records. */
export interface Sight {
  /** Whether nothing is withheld. */
  isWhole: boolean;
  /** From when on the caller may see visits; null for all. */
  visitsSince: VisitSelection['since'];
  /** @throws Refusal of kind not-found if the caller may not see a visit at all */
  refuseHidden(visit: Dated): void;
  visit<Kept extends Visit>(visit: Kept): Kept;
  visitVersion(visit: Dated, version: VisitVersion): VisitVersion;
  vehicleVersion(version: VehicleVersion): VehicleVersion;
}

const EVERYTHING: Sight = {
  isWhole: true,
  visitsSince: null,
  refuseHidden: () => undefined,
  visit: (visit) => visit,
  visitVersion: (_visit, version) => version,
  vehicleVersion: (version) => version,
};

/**
 * Decides what a fleet manager sees of the time before a vehicle joined their fleet. The policy governs readings, notes
 * and names. Callers who see the whole shop see everything.
 */
export function sightReader(
  { vehicleVersions }: Pick<ReadingComponents, 'vehicleVersions'>,
  settings: () => Promise<Settings>,
) {
  /** The latest transfer into the caller's fleets; null if the vehicle was never in another fleet. */
  async function transferInto(own: readonly string[], vehicleSeq: number): Promise<Transfer | null> {
    const all = await vehicleVersions.fleets(vehicleSeq);
    const foreign = all.findLastIndex(({ fleet }) => fleet !== null && !own.includes(fleet));
    const next = foreign < 0 ? undefined : all[foreign + 1];
    return next
      ? { version: next.version, date: next.effectiveFrom ?? next.at.slice(0, 10), at: next.at }
      : null;
  }

  return async ({ fleets: own }: Caller, vehicleSeq: number): Promise<Sight> => {
    const transfer = own === null ? null : await transferInto(own, vehicleSeq);
    return transfer === null ? EVERYTHING : sightSince(transfer, own!, (await settings()).beforeTransfer);
  };
}

export type SightReader = ReturnType<typeof sightReader>;

function sightSince(
  { version: since, date, at }: Transfer,
  own: readonly string[],
  shown: PolicyBody['beforeTransfer'],
): Sight {
  const isBefore = (visit: Dated): boolean =>
    visit.date < date || (visit.date === date && visit.createdAt < at);
  const madeBy = (version: { by: string | null; reason: string | null }) => ({
    by: shown.names ? version.by : null,
    reason: shown.notes ? version.reason : null,
  });
  const withheld = <Kept extends Written>(visit: Kept): Kept => ({
    ...visit,
    ...(shown.notes ? {} : withoutNotes(visit)),
    ...(shown.names ? {} : { technician: null, shop: null }),
  });
  return {
    isWhole: shown.notes && shown.names,
    visitsSince: shown.readings ? null : { date, at },

    refuseHidden(visit) {
      if (!shown.readings && isBefore(visit)) throw notFound('visit');
    },

    visit(visit) {
      if (!isBefore(visit)) return visit;
      const voided = visit.voided && { ...visit.voided, ...madeBy(visit.voided), reason: NOT_SHOWN };
      return { ...withheld(visit), ...(voided && { voided }) };
    },

    visitVersion(visit, version) {
      if (!isBefore(visit)) return version;
      return { ...version, ...madeBy(version), body: withheld(version.body) };
    },

    vehicleVersion(version) {
      if (version.version >= since) return version;
      const { body } = version;
      const description = shown.notes ? body.description : null;
      const fleet = shown.fleets || own.includes(body.fleet ?? '') ? body.fleet : null;
      return { ...version, ...madeBy(version), body: { ...body, description, fleet } };
    },
  };
}

const NOT_SHOWN = 'not shown: written before this fleet had the vehicle';

/** The parts of a visit, sent or answered, that contain free text. */
interface Written {
  roadTest?: object | null;
  conditions?: readonly object[] | null;
  work?: readonly object[] | null;
}

/** Removes free text. */
function withoutNotes({ roadTest, conditions, work }: Written): object {
  return {
    complaint: null,
    notes: null,
    ...(roadTest && { roadTest: { ...roadTest, notes: null } }),
    ...(conditions && { conditions: conditions.map((condition) => ({ ...condition, notes: null })) }),
    ...(work && { work: work.map((item) => ({ ...item, notes: null })) }),
  };
}
