import { mixtureQuantiles, type NormalMixture } from '../forecast/normal.js';
import { itemAt } from '../items.js';
import type { Range } from '../vocabulary/quantities.js';

/** The quantiles of a {@link Range}. */
const RANGE_POINTS = [0.1, 0.5, 0.9] as const;

export function rangeOf(mixture: NormalMixture, convert: (value: number) => number): Range {
  const points = mixtureQuantiles(mixture, RANGE_POINTS).map(convert);
  return { low: itemAt(points, 0), median: itemAt(points, 1), high: itemAt(points, 2) };
}
