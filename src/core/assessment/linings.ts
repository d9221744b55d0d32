import type { History } from '../history.js';
import { isDrumBrake } from '../lives.js';
import { PADS, SHOES, SIDES, type Axle, type LiningPosition, type Side } from '../vocabulary/terms.js';

/** One lining of an axle: a pad or shoe by name, the thinnest of a wheel, or without a side the thinnest of the axle. */
export interface LiningAt {
  side: Side | null;
  pad: LiningPosition;
}

/** After this many visits that measured only one side, the axle is assumed to have a brake on that side only. */
const VISITS_OF_ONE_SIDE = 2;

/** The sides of an axle that have a brake: only one if the other was never measured or worked on. */
export function sidesOf({ visits }: History, axle: Axle): readonly Side[] {
  const measured = visits.map(({ readings, conditions, work }) =>
    SIDES.filter((side) =>
      [...readings, ...conditions, ...work].some(
        (item) => item.axle === axle && (item.side ?? side) === side,
      ),
    ),
  );
  const seen = measured.filter((sides) => sides.length > 0);
  const only = SIDES.find((side) => seen.every((sides) => sides.length === 1 && sides[0] === side));
  return only && seen.length >= VISITS_OF_ONE_SIDE ? [only] : SIDES;
}

/**
 * The linings of an axle that the service tracks: the named ones, if any was ever measured by name or nothing was
 * measured at all; and the thinnest of a wheel or of the axle, if it was measured.
 */
export function liningsOf(history: History, axle: Axle, sides = sidesOf(history, axle)): LiningAt[] {
  const measured = measuredLinings(history, axle);
  const isMeasured = (side: Side | null, pad: LiningPosition): boolean =>
    measured.some((each) => each.side === side && each.pad === pad);
  const named = namedLinings(history, axle, measured);
  const hasAxle = isMeasured(null, 'thinnest');
  // If only the thinnest of one wheel was measured, track that of the other wheel too.
  const isByWheel = named.length === 0 && !hasAxle;
  return [
    ...sides.flatMap((side) => [
      ...named.map((pad) => ({ side, pad })),
      ...(isByWheel || isMeasured(side, 'thinnest') ? [{ side, pad: 'thinnest' as const }] : []),
    ]),
    ...(hasAxle ? [{ side: null, pad: 'thinnest' as const }] : []),
  ];
}

/** A wheel's named linings: both pads, or the shoes ever measured; none if only the thinnest was measured. */
function namedLinings(
  history: History,
  axle: Axle,
  measured: readonly LiningAt[],
): readonly LiningPosition[] {
  const names = new Set(measured.map(({ pad }) => pad).filter((pad) => pad !== 'thinnest'));
  if (names.size === 0 && measured.length > 0) return [];
  if (!isDrumBrake(history, axle)) return PADS;
  const shoes = SHOES.filter((shoe) => shoe !== 'thinnest');
  return names.size > 0 ? shoes.filter((shoe) => names.has(shoe)) : shoes;
}

function measuredLinings(history: History, axle: Axle): LiningAt[] {
  const kind = isDrumBrake(history, axle) ? 'shoe-thickness' : 'pad-thickness';
  return history.visits.flatMap(({ readings }) =>
    readings.flatMap((reading): LiningAt[] => {
      if (reading.axle !== axle || reading.kind !== kind) return [];
      const pad = reading.kind === 'pad-thickness' ? reading.pad : reading.shoe;
      return [{ side: reading.side, pad }];
    }),
  );
}

/** Whether a reading of the thinnest lining covers another lining: of the same wheel, or of any wheel of the axle. */
export const covers = (thinnest: LiningAt, other: LiningAt): boolean =>
  thinnest.pad === 'thinnest' &&
  (thinnest.side === null
    ? other.side !== null || other.pad !== 'thinnest'
    : thinnest.side === other.side && other.pad !== 'thinnest');
