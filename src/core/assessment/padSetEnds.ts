import { crossingDistance, survival, type Survival } from '../forecast/crossing.js';
import type { Experience } from '../forecast/experience.js';
import { freshParts } from '../forecast/wear.js';
import { itemAt } from '../items.js';
import { toMm } from '../units.js';
import type { PadForecast } from './padForecast.js';
import type { PadPosition } from './padPosition.js';
import { ratioShareOf } from './tracks.js';

/** Distances at which the present pads and the next set are used up, 1000 km, as equally likely points. */
interface PadSetEnds {
  first: number[] | null;
  second: number[] | null;
}

export const NO_ENDS: PadSetEnds = { first: null, second: null };

/** Ends of the pad sets at five equally likely points, which are paired because both sets share the axle's rate. */
export function padSetEnds(
  pads: readonly PadPosition[],
  { table, posterior }: PadForecast,
  experience: Experience,
): PadSetEnds {
  if (!table) return NO_ENDS;
  const first = pointsOf(table);
  const newMm = pads
    .map(({ present }) => present.spec.new && toMm(present.spec.new))
    .find((mm) => mm != null);
  const limitMm = pads.map(({ governing }) => governing?.limitMm).find((mm) => mm !== undefined);
  if (newMm == null || limitMm === undefined || newMm <= limitMm) return { first, second: null };
  const shares = pads.map(({ pad }) => ratioShareOf(pad));
  const fresh = freshParts(posterior, shares, experience.pads, newMm);
  const next = pointsOf(
    survival(
      fresh,
      pads.map((_, part) => ({ part, limitMm })),
      ROUGH_STEPS,
    ),
  );
  return { first, second: first.map((distance, index) => distance + itemAt(next, index)) };
}

/** The end of the set after next does not need a fine table. */
const ROUGH_STEPS = 16;

const POINTS = [0.1, 0.3, 0.5, 0.7, 0.9];

function pointsOf(table: Survival): number[] {
  const farthest = table.from * Math.exp((table.values.length - 1) * table.logStep);
  return POINTS.map((probability) => crossingDistance(table, probability) ?? farthest);
}
