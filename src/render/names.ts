import type { VehicleBody } from '../core/vocabulary/vehicle.js';

type Named = Partial<Pick<VehicleBody, 'registration' | 'externalId' | 'vin'>>;

/** What a vehicle is called, as people call it. */
export const vehicleName = ({ registration, externalId, vin }: Named): string =>
  [registration, externalId].filter((name) => name != null).join(', ') || (vin ?? 'vehicle');

export { capital } from '../core/words.js';
