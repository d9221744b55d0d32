import { reachedWithin, survival, type LimitedPart } from './crossing.js';
import { mixtureQuantiles } from './normal.js';
import type { UsagePosterior } from './usagePosterior.js';
import { partMixture, type WearPosterior } from './wear.js';

/** Thickness above the limit of the axle's most worn part, mm; 0 if a limit is reached. */
export interface Leftover {
  mean: number;
  /** 10 %, 50 % and 90 % points. */
  low: number;
  median: number;
  high: number;
}

/** A forecast of an axle's parts that can be evaluated for any limits. */
export interface AskableForecast {
  posterior: WearPosterior;
  limited: readonly LimitedPart[];
  usage: UsagePosterior;
  ratesByPace: readonly Float64Array[] | null;
}

/** Number of thickness steps at which the chance is computed; linear in between. */
const STEPS = 40;
/** Entries per distance table. */
const TABLE_STEPS = 32;
/** Chance that more is left than the largest tabulated thickness. */
const HARDLY_ANY = 0.001;

/**
 * Thickness left on the given days ahead, counted from the latest odometer reading. It follows from the forecast of
 * when limits are reached: more than an amount is left as long as limits raised by that amount are not reached.
 */
export function leftoverOn(days: readonly number[], forecast: AskableForecast): Leftover[] {
  const { posterior, limited, usage, ratesByPace } = forecast;
  const max = Math.min(
    ...limited.map(({ part, limitMm }) => {
      const [thickest] = mixtureQuantiles(partMixture(posterior, part, 'thickness'), [1 - HARDLY_ANY]);
      return thickest! - limitMm;
    }),
  );
  if (max <= 0) return days.map(() => ({ mean: 0, low: 0, median: 0, high: 0 }));
  const step = max / STEPS;
  const reached = Array.from({ length: STEPS + 1 }, (_, index) => {
    const raised = limited.map(({ part, limitMm }) => ({ part, limitMm: limitMm + index * step }));
    return reachedWithin(survival(posterior, raised, TABLE_STEPS, ratesByPace), usage);
  });
  return days.map((day) => {
    let min = 1;
    const chances = reached.map((within) => (min = Math.min(min, 1 - within(day))));
    return summary(chances, step);
  });
}

/** @param chances that more is left than each multiple of `step`; decreasing */
function summary(chances: readonly number[], step: number): Leftover {
  const sum = chances.reduce((total, chance) => total + chance, 0);
  return {
    mean: step * (sum - (chances[0]! + chances.at(-1)!) / 2),
    low: amountAt(chances, step, 0.9),
    median: amountAt(chances, step, 0.5),
    high: amountAt(chances, step, 0.1),
  };
}

/** The amount exceeded with a given chance. */
function amountAt(chances: readonly number[], step: number, chance: number): number {
  const index = chances.findIndex((left) => left <= chance);
  if (index === 0) return 0;
  if (index === -1) return (chances.length - 1) * step;
  const before = chances[index - 1]!;
  return (index - 1 + (before - chance) / (before - chances[index]!)) * step;
}
