import { capital, termInWords } from '../words.js';
import { inWords } from '../rounding.js';
import { toNm } from '../units.js';
import type { AxleSpecs } from '../vocabulary/vehicle.js';
import type { Visit } from '../vocabulary/visit.js';

/** Tolerance, as a share of the torque, if the specification names none (common practice, no source). */
const UNNAMED_TOLERANCE = 0.05;

type Torque = Visit['torques'][number];

/** A torque and its specification. */
export interface JudgedTorque {
  specifiedNm: number;
  toleranceNm: number;
  within: boolean;
}

/** The torques that count: a later one of the same fastener replaces an earlier one. */
export function lastTorques(torques: readonly Torque[]): Torque[] {
  const replaces = (later: Torque, earlier: Torque): boolean =>
    later.axle === earlier.axle &&
    later.fastener === earlier.fastener &&
    (later.side == null || later.side === earlier.side) &&
    (later.position == null || later.position === earlier.position);
  return torques.filter(
    (torque, index) => !torques.slice(index + 1).some((later) => replaces(later, torque)),
  );
}

export const torqueInWords = (
  { fastener, side, Nm }: Torque,
  { specifiedNm, toleranceNm }: JudgedTorque,
): string =>
  `${capital(termInWords(fastener))}${side ? ` on the ${side}` : ''} was set to ${inWords(Nm, 1)} N·m; specified ${inWords(specifiedNm, 1)} ± ${inWords(toleranceNm, 1)} N·m.`;

/** Judges a torque by its specification; null if its fastener has none. */
export function judgeTorque(torque: Torque, specs: NonNullable<AxleSpecs['torque']>): JudgedTorque | null {
  const spec = specs[torque.fastener];
  if (!spec) return null;
  const specifiedNm = toNm(spec);
  const toleranceNm = spec.tolerance ? toNm(spec.tolerance) : UNNAMED_TOLERANCE * specifiedNm;
  // A figure sent in another unit may miss its boundary by a rounding error of the conversion.
  return { specifiedNm, toleranceNm, within: Math.abs(torque.Nm - specifiedNm) <= toleranceNm + 1e-9 };
}
