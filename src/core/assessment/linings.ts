import type { History } from '../history.js';
import { isDrumBrake } from '../lives.js';
import { PADS, SHOES, type Axle, type LiningPosition } from '../vocabulary/terms.js';

/** The linings of one side of an axle: its pads, or its shoes. */
export const liningsOf = (history: History, axle: Axle): readonly LiningPosition[] =>
  isDrumBrake(history, axle) ? shoesOf(history, axle) : PADS;

/** The shoes that were ever measured on an axle; both if none was. */
function shoesOf({ visits }: History, axle: Axle): readonly LiningPosition[] {
  const measured = new Set<string>(
    visits.flatMap(({ readings }) =>
      readings.flatMap((reading) =>
        reading.kind === 'shoe-thickness' && reading.axle === axle ? [reading.shoe] : [],
      ),
    ),
  );
  return measured.size > 0 ? SHOES.filter((shoe) => measured.has(shoe)) : ['leading', 'trailing'];
}
