import { Big } from 'big.js';
import type { DistanceUnit, LengthUnit, MassUnit, TorqueUnit } from './vocabulary/terms.js';

/**
 * Exact factors to the internal units: mm, km, N·m, kg. Sources: NIST SP 811 (2008) appendix B.8/B.9 for the inch, mile
 * and pound; 1 lbf·ft = 0.45359237 kg × 9.80665 m/s² × 0.3048 m. A thirty-second of an inch is 25.4 mm / 32. Decimal
 * strings, so that a conversion is rounded only once, at the end.
 */
const MM: Record<LengthUnit, string> = { mm: '1', in: '25.4', 'in/32': '0.79375' };
const KM: Record<DistanceUnit, string> = { km: '1', mi: '1.609344' };
const NM: Record<TorqueUnit, string> = { Nm: '1', 'ft-lbf': '1.3558179483314004' };
const KG: Record<MassUnit, string> = { kg: '1', lb: '0.45359237' };

export interface LengthQuantity {
  value: number;
  unit: LengthUnit;
}
export interface DistanceQuantity {
  value: number;
  unit: DistanceUnit;
}
export interface TorqueQuantity {
  value: number;
  unit: TorqueUnit;
}
export interface MassQuantity {
  value: number;
  unit: MassUnit;
}

/** The double nearest to the exact decimal product of value and factor. */
function convert(value: number, factor: string): number {
  return factor === '1' ? value : Number(new Big(value).times(factor).toString());
}

export const toMm = (length: LengthQuantity): number => convert(length.value, MM[length.unit]);
export const toKm = (distance: DistanceQuantity): number => convert(distance.value, KM[distance.unit]);
export const toNm = (torque: TorqueQuantity): number => convert(torque.value, NM[torque.unit]);
export const toKg = (mass: MassQuantity): number => convert(mass.value, KG[mass.unit]);

const CONVERSIONS = { mm: toMm, km: toKm, Nm: toNm, kg: toKg } as const;
const INTERNAL_UNITS: Record<string, keyof typeof CONVERSIONS> = {
  mm: 'mm',
  in: 'mm',
  'in/32': 'mm',
  km: 'km',
  mi: 'km',
  Nm: 'Nm',
  'ft-lbf': 'Nm',
  kg: 'kg',
  lb: 'kg',
};

/**
 * Copies a tree of plain objects and adds a conversion to every quantity, an object with `value` and `unit`: `{value:
 * 38052, unit: 'mi'}` becomes `{value: 38052, unit: 'mi', km: 61238.757888}`.
 */
export function withConversions(tree: unknown): unknown {
  if (Array.isArray(tree)) return tree.map(withConversions);
  if (typeof tree !== 'object' || tree === null) return tree;
  const copy: Record<string, unknown> = { ...tree };
  for (const name in copy) {
    const value = copy[name];
    if (typeof value === 'object' && value !== null) copy[name] = withConversions(value);
  }
  if (typeof copy.value === 'number' && typeof copy.unit === 'string') {
    const unit = INTERNAL_UNITS[copy.unit];
    if (unit) copy[unit] = CONVERSIONS[unit](copy as never);
  }
  return copy;
}
