import { capital, termInWords } from '../words.js';
import { inWords } from '../rounding.js';
import { toNm } from '../units.js';
import { SIDES, type Side, type WorkKind } from '../vocabulary/terms.js';
import type { AxleSpecs } from '../vocabulary/vehicle.js';
import type { Visit } from '../vocabulary/visit.js';

/** Tolerance, as a share of the torque, if the specification gives none (common practice, no source). */
const DEFAULT_TOLERANCE = 0.05;

type Torque = Visit['torques'][number];

/** A torque and its specification. */
export interface JudgedTorque {
  specifiedNm: number;
  toleranceNm: number;
  within: boolean;
}

/** Work that takes a wheel off and opens fasteners. */
export const OPENS_FASTENERS: ReadonlySet<WorkKind> = new Set([
  'pads-replaced',
  'rotor-replaced',
  'rotor-machined',
  'slides-serviced',
  'caliper-replaced',
  'hose-replaced',
  'shoes-replaced',
  'drum-replaced',
  'drum-machined',
]);

/** Whether a visit's work opened the fastener of an earlier torque on every side that it covers. */
export const opensFastener = ({ work }: Pick<Visit, 'work'>, torque: Torque): boolean =>
  sidesOf(torque).every((side) =>
    work.some(
      (item) => item.axle === torque.axle && OPENS_FASTENERS.has(item.kind) && (item.side ?? side) === side,
    ),
  );

/** The sides that a torque covers: both, if it names none. */
const sidesOf = ({ side }: Torque): readonly Side[] => (side == null ? SIDES : [side]);

const isSameFastener = (later: Torque, earlier: Torque, side: Side): boolean =>
  sidesOf(later).includes(side) && (later.position == null || later.position === earlier.position);

/** The torques in force: a later torque of the same fastener replaces an earlier one, on each side that it covers. */
export function lastTorques<Each extends Torque>(torques: readonly Each[]): Each[] {
  const laterByFastener = new Map<string, Torque[]>();
  return torques
    .toReversed()
    .filter((torque) => {
      const name = `${torque.axle} ${torque.fastener}`;
      const later = laterByFastener.get(name) ?? [];
      const counts = sidesOf(torque).some(
        (side) => !later.some((each) => isSameFastener(each, torque, side)),
      );
      if (counts) laterByFastener.set(name, [...later, torque]);
      return counts;
    })
    .toReversed();
}

export const torqueInWords = (
  { fastener, side, Nm }: Torque,
  { specifiedNm, toleranceNm }: JudgedTorque,
  date: string,
): string =>
  `${capital(termInWords(fastener))}${side ? ` on the ${side}` : ''} was set to ${inWords(Nm, 1)} N·m on ${date}; ${inWords(specifiedNm, 1)} ± ${inWords(toleranceNm, 1)} N·m is specified.`;

/** Judges a torque by its specification; null if its fastener has none. */
export function judgeTorque(torque: Torque, specs: NonNullable<AxleSpecs['torque']>): JudgedTorque | null {
  const spec = specs[torque.fastener];
  if (!spec) return null;
  const specifiedNm = toNm(spec);
  const toleranceNm = spec.tolerance ? toNm(spec.tolerance) : DEFAULT_TOLERANCE * specifiedNm;
  // The conversion from another unit may push a figure at the boundary past it by a rounding error.
  return { specifiedNm, toleranceNm, within: Math.abs(torque.Nm - specifiedNm) <= toleranceNm + 1e-9 };
}
