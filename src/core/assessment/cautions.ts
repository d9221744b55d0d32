import type { WorkKind } from '../vocabulary/terms.js';
import type { VehicleBody } from '../vocabulary/vehicle.js';
import type { Caution } from '../vocabulary/wear.js';

const COMMON_PRACTICE = 'common practice, no source';

export const DECIDES_NOTHING: Caution = {
  code: 'maker-law-and-licence',
  message:
    'These figures support a decision but do not make it. The maker’s instructions, local law and licensed practice come first, and no answer here says that a vehicle is fit to drive.',
  source: COMMON_PRACTICE,
};

const ALWAYS: readonly Caution[] = [
  DECIDES_NOTHING,
  {
    code: 'lifting',
    message: 'Work only under a vehicle that stands on rated supports on firm ground, never on a jack alone.',
    source: '29 CFR 1910.244(a)(2)(iii): a raised load is cribbed, blocked or otherwise secured at once',
  },
  {
    code: 'brake-dust',
    message:
      'Treat brake dust as harmful. Clean it wet or with an enclosed vacuum; never brush it dry or blow it off.',
    source: '29 CFR 1910.1001 appendix F',
  },
  {
    code: 'before-moving',
    message:
      'Torque to the maker’s figure. Build up pedal pressure before the wheels turn. Bed in new parts, and road-test where it is allowed and clear.',
    source: COMMON_PRACTICE,
  },
];

const HIGH_VOLTAGE: Caution = {
  code: 'high-voltage',
  message:
    'High voltage on board (orange cables): trained people only. Before work near it, switch off, lock off and prove dead as the maker specifies.',
  source: 'voltage class B, above 60 V DC, ISO 6469; colour of cables, FMVSS No. 305',
};
const REGENERATIVE: Caution = {
  code: 'regenerative-braking',
  message:
    'Friction brakes that work little corrode and bind before they wear out. Check slides and rotor faces by the calendar, not by thickness alone.',
  source: COMMON_PRACTICE,
};
const BRAKE_BY_WIRE: Caution = {
  code: 'brake-by-wire',
  message:
    'The brakes may apply while the vehicle is off. Before hands or tools go near, take the key well away and switch on the maker’s service mode. Do not open the hydraulics without the means to bleed them.',
  source: COMMON_PRACTICE,
};
const PARKING_BRAKE: Caution = {
  code: 'electric-parking-brake',
  message:
    'The parking brake may apply by itself. Put it into its service mode before you touch its calipers.',
  source: COMMON_PRACTICE,
};

const PISTONS_BACK: Caution = {
  code: 'pistons-back',
  message:
    'Check the fluid level before you push pistons back: it rises, and spilled fluid strips paint. Turn back pistons that must be turned. Never let a caliper hang by its hose.',
  source: COMMON_PRACTICE,
};
const WHEELS_OFF: Caution = {
  code: 'wheels-off',
  message:
    'Mark each wheel’s place: tyres with a direction of rotation go back to their side. Torque nuts or bolts crosswise to the maker’s figure.',
  source: COMMON_PRACTICE,
};
const BEDDING_IN: Caution = {
  code: 'bedding-in',
  message:
    'New linings, and new or machined rotors and drums, brake less until the linings are bedded in. Follow the lining maker’s procedure, and tell the driver.',
  source: COMMON_PRACTICE,
};
const HYDRAULICS_OPEN: Caution = {
  code: 'hydraulics-open',
  message:
    'Bleed an opened hydraulic system in the maker’s order, with the maker’s tool where its control unit needs it. Check it for leaks under pressure.',
  source: COMMON_PRACTICE,
};

const OPENS_HYDRAULICS: ReadonlySet<WorkKind> = new Set([
  'caliper-replaced',
  'fluid-changed',
  'hose-replaced',
]);

const ELECTRIFIED = new Set(['hybrid', 'battery-electric', 'fuel-cell']);

export function isElectrified({ powertrain }: VehicleBody): boolean {
  return powertrain != null && ELECTRIFIED.has(powertrain);
}

/** Whether the vehicle has regenerative braking; assumed for electrified vehicles if not recorded. */
export function isRegenerative(vehicle: VehicleBody): boolean {
  return vehicle.brakeSystem?.regenerative ?? isElectrified(vehicle);
}

/** Work that makes room for thicker pads or rotors. */
const PUSHES_PISTONS: ReadonlySet<WorkKind> = new Set(['pads-replaced', 'rotor-replaced']);
/** Work after which linings and their rotors or drums meet for the first time. */
const NEEDS_BEDDING_IN: ReadonlySet<WorkKind> = new Set([
  'pads-replaced',
  'shoes-replaced',
  'rotor-replaced',
  'rotor-machined',
  'drum-replaced',
  'drum-machined',
]);

/** The work at hand: what was done at the latest visit, and whether linings or rotors are about to be renewed. */
export interface WorkAtHand {
  done: readonly WorkKind[];
  renewal: boolean;
}

/** Cautions for this vehicle and the work at hand. */
export function cautionsFor(vehicle: VehicleBody, { done, renewal }: WorkAtHand): Caution[] {
  const { brakeSystem } = vehicle;
  return [
    ...ALWAYS,
    ...(isElectrified(vehicle) ? [HIGH_VOLTAGE] : []),
    ...(isRegenerative(vehicle) ? [REGENERATIVE] : []),
    ...(brakeSystem?.brakeByWire ? [BRAKE_BY_WIRE] : []),
    ...(brakeSystem?.electricParkingBrake ? [PARKING_BRAKE] : []),
    ...(renewal || done.length > 0 ? [WHEELS_OFF] : []),
    ...(renewal || done.some((kind) => PUSHES_PISTONS.has(kind)) ? [PISTONS_BACK] : []),
    ...(renewal || done.some((kind) => NEEDS_BEDDING_IN.has(kind)) ? [BEDDING_IN] : []),
    ...(done.some((kind) => OPENS_HYDRAULICS.has(kind)) ? [HYDRAULICS_OPEN] : []),
  ];
}
