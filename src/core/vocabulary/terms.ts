/**
 * The words of the trade as the service uses them, in one place: the HTTP schemas, the database checks and the
 * core all read these lists.
 */

export const AXLES = [
  'front',
  'rear',
  'axle-1',
  'axle-2',
  'axle-3',
  'axle-4',
  'axle-5',
  'axle-6',
  'axle-7',
  'axle-8',
  'axle-9',
] as const;
export type Axle = (typeof AXLES)[number];

/** As seen facing forward. */
export const SIDES = ['left', 'right'] as const;
export type Side = (typeof SIDES)[number];

export const PADS = ['inner', 'outer'] as const;
export type Pad = (typeof PADS)[number];

/** Where along the pad the gauge was put; `trailing` is the end the disc leaves last. */
export const PLACES = ['thinnest', 'leading', 'centre', 'trailing'] as const;
export type Place = (typeof PLACES)[number];

/** `as-found`: the parts that came in. `as-left`: the parts that went out. */
export const TAKEN = ['as-found', 'as-left'] as const;
export type Taken = (typeof TAKEN)[number];

export const READING_KINDS = ['pad-thickness', 'rotor-thickness', 'rotor-runout'] as const;
export type ReadingKind = (typeof READING_KINDS)[number];

export const WORK_KINDS = [
  'pads-replaced',
  'rotor-replaced',
  'rotor-machined',
  'slides-serviced',
  'caliper-replaced',
  'fluid-changed',
  'hose-replaced',
] as const;
export type WorkKind = (typeof WORK_KINDS)[number];

export const CONDITION_PARTS = ['rotor', 'pad', 'caliper', 'hose', 'slide'] as const;
export const CONDITION_STATES = [
  'cracked',
  'scored',
  'heat-spotted',
  'corroded',
  'contaminated',
  'loose',
  'glazed',
  'seized',
  'leaking',
  'ok',
] as const;

export const POWERTRAINS = ['combustion', 'hybrid', 'battery-electric', 'fuel-cell', 'none'] as const;
export type Powertrain = (typeof POWERTRAINS)[number];

export const BRAKES = ['disc', 'drum'] as const;
export const ACTUATIONS = ['hydraulic', 'air', 'electric', 'mechanical'] as const;
export const LININGS = ['bonded', 'riveted', 'bolted'] as const;
export const WEAR_INDICATOR_TYPES = ['mechanical', 'electric', 'mark'] as const;
export const PULLS = ['none', 'left', 'right'] as const;

export const LENGTH_UNITS = ['mm', 'in', 'in/32'] as const;
export type LengthUnit = (typeof LENGTH_UNITS)[number];
export const DISTANCE_UNITS = ['km', 'mi'] as const;
export type DistanceUnit = (typeof DISTANCE_UNITS)[number];
export const TORQUE_UNITS = ['Nm', 'ft-lbf'] as const;
export type TorqueUnit = (typeof TORQUE_UNITS)[number];
export const MASS_UNITS = ['kg', 'lb'] as const;
export type MassUnit = (typeof MASS_UNITS)[number];

export const LIMIT_SOURCES = ['maker', 'law', 'shop', 'wear-indicator'] as const;
export const FAILS_AT = ['at-or-below', 'below'] as const;
export const CONFORMITIES = ['conforms', 'inconclusive', 'does-not-conform'] as const;
export type Conformity = (typeof CONFORMITIES)[number];
export const ROTOR_DECISIONS = ['keep', 'machine', 'replace', 'measure'] as const;
export const SEVERITIES = ['note', 'check', 'stop'] as const;
export type Severity = (typeof SEVERITIES)[number];
export const NEXT_VISIT_SOURCES = ['until', 'rhythm', 'policy'] as const;

export const GAUGE_KINDS = [
  'pad-gauge',
  'depth-gauge',
  'caliper',
  'micrometer',
  'dial-indicator',
  'visual',
  'assumed',
] as const;

export const ROLES = ['front-desk', 'technician', 'fleet-manager', 'owner'] as const;
export type Role = (typeof ROLES)[number];

export const IMPORT_KINDS = ['visits', 'vehicles'] as const;
export type ImportKind = (typeof IMPORT_KINDS)[number];
export const IMPORT_STATES = [
  'receiving',
  'checking',
  'forecasting',
  'writing',
  'done',
  'refused',
  'failed',
] as const;
export type ImportState = (typeof IMPORT_STATES)[number];
