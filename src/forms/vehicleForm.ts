import {
  ACTUATIONS,
  BRAKES,
  DISTANCE_UNITS,
  LININGS,
  POWERTRAINS,
  WEAR_INDICATOR_TYPES,
  type Axle,
  type DistanceUnit,
} from '../core/vocabulary/terms.js';
import type { VehicleBody } from '../core/vocabulary/vehicle.js';
import {
  isChecked,
  quantityText,
  readNumber,
  readOdometer,
  readQuantity,
  textIn,
  type Fields,
} from './entered.js';
import { Places } from './places.js';

/** The vehicle form. Only an axle and a name are required; more details allow more answers. */

/** The form's axles; a trailer's are collapsed until something is entered. */
export const FORM_AXLES: readonly Axle[] = ['front', 'rear', 'axle-1', 'axle-2', 'axle-3'];

interface SpecField {
  part: 'pad' | 'rotor' | 'shoe' | 'drum';
  name: string;
  words: string;
  hint?: string;
}

/** Lengths of a specification, in the order of a data sheet. */
export const SPEC_FIELDS: Record<'disc' | 'drum', readonly SpecField[]> = {
  disc: [
    { part: 'pad', name: 'new', words: 'New pad', hint: 'friction material only' },
    { part: 'pad', name: 'limit', words: 'Pad limit' },
    { part: 'pad', name: 'wearIndicator', words: 'Wear indicator at' },
    { part: 'rotor', name: 'new', words: 'New rotor' },
    { part: 'rotor', name: 'discard', words: 'Rotor discard' },
    { part: 'rotor', name: 'machineTo', words: 'Machine to at least' },
    { part: 'rotor', name: 'runoutLimit', words: 'Run-out limit' },
    { part: 'rotor', name: 'variationLimit', words: 'Thickness variation limit' },
  ],
  drum: [
    { part: 'shoe', name: 'new', words: 'New shoe lining', hint: 'without the shoe' },
    { part: 'shoe', name: 'limit', words: 'Shoe limit' },
    { part: 'drum', name: 'new', words: 'New drum' },
    { part: 'drum', name: 'maximum', words: 'Drum at most' },
    { part: 'drum', name: 'machineTo', words: 'Machine to at most' },
  ],
};

export const specField = (axle: Axle, { part, name }: Pick<SpecField, 'part' | 'name'>): string =>
  `${axle}.${part}.${name}`;
export const TORQUE_ROWS = [1, 2, 3] as const;

const TEXTS = ['registration', 'externalId', 'description', 'model', 'fleet'] as const;
const BRAKE_SYSTEM = ['regenerative', 'brakeByWire', 'electricParkingBrake'] as const;
export const CHOICES = { POWERTRAINS, BRAKES, ACTUATIONS, LININGS, WEAR_INDICATOR_TYPES, DISTANCE_UNITS };

/** Converts a posted form to the API's body, not yet validated. */
export function readVehicle(fields: Fields): { body: Record<string, unknown>; places: Places } {
  const places = new Places();
  const body: Record<string, unknown> = {};
  for (const name of TEXTS) {
    places.note([name], name);
    const text = textIn(fields, name);
    if (text !== undefined) body[name] = text;
  }
  places.note([], 'registration');
  places.note(['vin'], 'vin');
  // People type a VIN in lower case and in groups.
  const vin = textIn(fields, 'vin')?.toUpperCase().replaceAll(/[\s-]/g, '');
  if (vin !== undefined) body.vin = vin;
  places.note(['powertrain'], 'powertrain');
  const powertrain = textIn(fields, 'powertrain');
  if (powertrain !== undefined) body.powertrain = powertrain;
  readInService(fields, places, body);
  readMass(fields, places, body);
  const system = BRAKE_SYSTEM.filter((name) => isChecked(fields, name)).map((name) => [name, true]);
  if (system.length > 0) body.brakeSystem = Object.fromEntries(system);
  places.note(['axles'], 'front.brake');
  body.axles = Object.fromEntries(
    FORM_AXLES.flatMap((axle) => {
      const read = readAxle(axle, fields, places);
      return read === null ? [] : [[axle, read]];
    }),
  );
  return { body, places };
}

function readInService(fields: Fields, places: Places, body: Record<string, unknown>): void {
  places.note(['inService', 'date'], 'inServiceDate');
  places.note(['inService', 'odometer'], 'inServiceOdometer');
  const date = textIn(fields, 'inServiceDate');
  const typed = textIn(fields, 'inServiceOdometer');
  const value = typed === undefined ? undefined : readOdometer(typed);
  if (typed !== undefined && value === undefined) {
    places.refuse('inServiceOdometer', `“${typed}” is not an odometer reading. Type digits, such as 12.`);
  }
  if (date === undefined) {
    if (typed !== undefined)
      places.refuse('inServiceDate', 'Type the date of this odometer reading, or clear both fields.');
    return;
  }
  const unit: DistanceUnit = DISTANCE_UNITS.find((unit) => unit === fields.odometerUnit) ?? 'km';
  body.inService = { date, ...(value === undefined ? {} : { odometer: { value, unit } }) };
}

function readMass(fields: Fields, places: Places, body: Record<string, unknown>): void {
  places.note(['grossMass'], 'grossMass');
  const typed = textIn(fields, 'grossMass');
  if (typed === undefined) return;
  const value = readOdometer(typed);
  if (value === undefined)
    places.refuse('grossMass', `“${typed}” is not a mass. Type a figure in kg, such as 3500.`);
  else body.grossMass = { value, unit: 'kg' };
}

/** An axle; null if the form says that the vehicle has none there. */
function readAxle(axle: Axle, fields: Fields, places: Places): Record<string, unknown> | null {
  const brake = textIn(fields, `${axle}.brake`);
  if (brake === undefined) return null;
  places.note(['axles', axle], `${axle}.brake`);
  const read: Record<string, unknown> = { brake };
  for (const name of ['actuation', 'lining'] as const) {
    const text = textIn(fields, `${axle}.${name}`);
    places.note(['axles', axle, name], `${axle}.${name}`);
    if (text !== undefined) read[name] = text;
  }
  if (isChecked(fields, `${axle}.steered`)) read.steered = true;
  for (const spec of SPEC_FIELDS[brake === 'drum' ? 'drum' : 'disc']) {
    const field = specField(axle, spec);
    const typed = textIn(fields, field);
    places.note(['axles', axle, spec.part, spec.name], field);
    if (typed === undefined) continue;
    const quantity = readQuantity(typed);
    if (!quantity)
      places.refuse(field, `“${typed}” is not a length. Type a figure in mm, such as 11, or name its unit.`);
    else
      read[spec.part] = {
        ...(read[spec.part] as object | undefined),
        [spec.name]: withType(axle, spec, fields, quantity),
      };
  }
  const torque = readTorques(axle, fields, places);
  return Object.keys(torque).length > 0 ? { ...read, torque } : read;
}

function withType(axle: Axle, { name }: SpecField, fields: Fields, quantity: object): object {
  const type = name === 'wearIndicator' ? textIn(fields, `${axle}.indicatorType`) : undefined;
  return type === undefined ? quantity : { ...quantity, type };
}

function readTorques(axle: Axle, fields: Fields, places: Places): Record<string, unknown> {
  const torques: Record<string, unknown> = {};
  for (const row of TORQUE_ROWS) {
    const field = `${axle}.torque.${row}`;
    const fastener = textIn(fields, `${field}.fastener`)?.toLowerCase().replaceAll(/\s+/g, '-');
    const [value, tolerance] = ['value', 'tolerance'].map((name) => {
      const typed = textIn(fields, `${field}.${name}`);
      const number = typed === undefined ? undefined : readNumber(typed);
      if (typed !== undefined && number === undefined) {
        places.refuse(`${field}.${name}`, `“${typed}” is not a number. Type a figure in N·m, such as 120.`);
      }
      return number;
    });
    if (fastener === undefined && value === undefined) continue;
    if (fastener === undefined || value === undefined) {
      places.refuse(
        `${field}.${fastener === undefined ? 'fastener' : 'value'}`,
        'A torque needs a fastener and a figure.',
      );
      continue;
    }
    places.note(['axles', axle, 'torque', fastener], `${field}.value`);
    torques[fastener] = {
      value,
      unit: 'Nm',
      ...(tolerance === undefined ? {} : { tolerance: { value: tolerance, unit: 'Nm' } }),
    };
  }
  return torques;
}

/** The field values of a recorded vehicle. */
export function vehicleFields(vehicle: VehicleBody): Record<string, string> {
  const fields: Record<string, string> = {};
  const set = (field: string, value: string | number | null | undefined): void => {
    if (value != null) fields[field] = String(value);
  };
  for (const name of [...TEXTS, 'vin', 'powertrain'] as const) set(name, vehicle[name]);
  set('inServiceDate', vehicle.inService?.date);
  set('inServiceOdometer', vehicle.inService?.odometer?.value);
  set('odometerUnit', vehicle.inService?.odometer?.unit);
  set('grossMass', vehicle.grossMass?.value);
  for (const name of BRAKE_SYSTEM) if (vehicle.brakeSystem?.[name]) fields[name] = 'on';
  for (const axle of FORM_AXLES) {
    const specs = vehicle.axles[axle];
    if (specs) fillAxle(axle, specs, set);
  }
  return fields;
}

type Set = (field: string, value: string | number | null | undefined) => void;

function fillAxle(axle: Axle, specs: NonNullable<VehicleBody['axles'][Axle]>, set: Set): void {
  const brake = specs.brake ?? 'disc';
  set(`${axle}.brake`, brake);
  set(`${axle}.actuation`, specs.actuation);
  set(`${axle}.lining`, specs.lining);
  if (specs.steered) set(`${axle}.steered`, 'on');
  for (const spec of SPEC_FIELDS[brake]) {
    const quantity = (
      specs[spec.part] as Record<string, { value: number; unit: string }> | null | undefined
    )?.[spec.name];
    if (quantity) set(specField(axle, spec), quantityText(quantity));
  }
  set(`${axle}.indicatorType`, specs.pad?.wearIndicator?.type);
  Object.entries(specs.torque ?? {})
    .slice(0, TORQUE_ROWS.length)
    .forEach(([fastener, { value, tolerance }], index) => {
      set(`${axle}.torque.${index + 1}.fastener`, fastener);
      set(`${axle}.torque.${index + 1}.value`, value);
      set(`${axle}.torque.${index + 1}.tolerance`, tolerance?.value);
    });
}

/**
 * The form's changes to a vehicle, as an RFC 7396 merge patch: replaces what the form shows and keeps everything
 * without a field.
 */
export function vehiclePatch(before: VehicleBody, body: Record<string, unknown>): Record<string, unknown> {
  const shownBefore = readVehicle(vehicleFields(before)).body;
  return mergePatch(shownBefore, body) as Record<string, unknown>;
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;

/** The merge patch from one value to another. */
function mergePatch(from: unknown, to: unknown): unknown {
  if (!isObject(from) || !isObject(to)) return to;
  const patch: Record<string, unknown> = {};
  for (const name of new Set([...Object.keys(from), ...Object.keys(to)])) {
    if (!(name in to)) patch[name] = null;
    else if (JSON.stringify(from[name]) !== JSON.stringify(to[name]))
      patch[name] = mergePatch(from[name], to[name]);
  }
  return patch;
}
