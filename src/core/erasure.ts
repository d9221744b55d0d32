import type { Attempt } from './vocabulary/events.js';
import type { VehicleBody } from './vocabulary/vehicle.js';
import type { VisitBody } from './vocabulary/visit.js';

/**
 * Erases personal data from a vehicle and its visits. Removes identifiers and all text that people wrote; keeps the
 * specification, dates, odometer and readings, to which the shop's experience is fitted.
 */

/** Replaces a text that is required. */
export const ERASED = 'erased';

/**
 * @param pseudonym replaces the identifiers, since a vehicle needs one
 * @param outOfServiceOn removes it from reports and lists from that date on
 */
export function erasedVehicle(body: VehicleBody, pseudonym: string, outOfServiceOn: string): VehicleBody {
  const outOfService = { date: body.outOfService?.date ?? outOfServiceOn, reason: ERASED };
  return { ...body, ...identityOf(pseudonym), outOfService };
}

/** Erases an earlier version of a vehicle, or the merge patch that made it; adds no member that it did not have. */
export function erasedVehicleVersion<Version extends object>(version: Version, pseudonym: string): Version {
  const erased = { ...version } as Record<string, unknown>;
  for (const [name, value] of Object.entries(identityOf(pseudonym))) {
    if (name in erased) erased[name] = value;
  }
  const { outOfService } = erased as Partial<VehicleBody>;
  if (outOfService) erased.outOfService = { ...outOfService, reason: ERASED };
  return erased as Version;
}

/** Erases a whole version of a vehicle, which needs an identifier. */
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

/** Erases what receivers answered to webhooks, which may repeat what was sent; keeps faults that got no answer. */
export const withoutAnswers = (attempts: readonly Attempt[]): Attempt[] =>
  attempts.map((attempt) =>
    attempt.status === null || attempt.detail === '' ? attempt : { ...attempt, detail: ERASED },
  );
