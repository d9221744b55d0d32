import type { MergeBody } from '../../core/vocabulary/records.js';
import type { Vehicle, VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { Caller } from './caller.js';
import type { Expected } from './expected.js';
import type { Keep } from './idempotency.js';
import type { Page, Paged } from './paging.js';

export interface VehicleFilter {
  /** Part of a registration, VIN or externalId, by letters and digits alone. */
  find?: string;
  registration?: string;
  vin?: string;
  externalId?: string;
  fleet?: string;
  model?: string;
  includeOutOfService?: boolean;
}

/** A merge patch, and what it makes of a vehicle. */
export interface VehicleChange {
  patch: object;
  /** The date from which it holds, for answers as of a date; null means today's. */
  effectiveFrom: string | null;
  /** Reads the patched whole, or throws where it is not a vehicle. */
  read: (patched: unknown) => VehicleBody;
}

export interface VehicleStore {
  create(caller: Caller, body: VehicleBody, keep: Keep<Vehicle> | null): Promise<Vehicle>;
  get(caller: Caller, id: string): Promise<Vehicle>;
  list(caller: Caller, filter: VehicleFilter, page: Page): Promise<Paged<Vehicle>>;
  /** Vehicles with a text in their registration, VIN or externalId, whatever its case, spaces and hyphens. */
  search(caller: Caller, text: string, most: number): Promise<Vehicle[]>;
  change(caller: Caller, id: string, expected: Expected, change: VehicleChange): Promise<Vehicle>;
  /** The fleets that a caller may see, by name. */
  fleets(caller: Caller): Promise<string[]>;
  /** Vehicles whose visits were recorded last, with the date of that visit; the latest first. */
  recent(caller: Caller, max: number): Promise<{ vehicle: Vehicle; date: string }[]>;
}

export interface MergeStore {
  /** Moves the visits of another record of the same vehicle here, and fills the identifiers that are missing here. */
  merge(
    caller: Caller,
    vehicleId: string,
    expected: Expected,
    merge: MergeBody,
    keep: Keep<Vehicle> | null,
  ): Promise<Vehicle>;
}
