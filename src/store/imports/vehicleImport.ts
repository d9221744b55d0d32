import { identifierKey } from '../../core/identifiers.js';
import { itemAt } from '../../core/items.js';
import { Refusal } from '../../core/refusal.js';
import type { RowError } from '../../core/vocabulary/import.js';
import type { VehicleBody } from '../../core/vocabulary/vehicle.js';
import { digestOf } from '../../digest.js';
import type { VehicleLine } from '../contract/imports.js';
import type { VehicleRow } from '../engine/contract/vehicles.js';
import { computeOutlook } from '../outlooks/outlooks.js';
import type { ReadingRules, StoreParts } from '../parts.js';
import { Refused, senderOf, type Job, type Kind } from './kind.js';

/** Imports vehicles: compares each with recorded ones of the same number, VIN or registration. */
export const vehicleImport = ({ reading }: StoreParts): Kind<VehicleLine> => ({
  async take({ report, stage }, rows) {
    for (const row of rows) {
      const digest = digestOf(row.body);
      const found = await known(reading, row, digest, stage);
      if (found) stage.addError(found);
      else if (found === null) report.rowsSkipped += 1;
      else {
        stage.addVehicle(row);
        report.rowsAdded += 1;
      }
      for (const name of namesOf(row.body)) stage.addName(nameKey(name), row.line, digest);
      report.vehicles += 1;
      report.vehiclesChecked += 1;
    }
  },

  async check() {
    // Vehicles are independent of each other and were fully checked on reading.
  },

  async forecast({ report, stage, yieldIfDue }) {
    const { experience, settings } = reading;
    for (const { line, body } of stage.newVehicles()) {
      const worked = computeOutlook({ vehicle: body, visits: [] }, await experience(), await settings());
      stage.addVehicleOutlook(line, worked);
      report.vehiclesForecast += 1;
      await yieldIfDue();
    }
  },

  async write(own, { report, stage, yieldIfDue }) {
    for (const { line, body, worked } of stage.newVehicles()) {
      try {
        await own.recordVehicle.refuseDuplicate(body, null);
      } catch (fault) {
        if (!(fault instanceof Refusal)) throw fault;
        stage.addError({ line, column: null, detail: fault.message, code: 'conflict' });
        throw new Refused();
      }
      const { seq } = await own.recordVehicle.insert(senderOf(report), body);
      await own.recordOutlook(seq, body, worked!, 'import');
      report.vehiclesWritten += 1;
      await yieldIfDue();
    }
  },
});

/** Why a line adds nothing: an error, or null if an identical vehicle is known. Undefined if it is new. */
async function known(
  { rows }: ReadingRules,
  { line, body }: VehicleLine,
  digest: string,
  stage: Job['stage'],
): Promise<RowError | null | undefined> {
  for (const name of namesOf(body)) {
    const recorded = await bearersOf(rows, name);
    const earlier = stage.named(nameKey(name));
    const others = [...recorded.map((row) => digestOf(row.body)), ...earlier.map((other) => other.digest)];
    if (others.length === 0) continue;
    if (name.member === 'registration') {
      // Several vehicles may share a registration: match identical ones one by one.
      const alike = recorded.filter((row) => digestOf(row.body) === digest).length;
      if (earlier.filter((other) => other.digest === digest).length < alike) return null;
      if (alike > 0 || recorded.length === 0) continue;
    } else if (others.every((other) => other === digest)) {
      return null;
    }
    const where = recorded[0] ? `vehicle ${recorded[0].id}` : `line ${itemAt(earlier, 0).line}`;
    const detail = `${where} has this ${name.member} with different content`;
    return { line, column: name.member, detail, code: 'conflict' };
  }
  return undefined;
}

interface VehicleName {
  member: 'externalId' | 'vin' | 'registration';
  value: string;
}

/** What identifies a vehicle; the registration only if there is nothing better. */
function namesOf({ externalId, vin, registration }: VehicleBody): VehicleName[] {
  const names: VehicleName[] = [];
  if (externalId != null) names.push({ member: 'externalId', value: externalId });
  if (vin != null) names.push({ member: 'vin', value: vin });
  if (names.length === 0) names.push({ member: 'registration', value: registration! });
  return names;
}

const nameKey = ({ member, value }: VehicleName): string => `${member} ${value}`;

/** The vehicles recorded under a name; under a registration, only those without a better one. */
async function bearersOf(
  { vehicles }: ReadingRules['rows'],
  { member, value }: VehicleName,
): Promise<VehicleRow[]> {
  if (member === 'registration') {
    const alike = await vehicles.byRegistrationKey(identifierKey(value));
    return alike.filter((row) => row.registration === value && row.externalId === null && row.vin === null);
  }
  const found = await (member === 'vin' ? vehicles.byVin(value) : vehicles.byExternalId(value));
  return found ? [found] : [];
}
