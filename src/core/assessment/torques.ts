import { toNm } from '../units.js';
import type { AxleSpecs } from '../vocabulary/vehicle.js';
import type { Visit } from '../vocabulary/visit.js';

/** Share of a torque allowed for where its specification names no tolerance (common practice, no source). */
const UNNAMED_TOLERANCE = 0.05;

/** A torque beside its specification; null where there is none for its fastener. */
export function judgeTorque(
  torque: Visit['torques'][number],
  specs: NonNullable<AxleSpecs['torque']>,
): { specifiedNm: number; toleranceNm: number; within: boolean } | null {
  const spec = specs[torque.fastener];
  if (!spec) return null;
  const specifiedNm = toNm(spec);
  const toleranceNm = spec.tolerance ? toNm(spec.tolerance) : UNNAMED_TOLERANCE * specifiedNm;
  // A figure sent in another unit may miss its boundary by a rounding of the conversion.
  return { specifiedNm, toleranceNm, within: Math.abs(torque.Nm - specifiedNm) <= toleranceNm + 1e-9 };
}
