import type { z } from 'zod';
import type { Axle, DistanceUnit, LengthUnit } from '../src/core/vocabulary/terms.js';
import type { VehicleBody } from '../src/core/vocabulary/vehicle.js';

/**
 * The invented setting: the workshops of Karreth, a market town in the equally invented Low Sarn, look after a parcel
 * round, a taxi and school-bus firm, a pool of courtesy cars and a handful of private customers. No make, model,
 * company, person or part here is real.
 */

export type VehicleInput = z.input<typeof VehicleBody>;
export type AxleInput = NonNullable<VehicleInput['axles'][Axle]>;
export type Season = 'even' | 'parcels' | 'school' | 'summer';

export interface Model {
  key: string;
  description: string;
  powertrain: NonNullable<VehicleInput['powertrain']>;
  grossMass: NonNullable<VehicleInput['grossMass']>;
  brakeSystem: NonNullable<VehicleInput['brakeSystem']>;
  axles: Partial<Record<Axle, AxleInput>>;
  /** Hidden truth, medians over the model's vehicles; `padWear` is mm per 1000 km of friction material. */
  kmPerDay: number;
  season: Season;
  padWear: Partial<Record<Axle, number>>;
  rotorWear: number;
  /** Days from one visit to the next. */
  rhythmDays: number;
}

/** What happens to one vehicle; together the stories cover the oddities that a workshop meets. */
export type Story =
  | 'sticking-slide'
  | 'machined-rotor'
  | 'odometer-replaced'
  | 'odometer-unread'
  | 'parked'
  | 'below-limit'
  | 'due-soon'
  | 'no-readings'
  | 'single-reading'
  | 'out-of-service'
  | 'misreading'
  | 'cracked-rotor'
  | 'scored-rotor';

/** What the shop does not know about a vehicle. */
export type Gap = 'in-service' | 'pad-limit' | 'rotor' | 'torque' | 'specs' | 'mass' | 'model';

export interface Casting {
  model: string;
  story?: Story;
  gaps?: readonly Gap[];
  odometerUnit?: DistanceUnit;
  /** Days in service; about three years if not given. */
  ageDays?: number;
  rhythmDays?: number;
}

export interface Keeper {
  /** null: private customers. */
  fleet: string | null;
  externalIdPrefix: string;
  registrationPrefix: string;
  shop: string | null;
  cast: readonly Casting[];
}

const mm = (value: number) => ({ value, unit: 'mm' as const });
const newtonMetres = (value: number) => ({ value, unit: 'Nm' as const });
const kilograms = (value: number) => ({ value, unit: 'kg' as const });

const torques = (bracketBolt: number, wheelBolt: number) => ({
  'caliper-bracket-bolt': {
    ...newtonMetres(bracketBolt),
    tolerance: newtonMetres(Math.round(bracketBolt / 12)),
  },
  'wheel-bolt': { ...newtonMetres(wheelBolt), tolerance: newtonMetres(Math.round(wheelBolt / 12)) },
});

interface DiscFigures {
  pad: readonly [newMm: number, limitMm: number, indicatorMm: number | null];
  rotor: readonly [newMm: number, discardMm: number, machineToMm: number];
  torque: readonly [bracketBoltNm: number, wheelBoltNm: number];
  steered: boolean;
  air?: boolean;
}

function disc({ pad, rotor, torque, steered, air = false }: DiscFigures): AxleInput {
  const [padNew, limit, indicator] = pad;
  const [rotorNew, discard, machineTo] = rotor;
  const indicatorType = air ? ('electric' as const) : ('mechanical' as const);
  return {
    brake: 'disc',
    actuation: air ? 'air' : 'hydraulic',
    steered,
    lining: 'bonded',
    pad: {
      new: mm(padNew),
      limit: mm(limit),
      ...(indicator === null ? {} : { wearIndicator: { ...mm(indicator), type: indicatorType } }),
    },
    rotor: {
      new: mm(rotorNew),
      discard: mm(discard),
      machineTo: mm(machineTo),
      runoutLimit: mm(air ? 0.1 : 0.05),
      variationLimit: mm(air ? 0.05 : 0.02),
    },
    torque: torques(...torque),
  };
}

const drum = (actuation: 'hydraulic' | 'air'): AxleInput => ({
  brake: 'drum',
  actuation,
  steered: false,
  lining: actuation === 'air' ? 'riveted' : 'bonded',
});

/** Specified in inches throughout, like the papers of an imported vehicle. */
const inchDisc = (steered: boolean, padNew: number, rotorNew: number, discard: number): AxleInput => {
  const inches = (value: number) => ({ value, unit: 'in' as const });
  const thirtySeconds = (value: number) => ({ value, unit: 'in/32' as const });
  return {
    brake: 'disc',
    actuation: 'hydraulic',
    steered,
    lining: steered ? 'bonded' : 'riveted',
    pad: {
      new: thirtySeconds(padNew),
      limit: thirtySeconds(3),
      wearIndicator: { ...thirtySeconds(4), type: 'mechanical' },
    },
    rotor: {
      new: inches(rotorNew),
      discard: inches(discard),
      runoutLimit: inches(0.002),
      variationLimit: inches(0.0008),
    },
    torque: {
      'caliper-bracket-bolt': {
        value: 110,
        unit: 'ft-lbf',
        tolerance: { value: 9, unit: 'ft-lbf' },
      },
    },
  };
};

const plain = { regenerative: false, brakeByWire: false, electricParkingBrake: false };
const regenerative = { regenerative: true, brakeByWire: true, electricParkingBrake: true };

export const MODELS: readonly Model[] = [
  {
    key: 'parcel-van-3t5',
    description: 'long-wheelbase parcel van',
    powertrain: 'combustion',
    grossMass: kilograms(3500),
    brakeSystem: { ...plain, electricParkingBrake: true },
    axles: {
      front: disc({ pad: [11, 2, 3], rotor: [28, 26, 26.4], torque: [120, 180], steered: true }),
      rear: disc({ pad: [10, 2, null], rotor: [16, 14, 14.4], torque: [90, 180], steered: false }),
    },
    kmPerDay: 100,
    season: 'parcels',
    padWear: { front: 0.15, rear: 0.1 },
    rotorWear: 0.015,
    rhythmDays: 70,
  },
  {
    key: 'parcel-van-electric',
    description: 'battery-electric parcel van for the town round',
    powertrain: 'battery-electric',
    grossMass: kilograms(3500),
    brakeSystem: regenerative,
    axles: {
      front: disc({ pad: [11, 2, 3], rotor: [28, 26, 26.4], torque: [120, 180], steered: true }),
      rear: disc({ pad: [10, 2, null], rotor: [16, 14, 14.4], torque: [90, 180], steered: false }),
    },
    kmPerDay: 80,
    season: 'parcels',
    padWear: { front: 0.045, rear: 0.03 },
    rotorWear: 0.008,
    rhythmDays: 90,
  },
  {
    key: 'flatbed-7t5',
    description: 'flatbed lorry with air brakes',
    powertrain: 'combustion',
    grossMass: kilograms(7500),
    brakeSystem: plain,
    axles: {
      front: disc({ pad: [19, 2, 3], rotor: [40, 36, 37], torque: [180, 340], steered: true, air: true }),
      rear: drum('air'),
    },
    kmPerDay: 110,
    season: 'even',
    padWear: { front: 0.19 },
    rotorWear: 0.02,
    rhythmDays: 85,
  },
  {
    key: 'box-trailer',
    description: 'two-axle box trailer',
    powertrain: 'none',
    grossMass: kilograms(10_000),
    brakeSystem: plain,
    axles: {
      'axle-1': disc({
        pad: [19, 2, null],
        rotor: [40, 36, 37],
        torque: [180, 340],
        steered: false,
        air: true,
      }),
      'axle-2': disc({
        pad: [19, 2, null],
        rotor: [40, 36, 37],
        torque: [180, 340],
        steered: false,
        air: true,
      }),
    },
    kmPerDay: 115,
    season: 'parcels',
    padWear: { 'axle-1': 0.18, 'axle-2': 0.16 },
    rotorWear: 0.02,
    rhythmDays: 91,
  },
  {
    key: 'school-minibus',
    description: 'sixteen-seat school minibus',
    powertrain: 'combustion',
    grossMass: kilograms(5000),
    brakeSystem: plain,
    axles: {
      front: disc({ pad: [12, 2, 3], rotor: [30, 27, 27.6], torque: [140, 200], steered: true }),
      rear: disc({ pad: [11, 2, 3], rotor: [22, 20, 20.4], torque: [120, 200], steered: false }),
    },
    kmPerDay: 95,
    season: 'school',
    padWear: { front: 0.17, rear: 0.12 },
    rotorWear: 0.016,
    rhythmDays: 88,
  },
  {
    key: 'hybrid-taxi',
    description: 'hybrid taxi',
    powertrain: 'hybrid',
    grossMass: kilograms(2150),
    brakeSystem: { regenerative: true, brakeByWire: true, electricParkingBrake: false },
    axles: {
      front: disc({ pad: [10, 2, 2.5], rotor: [25, 23, 23.4], torque: [105, 110], steered: true }),
      rear: disc({ pad: [9, 2, null], rotor: [10, 8.5, 8.8], torque: [65, 110], steered: false }),
    },
    kmPerDay: 165,
    season: 'even',
    padWear: { front: 0.075, rear: 0.05 },
    rotorWear: 0.01,
    rhythmDays: 62,
  },
  {
    key: 'courtesy-hatch',
    description: 'small hatchback lent to customers',
    powertrain: 'combustion',
    grossMass: kilograms(1550),
    brakeSystem: plain,
    axles: {
      front: disc({ pad: [10.5, 2, 2.5], rotor: [22, 20, 20.4], torque: [100, 110], steered: true }),
      rear: drum('hydraulic'),
    },
    kmPerDay: 60,
    season: 'even',
    padWear: { front: 0.14 },
    rotorWear: 0.013,
    rhythmDays: 120,
  },
  {
    key: 'electric-crossover',
    description: 'battery-electric crossover',
    powertrain: 'battery-electric',
    grossMass: kilograms(2400),
    brakeSystem: regenerative,
    axles: {
      front: disc({ pad: [11, 3, 3.5], rotor: [30, 28, 28.4], torque: [130, 140], steered: true }),
      rear: disc({ pad: [9, 2, null], rotor: [12, 10, 10.4], torque: [100, 140], steered: false }),
    },
    kmPerDay: 45,
    season: 'even',
    padWear: { front: 0.035, rear: 0.03 },
    rotorWear: 0.006,
    rhythmDays: 180,
  },
  {
    key: 'family-estate',
    description: 'estate car',
    powertrain: 'combustion',
    grossMass: kilograms(2050),
    brakeSystem: { ...plain, electricParkingBrake: true },
    axles: {
      front: disc({ pad: [11, 2, 3], rotor: [25, 23, 23.4], torque: [115, 120], steered: true }),
      rear: disc({ pad: [9, 2, null], rotor: [12, 10, 10.4], torque: [75, 120], steered: false }),
    },
    kmPerDay: 40,
    season: 'even',
    padWear: { front: 0.13, rear: 0.09 },
    rotorWear: 0.013,
    rhythmDays: 200,
  },
  {
    key: 'camper-van',
    description: 'camper, laid up in winter',
    powertrain: 'combustion',
    grossMass: kilograms(3500),
    brakeSystem: plain,
    axles: {
      front: disc({ pad: [11, 2, 3], rotor: [28, 26, 26.4], torque: [120, 180], steered: true }),
      rear: drum('hydraulic'),
    },
    kmPerDay: 40,
    season: 'summer',
    padWear: { front: 0.12 },
    rotorWear: 0.014,
    rhythmDays: 220,
  },
  {
    key: 'light-pickup',
    description: 'imported pickup',
    powertrain: 'combustion',
    grossMass: { value: 6800, unit: 'lb' },
    brakeSystem: plain,
    axles: { front: inchDisc(true, 14, 1.181, 1.102), rear: inchDisc(false, 12, 0.787, 0.728) },
    kmPerDay: 45,
    season: 'even',
    padWear: { front: 0.13, rear: 0.08 },
    rotorWear: 0.014,
    rhythmDays: 130,
  },
];

const several = (count: number, casting: Casting): Casting[] => Array.from({ length: count }, () => casting);

export const KEEPERS: readonly Keeper[] = [
  {
    fleet: 'north-depot',
    externalIdPrefix: 'ND-1',
    registrationPrefix: 'KR',
    shop: 'karreth-yard',
    cast: [
      ...several(5, { model: 'parcel-van-3t5' }),
      { model: 'parcel-van-3t5', story: 'sticking-slide', ageDays: 330, rhythmDays: 45 },
      { model: 'parcel-van-3t5', story: 'due-soon', ageDays: 460, rhythmDays: 55 },
      { model: 'parcel-van-3t5', story: 'out-of-service' },
      { model: 'parcel-van-3t5', gaps: ['in-service'] },
      { model: 'parcel-van-3t5', ageDays: 700 },
      ...several(3, { model: 'parcel-van-electric' }),
      { model: 'parcel-van-electric', ageDays: 600, gaps: ['rotor'] },
      { model: 'flatbed-7t5' },
      { model: 'flatbed-7t5', gaps: ['torque', 'mass'] },
      { model: 'flatbed-7t5', story: 'cracked-rotor' },
      { model: 'box-trailer' },
    ],
  },
  {
    fleet: 'ferry-lane',
    externalIdPrefix: 'FL-2',
    registrationPrefix: 'SG',
    shop: 'karreth-yard',
    cast: [
      ...several(4, { model: 'school-minibus' }),
      { model: 'school-minibus', story: 'due-soon', ageDays: 900 },
      ...several(3, { model: 'hybrid-taxi' }),
      { model: 'hybrid-taxi', story: 'odometer-replaced' },
      { model: 'hybrid-taxi', story: 'misreading', ageDays: 460 },
      { model: 'hybrid-taxi', gaps: ['in-service', 'pad-limit'] },
      { model: 'hybrid-taxi', ageDays: 500 },
    ],
  },
  {
    fleet: 'courtesy-pool',
    externalIdPrefix: 'CP-3',
    registrationPrefix: 'KR',
    shop: 'saltgate-bay',
    cast: [
      ...several(3, { model: 'courtesy-hatch' }),
      { model: 'courtesy-hatch', story: 'machined-rotor' },
      { model: 'courtesy-hatch', story: 'scored-rotor', odometerUnit: 'mi' },
      { model: 'courtesy-hatch', ageDays: 600 },
      { model: 'electric-crossover', rhythmDays: 120 },
      { model: 'electric-crossover', story: 'single-reading', ageDays: 190, rhythmDays: 100 },
    ],
  },
  {
    fleet: null,
    externalIdPrefix: 'C-4',
    registrationPrefix: 'LS',
    shop: null,
    cast: [
      { model: 'family-estate', story: 'odometer-unread' },
      { model: 'family-estate', story: 'below-limit', rhythmDays: 360 },
      { model: 'family-estate', story: 'due-soon', gaps: ['in-service'] },
      { model: 'family-estate', gaps: ['in-service', 'specs', 'model'], odometerUnit: 'mi' },
      { model: 'electric-crossover', gaps: ['mass'] },
      { model: 'electric-crossover', odometerUnit: 'mi' },
      { model: 'camper-van' },
      { model: 'camper-van', gaps: ['in-service', 'torque'], odometerUnit: 'mi' },
      { model: 'courtesy-hatch', story: 'no-readings', ageDays: 420 },
      { model: 'light-pickup', story: 'parked', odometerUnit: 'mi' },
    ],
  },
];

/**
 * How one technician takes a reading: the recorded gauge, the unit and step of the reading, and the error before
 * rounding.
 */
export interface Tool {
  gauge: string | null;
  unit: LengthUnit;
  step: number;
  errorMm: number;
}

export const VISUAL: Tool = { gauge: 'visual', unit: 'mm', step: 2, errorMm: 0.9 };
export const DEPTH_GAUGE: Tool = { gauge: 'depth-gauge', unit: 'mm', step: 0.1, errorMm: 0.12 };
const PAD_GAUGE: Tool = { gauge: 'pad-gauge', unit: 'mm', step: 0.5, errorMm: 0.2 };
const MICROMETER: Tool = { gauge: 'micrometer', unit: 'mm', step: 0.01, errorMm: 0.004 };
const INCH_MICROMETER: Tool = { gauge: 'micrometer', unit: 'in', step: 0.0005, errorMm: 0.004 };
const DIAL: Tool = { gauge: 'dial-indicator', unit: 'mm', step: 0.01, errorMm: 0.003 };
const INCH_DIAL: Tool = { gauge: 'dial-indicator', unit: 'in', step: 0.0005, errorMm: 0.003 };

export interface Technician {
  code: string;
  pads: readonly Tool[];
  rotor: Tool;
  runout: Tool;
  torqueUnit: 'Nm' | 'ft-lbf';
}

export const TECHNICIANS: readonly Technician[] = [
  { code: 'T1', pads: [PAD_GAUGE], rotor: MICROMETER, runout: DIAL, torqueUnit: 'Nm' },
  {
    code: 'T2',
    pads: [{ gauge: 'pad-gauge-thirty-seconds', unit: 'in/32', step: 1, errorMm: 0.2 }],
    rotor: INCH_MICROMETER,
    runout: INCH_DIAL,
    torqueUnit: 'ft-lbf',
  },
  { code: 'T3', pads: [DEPTH_GAUGE, PAD_GAUGE], rotor: MICROMETER, runout: DIAL, torqueUnit: 'Nm' },
  {
    code: 'T4',
    pads: [{ gauge: 'pad-gauge-1mm', unit: 'mm', step: 1, errorMm: 0.2 }],
    rotor: { gauge: 'caliper', unit: 'mm', step: 0.05, errorMm: 0.02 },
    runout: DIAL,
    torqueUnit: 'Nm',
  },
  {
    code: 'T5',
    pads: [{ gauge: 'depth-gauge', unit: 'in', step: 0.005, errorMm: 0.12 }],
    rotor: INCH_MICROMETER,
    runout: INCH_DIAL,
    torqueUnit: 'ft-lbf',
  },
  {
    code: 'T6',
    pads: [
      { gauge: 'caliper', unit: 'mm', step: 0.05, errorMm: 0.15 },
      { gauge: null, unit: 'mm', step: 0.5, errorMm: 0.25 },
    ],
    rotor: MICROMETER,
    runout: DIAL,
    torqueUnit: 'Nm',
  },
];
