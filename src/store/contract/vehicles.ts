import type { MergeBody } from '../../core/vocabulary/records.js';
import type { Vehicle, VehicleBody } from '../../core/vocabulary/vehicle.js';
import type { Caller } from './caller.js';
import type { Expected } from './expected.js';
import type { Keep } from './idempotency.js';
import type { Page, Paged } from './paging.js';

export interface VehicleFilter {
  /** Part of a registration, VIN or externalId, compared by letters and digits only. */
  find?: string;
  registration?: string;
  vin?: string;
  externalId?: string;
  fleet?: string;
  model?: string;
  includeOutOfService?: boolean;
}

/** A merge patch, and the vehicle it results in. */
export interface VehicleChange {
  patch: object;
  /** The date from which it applies, for answers as of a date; null means today. */
  effectiveFrom: string | null;
  /** Parses the patched vehicle, or throws if it is invalid. */
  read: (patched: unknown) => VehicleBody;
}

export interface VehicleStore {
  create(caller: Caller, body: VehicleBody, keep: Keep<Vehicle> | null): Promise<Vehicle>;
  get(caller: Caller, id: string): Promise<Vehicle>;
  list(caller: Caller, filter: VehicleFilter, page: Page): Promise<Paged<Vehicle>>;
  /** Vehicles whose registration, VIN or externalId contains a text, ignoring case, spaces and hyphens. */
  search(caller: Caller, text: string, max: number): Promise<Vehicle[]>;
  change(caller: Caller, id: string, expected: Expected, change: VehicleChange): Promise<Vehicle>;
  /** The fleets that a caller may see, by name. */
  fleets(caller: Caller): Promise<string[]>;
  /** Vehicles with the most recently recorded visits, and those visits' dates; the latest first. */
  recent(caller: Caller, max: number): Promise<{ vehicle: Vehicle; date: string }[]>;
}

export interface MergeStore {
  /** Moves the visits of another record of the same vehicle here, and copies the identifiers missing here. */
  merge(
    caller: Caller,
    vehicleId: string,
    expected: Expected,
    merge: MergeBody,
    keep: Keep<Vehicle> | null,
  ): Promise<Vehicle>;
}
