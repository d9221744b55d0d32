import type { Axle, Pad, Side } from '../../src/core/vocabulary/terms.js';

/** Bodies to send. Each call makes a new one, so that a test may change what it gets. */

export type Body = Record<string, unknown>;

/** The contract's own example of a vehicle, member for member. */
export const contractVehicle = (): Body => ({
  externalId: 'FD-1007',
  registration: 'KR 4471',
  vin: null,
  description: 'long-wheelbase parcel van',
  model: 'parcel-van-3t5',
  fleet: 'north-depot',
  powertrain: 'combustion',
  grossMass: { value: 3500, unit: 'kg' },
  brakeSystem: { regenerative: false, brakeByWire: false, electricParkingBrake: true },
  inService: { date: '2023-05-04', odometer: { value: 12, unit: 'km' } },
  outOfService: null,
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
});

/** The contract's own example of a visit, with its ellipses filled in. */
export const contractVisit = (): Body => ({
  date: '2026-03-02',
  time: '08:10',
  odometer: { value: 61240, unit: 'km' },
  workOrder: 'WO-20817',
  shop: null,
  technician: 'T4',
  complaint: 'squeals when cold',
  notes: 'seen on the lift',
  readings: [
    {
      kind: 'pad-thickness',
      axle: 'front',
      side: 'left',
      pad: 'inner',
      at: 'thinnest',
      value: 6.5,
      unit: 'mm',
      taken: 'as-found',
      gauge: 'pad-gauge',
    },
    {
      kind: 'rotor-thickness',
      axle: 'front',
      side: 'left',
      point: 1,
      value: 1.081,
      unit: 'in',
      gauge: 'micrometer',
    },
    { kind: 'rotor-runout', axle: 'front', side: 'left', value: 0.0015, unit: 'in', gauge: 'dial-indicator' },
  ],
  notMeasured: [{ axle: 'front', side: 'right', pad: 'inner', why: 'wheel not removed' }],
  conditions: [{ part: 'rotor', axle: 'front', side: 'left', state: 'scored' }],
  work: [
    {
      kind: 'pads-replaced',
      axle: 'front',
      new: { value: 11, unit: 'mm' },
      limit: { value: 2, unit: 'mm' },
      part: 'PS-11',
    },
  ],
  torques: [
    { fastener: 'caliper-bracket-bolt', axle: 'front', side: 'left', position: 1, value: 88, unit: 'ft-lbf' },
  ],
  roadTest: { pulls: 'none', pulsation: false, noise: false, notes: 'quiet' },
});

let made = 0;

/** A vehicle like the contract's, with its own externalId; `changes` replaces members. */
export function vehicleBody(changes: Body = {}): Body {
  made += 1;
  return { ...contractVehicle(), externalId: `FD-${made}`, registration: `NB ${made}`, ...changes };
}

export const km = (value: number) => ({ value, unit: 'km' });
export const mm = (value: number) => ({ value, unit: 'mm' });

/** An axle with only the pads' specification, in mm. */
export const axleWith = (newMm: number | null, limitMm: number | null): Body => ({
  brake: 'disc',
  pad: {
    ...(newMm === null ? {} : { new: mm(newMm) }),
    ...(limitMm === null ? {} : { limit: mm(limitMm) }),
  },
});

export function padReading(
  side: Side,
  pad: Pad,
  value: number,
  more: Body = {},
): Body & { axle: Axle | string } {
  return {
    kind: 'pad-thickness',
    axle: 'front',
    side,
    pad,
    value,
    unit: 'mm',
    gauge: 'depth-gauge',
    ...more,
  };
}

/** Readings of all four pads of an axle: left inner, left outer, right inner, right outer. */
export function fourPads(values: [number, number, number, number], more: Body = {}): Body[] {
  const [leftInner, leftOuter, rightInner, rightOuter] = values;
  return [
    padReading('left', 'inner', leftInner, more),
    padReading('left', 'outer', leftOuter, more),
    padReading('right', 'inner', rightInner, more),
    padReading('right', 'outer', rightOuter, more),
  ];
}

export function rotorReading(side: Side, value: number, more: Body = {}): Body {
  return {
    kind: 'rotor-thickness',
    axle: 'front',
    side,
    point: 1,
    value,
    unit: 'mm',
    gauge: 'micrometer',
    ...more,
  };
}

export function visitBody(
  date: string,
  odometerKm: number | null,
  readings: Body[] = [],
  more: Body = {},
): Body {
  return { date, odometer: odometerKm === null ? null : km(odometerKm), readings, ...more };
}
