import { withConversions } from '../../core/units.js';
import { hasValidVinCheckDigit, vinCheckDigit } from '../../core/vin.js';
import type { Vehicle, VehicleBody, Warning } from '../../core/vocabulary/vehicle.js';
import type { VehicleRow } from '../engine/contract/vehicles.js';

/** Builds a vehicle's answer: as sent, with conversions and warnings. */
export function toVehicle({
  id,
  version,
  body,
  mergedInto,
  erasedAt,
  createdAt,
  updatedAt,
}: Pick<
  VehicleRow,
  'id' | 'version' | 'body' | 'mergedInto' | 'erasedAt' | 'createdAt' | 'updatedAt'
>): Vehicle {
  const { externalId, registration, vin, description, model, fleet, powertrain, grossMass, brakeSystem } =
    body;
  const sent = {
    externalId: externalId ?? null,
    registration: registration ?? null,
    vin: vin ?? null,
    description: description ?? null,
    model: model ?? null,
    fleet: fleet ?? null,
    powertrain: powertrain ?? null,
    grossMass: grossMass ?? null,
    brakeSystem: brakeSystem ?? null,
    inService: body.inService ?? null,
    outOfService: body.outOfService ?? null,
    axles: body.axles,
  };
  return {
    id,
    version,
    ...(withConversions(sent) as typeof sent),
    mergedInto,
    erasedAt,
    createdAt,
    updatedAt,
    warnings: warningsOf(body),
  } as Vehicle;
}

function warningsOf({ vin }: VehicleBody): Warning[] {
  if (vin == null || hasValidVinCheckDigit(vin)) return [];
  const detail = `position 9 is ${vin[8]}, but the check digit by 49 CFR 565.15 would be ${vinCheckDigit(vin)}; not every market uses a check digit, so compare the VIN with the plate`;
  return [{ code: 'vin-check-digit', detail, pointer: '#/vin' }];
}
