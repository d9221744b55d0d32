import { z } from 'zod';
import { inWords } from '../rounding.js';
import { toKg, toKm, toMm, toNm } from '../units.js';
import {
  Distance,
  EnteredDistance,
  EnteredLength,
  EnteredMass,
  EnteredTorque,
  fullDate,
  identifier,
  identifyingText,
  Length,
  Mass,
  text,
  Torque,
  instant,
} from './quantities.js';
import { refuseImpossibleDrum, refuseImpossiblePad, refuseImpossibleRotor } from './possibleSpecs.js';
import { ACTUATIONS, AXLES, BRAKES, LININGS, POWERTRAINS, WEAR_INDICATOR_TYPES } from './terms.js';

/** Bounds beyond which a specification cannot be a road vehicle's, in mm, km, N·m and kg (common practice, no source). */
const BOUNDS = {
  pad: [0, 40],
  rotor: [2, 80],
  drum: [100, 700],
  fine: [0, 5],
  torque: [0, 3000],
  mass: [20, 200_000],
  odometer: [0, 5e6],
} as const;

function within(bounds: readonly [number, number], unit: string) {
  return { bounds, message: `must be from ${inWords(bounds[0])} to ${inWords(bounds[1])} ${unit}` };
}

export const boundedLength = (key: 'pad' | 'rotor' | 'drum' | 'fine') => {
  const { bounds, message } = within(BOUNDS[key], 'mm');
  return EnteredLength.refine((q) => toMm(q) >= bounds[0] && toMm(q) <= bounds[1], {
    message,
    path: ['value'],
  });
};
const boundedTorque = EnteredTorque.refine((q) => toNm(q) <= BOUNDS.torque[1], {
  message: within(BOUNDS.torque, 'N·m').message,
  path: ['value'],
});
const boundedMass = EnteredMass.refine((q) => toKg(q) >= BOUNDS.mass[0] && toKg(q) <= BOUNDS.mass[1], {
  message: within(BOUNDS.mass, 'kg').message,
  path: ['value'],
});
export const boundedOdometer = EnteredDistance.refine((q) => toKm(q) <= BOUNDS.odometer[1], {
  message: within(BOUNDS.odometer, 'km').message,
  path: ['value'],
});

const indicatorType = z.enum(WEAR_INDICATOR_TYPES).nullish();

const EnteredWearIndicator = z
  .strictObject({ ...EnteredLength.shape, type: indicatorType })
  .refine((q) => toMm(q) >= 0 && toMm(q) <= BOUNDS.pad[1], {
    message: within(BOUNDS.pad, 'mm').message,
    path: ['value'],
  })
  .meta({
    id: 'EnteredWearIndicator',
    description: 'The pad thickness at which the wear indicator sounds or lights.',
  });
export const WearIndicator = z.strictObject({ ...Length.shape, type: indicatorType }).meta({
  id: 'WearIndicator',
  description: 'The pad thickness at which the wear indicator sounds or lights.',
});

/** Specs of a pad and of a rotor; those given with a replacement apply to the parts fitted then. */
export const EnteredPadSpec = z
  .strictObject({
    new: boundedLength('pad').nullish(),
    limit: boundedLength('pad').nullish(),
    wearIndicator: EnteredWearIndicator.nullish(),
  })
  .superRefine(refuseImpossiblePad)
  .meta({ id: 'EnteredPadSpec', description: 'Friction material only, without backing plate.' });
export const EnteredRotorSpec = z
  .strictObject({
    new: boundedLength('rotor').nullish(),
    discard: boundedLength('rotor').nullish(),
    machineTo: boundedLength('rotor').nullish(),
    runoutLimit: boundedLength('fine').nullish(),
    variationLimit: boundedLength('fine').nullish(),
  })
  .superRefine(refuseImpossibleRotor)
  .meta({ id: 'EnteredRotorSpec' });
export const EnteredDrumSpec = z
  .strictObject({
    new: boundedLength('drum').nullish(),
    maximum: boundedLength('drum').nullish(),
    machineTo: boundedLength('drum').nullish(),
  })
  .superRefine(refuseImpossibleDrum)
  .meta({ id: 'EnteredDrumSpec', description: 'Inner diameters; a drum grows towards its maximum.' });
export type DrumSpec = z.infer<typeof EnteredDrumSpec>;
export type PadSpec = z.infer<typeof EnteredPadSpec>;
export type RotorSpec = z.infer<typeof EnteredRotorSpec>;

const PadSpec = z
  .strictObject({ new: Length.nullish(), limit: Length.nullish(), wearIndicator: WearIndicator.nullish() })
  .meta({ id: 'PadSpec' });
const RotorSpec = z
  .strictObject({
    new: Length.nullish(),
    discard: Length.nullish(),
    machineTo: Length.nullish(),
    runoutLimit: Length.nullish(),
    variationLimit: Length.nullish(),
  })
  .meta({ id: 'RotorSpec' });

const DrumSpec = z
  .strictObject({ new: Length.nullish(), maximum: Length.nullish(), machineTo: Length.nullish() })
  .meta({ id: 'DrumSpec' });

const EnteredTorqueSpec = z
  .strictObject({ ...EnteredTorque.shape, tolerance: boundedTorque.nullish() })
  .refine((q) => toNm(q) <= BOUNDS.torque[1], {
    message: within(BOUNDS.torque, 'N·m').message,
    path: ['value'],
  })
  .meta({ id: 'EnteredTorqueSpec' });
const TorqueSpec = z
  .strictObject({ ...Torque.shape, tolerance: Torque.nullish() })
  .meta({ id: 'TorqueSpec' });

/** Excludes the one name that is unsafe as a member of a JavaScript object. */
const fastener = identifier(60).meta({ not: { const: '__proto__' } });
const MAX_FASTENERS = 100;
const enteredTorques = z
  .record(fastener, EnteredTorqueSpec)
  .refine(
    (torques) => Object.keys(torques).length <= MAX_FASTENERS,
    `must name at most ${MAX_FASTENERS} fasteners`,
  )
  .meta({ maxProperties: MAX_FASTENERS });

const axleFields = {
  brake: z.enum(BRAKES).nullish(),
  actuation: z.enum(ACTUATIONS).nullish(),
  steered: z.boolean().nullish(),
  lining: z.enum(LININGS).nullish(),
};
const EnteredAxle = z
  .strictObject({
    ...axleFields,
    pad: EnteredPadSpec.nullish(),
    rotor: EnteredRotorSpec.nullish(),
    shoe: EnteredPadSpec.nullish().meta({ description: 'The linings of a drum brake.' }),
    drum: EnteredDrumSpec.nullish(),
    torque: enteredTorques.nullish(),
  })
  .meta({ id: 'EnteredAxle' });
const AxleSpec = z
  .strictObject({
    ...axleFields,
    pad: PadSpec.nullish(),
    rotor: RotorSpec.nullish(),
    shoe: PadSpec.nullish(),
    drum: DrumSpec.nullish(),
    torque: z.record(fastener, TorqueSpec).nullish(),
  })
  .meta({ id: 'AxleSpec' });
export type AxleSpecs = z.infer<typeof EnteredAxle>;

const vehicleFields = {
  externalId: identifier(100)
    .nullish()
    .meta({ description: 'The vehicle’s number in the caller’s own system. It must be unique.' }),
  registration: identifier(20).nullish(),
  vin: z
    .string()
    .overwrite(identifyingText)
    .regex(
      /^[A-HJ-NPR-Z0-9]{17}$/,
      'must be 17 characters, capital letters without I, O and Q, or digits (ISO 3779)',
    )
    .nullish(),
  description: text(500).nullish(),
  model: identifier(100).nullish().meta({ description: 'Vehicles of one model share learned wear rates.' }),
  fleet: identifier(100).nullish(),
  powertrain: z.enum(POWERTRAINS).nullish(),
  brakeSystem: z
    .strictObject({
      regenerative: z.boolean().nullish(),
      brakeByWire: z.boolean().nullish(),
      electricParkingBrake: z.boolean().nullish(),
    })
    .nullish(),
  outOfService: z.strictObject({ date: fullDate, reason: text(500).nullish() }).nullish(),
};

export const EXAMPLE_VEHICLE = {
  externalId: 'FD-1007',
  registration: 'KR 4471',
  description: 'long-wheelbase parcel van',
  model: 'parcel-van-3t5',
  fleet: 'north-depot',
  powertrain: 'combustion',
  grossMass: { value: 3500, unit: 'kg' },
  brakeSystem: { regenerative: false, brakeByWire: false, electricParkingBrake: true },
  inService: { date: '2023-05-04', odometer: { value: 12, unit: 'km' } },
  axles: {
    front: {
      brake: 'disc',
      actuation: 'hydraulic',
      steered: true,
      lining: 'bonded',
      pad: {
        new: { value: 11, unit: 'mm' },
        limit: { value: 2, unit: 'mm' },
        wearIndicator: { value: 3, unit: 'mm', type: 'mechanical' },
      },
      rotor: {
        new: { value: 28, unit: 'mm' },
        discard: { value: 26, unit: 'mm' },
        machineTo: { value: 26.4, unit: 'mm' },
        runoutLimit: { value: 0.05, unit: 'mm' },
        variationLimit: { value: 0.02, unit: 'mm' },
      },
      torque: { 'caliper-bracket-bolt': { value: 120, unit: 'Nm', tolerance: { value: 10, unit: 'Nm' } } },
    },
  },
} as const;

/** A vehicle as sent. */
export const VehicleBody = z
  .strictObject({
    ...vehicleFields,
    grossMass: boundedMass.nullish(),
    inService: z.strictObject({ date: fullDate, odometer: boundedOdometer.nullish() }).nullish().meta({
      description: 'The date on which the vehicle first went on the road, with its original parts.',
    }),
    axles: z
      .partialRecord(z.enum(AXLES), EnteredAxle)
      .refine((axles) => Object.keys(axles).length > 0, 'must name at least one axle'),
  })
  .superRefine((vehicle, context) => {
    if (vehicle.externalId == null && vehicle.registration == null && vehicle.vin == null) {
      context.addIssue({
        code: 'custom',
        path: [],
        message: 'one of externalId, registration and vin is needed',
      });
    }
    const { inService, outOfService } = vehicle;
    if (inService && outOfService && outOfService.date < inService.date) {
      context.addIssue({
        code: 'custom',
        path: ['outOfService', 'date'],
        message: 'must not be before inService.date',
      });
    }
  })
  .meta({ id: 'VehicleBody', examples: [EXAMPLE_VEHICLE] });
export type VehicleBody = z.infer<typeof VehicleBody>;

export const Warning = z
  .strictObject({ code: z.string(), detail: z.string(), pointer: z.string() })
  .meta({ id: 'Warning', description: 'A value that the server accepted but that may be a mistake.' });
export type Warning = z.infer<typeof Warning>;

/** A vehicle as answered. */
export const Vehicle = z
  .strictObject({
    id: z.string(),
    version: z.number().meta({ type: 'integer' }),
    ...vehicleFields,
    grossMass: Mass.nullish(),
    inService: z.strictObject({ date: z.string(), odometer: Distance.nullish() }).nullish(),
    axles: z.partialRecord(z.enum(AXLES), AxleSpec),
    mergedInto: z.string().nullish().meta({
      description: 'The vehicle that this record was merged into. The visits are now there.',
    }),
    erasedAt: instant.nullish().meta({
      description: 'When its personal data was erased. No further visits can be recorded.',
    }),
    createdAt: instant,
    updatedAt: instant,
    warnings: z.array(Warning),
  })
  .meta({ id: 'Vehicle' });
export type Vehicle = z.infer<typeof Vehicle>;
