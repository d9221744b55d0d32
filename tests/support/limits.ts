import { padLimits, type LimitContext } from '../../src/core/assessment/limits.js';
import { RULE_SET_IDS, ruleSetsNamed } from '../../src/core/assessment/ruleSets.js';
import { axleFacts } from '../../src/core/assessment/whichRules.js';
import { padLives } from '../../src/core/lives.js';
import { layRoad } from '../../src/core/odometer.js';
import type { AxleSpecs, PadSpec, VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { historyOf, padReading, vehicleOf } from './coreHistories.js';

/** A lining to judge: its axle, its vehicle and the chosen rule sets. Facts that are not given are unknown. */
export interface Lining {
  part?: LimitContext['part'];
  axle?: Pick<AxleSpecs, 'actuation' | 'steered' | 'lining'>;
  vehicle?: Pick<VehicleBody, 'powertrain' | 'grossMass'>;
  spec?: PadSpec;
  ruleSets?: readonly string[];
  shopMinimum?: LimitContext['shopMinimum'];
}

export const kg = (value: number) => ({ value, unit: 'kg' as const });
export const lb = (value: number) => ({ value, unit: 'lb' as const });

/** A motor vehicle heavy enough for every set that depends on mass. */
export const LORRY = { powertrain: 'combustion', grossMass: kg(12_000) } as const;
export const CAR = { powertrain: 'combustion', grossMass: kg(1900) } as const;

/** The limits of a lining at a thickness, mm; null means not read. All sets count unless others are given. */
export function limitsOf(lining: Lining, thickness: number | null, gauge = 'depth-gauge') {
  const { part = 'pad', axle = {}, vehicle = {}, spec = {}, ruleSets = RULE_SET_IDS } = lining;
  const readings = thickness === null ? [] : [padReading('left', 'inner', thickness, { gauge })];
  const history = historyOf({ ...vehicle, axles: { front: { ...axle, pad: spec } } }, [
    { date: '2026-03-02', readings },
  ]);
  const [life] = padLives(history, layRoad(history), 'front', 'left', 'inner');
  return padLimits(life!.spec, life!.observations.at(-1) ?? null, {
    part,
    facts: axleFacts(vehicleOf({ ...vehicle, axles: { front: axle } }), 'front'),
    ruleSets: ruleSetsNamed(ruleSets),
    shopMinimum: lining.shopMinimum ?? null,
    placementSdMm: 0.2,
  });
}

/** Whether a lining at a thickness fails the governing limit; false if there is none. */
export function isFailing(lining: Lining, thickness: number): boolean {
  return limitsOf(lining, thickness).limits[0]?.fails ?? false;
}
