import { crossingDays, survival, type Crossing } from '../forecast/crossing.js';
import type { UsagePosterior } from '../forecast/usagePosterior.js';
import type { WearPosterior } from '../forecast/wear.js';
import { leftUntil } from '../lives.js';
import { chanceAbove } from './conformity.js';
import type { CounterpartDates } from './outlookShape.js';
import type { CounterpartPosition } from './counterpartPosition.js';
import { inFilter } from './tracks.js';

type Judged = Pick<CounterpartPosition, 'counterpart' | 'limitMm' | 'latest' | 'standing'>;

/** Number of entries in each table of distances and days; a few suffice, since rotors wear slowly and evenly. */
const STEPS = 20;

/** @param judged whether each position's limit and thickness are known */
export function counterpartDates(
  positions: readonly Judged[],
  judged: readonly boolean[],
  posterior: WearPosterior,
  usage: UsagePosterior,
): CounterpartDates {
  const parts = positions.flatMap((position, part) => {
    const { limitMm, counterpart } = position;
    return judged[part] && limitMm !== null
      ? [{ position, part, limitMm: inFilter(counterpart.wears, limitMm) }]
      : [];
  });
  const crossingOf = (limited: typeof parts): Crossing => {
    const table = survival(posterior, limited, STEPS);
    const failed = Math.max(...limited.map(({ position }) => chanceFailed(position)));
    return crossingDays(table, usage, failed, STEPS);
  };
  const alone = new Map(parts.map((each) => [each.part, crossingOf([each])]));
  return {
    crossings: positions.map((_, part) => alone.get(part) ?? null),
    first: parts.length > 1 ? crossingOf(parts) : (alone.get(parts[0]?.part ?? -1) ?? null),
  };
}

/** Whether the latest reading is past the limit; null without a reading or a limit. */
export const failsLimit = ({ latest, limitMm, counterpart }: Omit<Judged, 'standing'>): boolean | null =>
  latest && limitMm !== null ? leftUntil(counterpart.wears, latest.mm, limitMm) < 0 : null;

/** A failing reading counts until a later one overrules it, however unlikely it is given the history. */
function chanceFailed(position: Judged): number {
  const { latest, limitMm, standing, counterpart } = position;
  if (!latest || limitMm === null || (!failsLimit(position) && !standing)) return 0;
  const leftMm = leftUntil(counterpart.wears, latest.mm, limitMm);
  return Math.max(0.5, 1 - chanceAbove(leftMm, 0, latest.standardUncertaintyMm));
}
