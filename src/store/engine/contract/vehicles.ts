import type { VehicleEvent } from '../../../core/vocabulary/terms.js';
import type { VehicleBody } from '../../../core/vocabulary/vehicle.js';

/** `seq` numbers are the order of arrival and are internal. */
export interface VehicleRow {
  seq: number;
  id: string;
  version: number;
  body: VehicleBody;
  /** From the body, as are the next five. */
  externalId: string | null;
  registration: string | null;
  vin: string | null;
  model: string | null;
  fleet: string | null;
  outOfServiceDate: string | null;
  /** The registration, normalized with `identifierKey`; null if none. */
  registrationKey: string | null;
  /** Registration, VIN and externalId, normalized for search and separated by spaces. */
  searchKey: string | null;
  /** The id of the record that this one was merged into; a merged record is read-only. */
  mergedInto: string | null;
  /** When its personal data was erased; nothing more can be recorded for it. */
  erasedAt: string | null;
  createdAt: string;
  updatedAt: string;
}

/** The columns that are written; the others follow from the body. */
export type VehicleChanges = Partial<
  Pick<
    VehicleRow,
    'version' | 'body' | 'registrationKey' | 'searchKey' | 'mergedInto' | 'erasedAt' | 'updatedAt'
  >
>;
export type NewVehicleRow = Pick<
  VehicleRow,
  'id' | 'version' | 'body' | 'registrationKey' | 'searchKey' | 'createdAt' | 'updatedAt'
>;

/** Which vehicles to list; only those that were not merged into another. */
export interface VehicleSelection {
  /** Null for all vehicles, including those without a fleet. */
  fleets: readonly string[] | null;
  registrationKey?: string;
  /** Part of the search key. */
  searchKeyPart?: string;
  vin?: string;
  externalId?: string;
  model?: string;
  /** Leaves out vehicles that are out of service on this date. */
  inServiceOn?: string;
}

export interface VehicleRows {
  byId(id: string): Promise<VehicleRow | null>;
  bySeq(seq: number): Promise<VehicleRow | null>;
  /** The vehicle that was not merged into another and has this externalId. */
  byExternalId(externalId: string): Promise<VehicleRow | null>;
  /** The vehicle that was not merged into another and has this VIN. */
  byVin(vin: string): Promise<VehicleRow | null>;
  /** Vehicles that were not merged into another, in order of arrival. */
  byRegistrationKey(key: string): Promise<VehicleRow[]>;
  /**
   * The vehicles that were not merged into another and that a name may mean, in order of arrival.
   *
   * @param key compared with registrations and VINs; the name is compared with externalIds
   */
  bearersOf(name: string, key: string): Promise<number[]>;
  /** A page of vehicles, in order of arrival. */
  list(selection: VehicleSelection, after: number, limit: number): Promise<VehicleRow[]>;
  /** The fleets that vehicles have; among the given ones, or all. */
  fleets(among: readonly string[] | null): Promise<string[]>;
  /**
   * Vehicles of the latest visits, and those visits' dates; the latest date first.
   *
   * @param among how many of the latest visits are searched
   */
  ofLatestVisits(
    fleets: readonly string[] | null,
    among: number,
    limit: number,
  ): Promise<{ vehicle: VehicleRow; date: string }[]>;
  /** The records that were merged into one. */
  mergedInto(id: string): Promise<VehicleRow[]>;
  insert(row: NewVehicleRow): Promise<VehicleRow>;
  update(seq: number, changes: VehicleChanges): Promise<void>;
}

/** Every version of a vehicle; rows are only added. */
export interface VehicleVersionRow {
  vehicleSeq: number;
  version: number;
  kind: VehicleEvent;
  at: string;
  /** The name of the API key; null if none was used. */
  keyName: string | null;
  reason: string | null;
  body: VehicleBody;
  /** The merge patch from the previous version; null for the first. */
  patch: object | null;
  /** The date from which the patch applies; null if it always did. */
  effectiveFrom: string | null;
  /** The other record of a merge. */
  mergedWith: string | null;
}

export interface VehicleVersionRows {
  insert(row: VehicleVersionRow): Promise<void>;
  /** Of one vehicle, earliest first. */
  page(vehicleSeq: number, after: number, limit: number): Promise<VehicleVersionRow[]>;
  /** The versions whose change applies on a date, earliest first. */
  effectiveOn(vehicleSeq: number, date: string): Promise<Pick<VehicleVersionRow, 'body' | 'patch'>[]>;
  /** The fleet in every version, earliest first. */
  fleets(
    vehicleSeq: number,
  ): Promise<(Pick<VehicleVersionRow, 'version' | 'at' | 'effectiveFrom'> & { fleet: string | null })[]>;
}
