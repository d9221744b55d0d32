import type { VehicleBody } from './vocabulary/vehicle.js';
import type { VisitBody } from './vocabulary/visit.js';

/**
 * What stays of a vehicle and its visits once the personal data is erased: specification, dates, odometer and readings,
 * from which the shop's experience is fitted. Who it was, and every text that a person wrote, is gone.
 */

/** Takes the place of a text that may not be missing. */
export const ERASED = 'erased';

/**
 * @param pseudonym takes the place of the identifiers, since a vehicle needs one
 * @param outOfServiceOn takes it out of reports and lists from that date on
 */
export function erasedVehicle(body: VehicleBody, pseudonym: string, outOfServiceOn: string): VehicleBody {
  const outOfService = { date: body.outOfService?.date ?? outOfServiceOn, reason: ERASED };
  return { ...body, ...identityOf(pseudonym), outOfService };
}

/** An earlier version of a vehicle, or the merge patch that made it: says nothing that it did not say before. */
export function erasedVehicleVersion<Version extends object>(version: Version, pseudonym: string): Version {
  const erased = { ...version } as Record<string, unknown>;
  for (const [name, value] of Object.entries(identityOf(pseudonym))) {
    if (name in erased) erased[name] = value;
  }
  const { outOfService } = erased as Partial<VehicleBody>;
  if (outOfService) erased.outOfService = { ...outOfService, reason: ERASED };
  return erased as Version;
}

/** A vehicle's version as a whole, which needs an identifier. */
export const erasedVehicleBody = (body: VehicleBody, pseudonym: string): VehicleBody => ({
  ...erasedVehicleVersion(body, pseudonym),
  externalId: pseudonym,
});

const identityOf = (pseudonym: string) => ({
  externalId: pseudonym,
  registration: null,
  vin: null,
  description: null,
  fleet: null,
});

export function erasedVisit(body: VisitBody): VisitBody {
  const withoutNotes = <Item extends { notes?: string | null }>(item: Item): Item => ({
    ...item,
    notes: null,
  });
  return {
    ...body,
    workOrder: null,
    shop: null,
    technician: null,
    complaint: null,
    notes: null,
    roadTest: body.roadTest && withoutNotes(body.roadTest),
    conditions: body.conditions?.map(withoutNotes),
    work: body.work?.map((item) => ({ ...withoutNotes(item), part: null })),
    notMeasured: body.notMeasured?.map((item) => ({ ...item, why: ERASED })),
  };
}
