import { mixtureQuantiles, type NormalMixture } from '../forecast/normal.js';
import type { Range } from '../vocabulary/quantities.js';

/** Those of a {@link Range}. */
const RANGE_POINTS = [0.1, 0.5, 0.9] as const;

export function rangeOf(mixture: NormalMixture, convert: (value: number) => number): Range {
  const [low, median, high] = mixtureQuantiles(mixture, RANGE_POINTS).map(convert);
  return { low: low!, median: median!, high: high! };
}
