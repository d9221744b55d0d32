import { reachedWithin, survival, type LimitedPart } from './crossing.js';
import { mixtureQuantiles } from './normal.js';
import type { UsagePosterior } from './usagePosterior.js';
import { partMixture, type WearPosterior } from './wear.js';

/** What is left above its limit of the part of an axle that has least, mm; 0 where a limit has been reached. */
export interface Leftover {
  mean: number;
  /** 10 %, 50 % and 90 % points. */
  low: number;
  median: number;
  high: number;
}

/** A forecast of the parts of an axle that can be asked about any limits. */
export interface AskableForecast {
  posterior: WearPosterior;
  limited: readonly LimitedPart[];
  usage: UsagePosterior;
  ratesByPace: readonly Float64Array[] | null;
}

/** Amounts at which the chance that more is left is worked out; between them it runs straight. */
const STEPS = 40;
/** Entries of each table of distances. */
const TABLE_STEPS = 32;
/** The chance of more than the greatest amount. */
const HARDLY_ANY = 0.001;

/**
 * What will be left on days ahead, counted from the latest reading of the odometer. More than some amount is left for as
 * long as limits higher by that amount have not been reached, so the forecast of when limits are reached tells it all.
 */
export function leftoverOn(days: readonly number[], forecast: AskableForecast): Leftover[] {
  const { posterior, limited, usage, ratesByPace } = forecast;
  const most = Math.min(
    ...limited.map(({ part, limitMm }) => {
      const [thickest] = mixtureQuantiles(partMixture(posterior, part, 'thickness'), [1 - HARDLY_ANY]);
      return thickest! - limitMm;
    }),
  );
  if (most <= 0) return days.map(() => ({ mean: 0, low: 0, median: 0, high: 0 }));
  const step = most / STEPS;
  const reached = Array.from({ length: STEPS + 1 }, (_, index) => {
    const raised = limited.map(({ part, limitMm }) => ({ part, limitMm: limitMm + index * step }));
    return reachedWithin(survival(posterior, raised, TABLE_STEPS, ratesByPace), usage);
  });
  return days.map((day) => {
    let least = 1;
    const chances = reached.map((within) => (least = Math.min(least, 1 - within(day))));
    return summary(chances, step);
  });
}

/** @param chances that more is left than each multiple of the step; falling */
function summary(chances: readonly number[], step: number): Leftover {
  const sum = chances.reduce((total, chance) => total + chance, 0);
  return {
    mean: step * (sum - (chances[0]! + chances.at(-1)!) / 2),
    low: amountAt(chances, step, 0.9),
    median: amountAt(chances, step, 0.5),
    high: amountAt(chances, step, 0.1),
  };
}

/** The amount that more is left than with a chance. */
function amountAt(chances: readonly number[], step: number, chance: number): number {
  const index = chances.findIndex((left) => left <= chance);
  if (index === 0) return 0;
  if (index === -1) return (chances.length - 1) * step;
  const before = chances[index - 1]!;
  return (index - 1 + (before - chance) / (before - chances[index]!)) * step;
}
