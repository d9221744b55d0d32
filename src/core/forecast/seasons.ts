import type { Stretch } from '../stretches.js';

/**
 * Vehicles used in one half of the year only, such as holiday vehicles, harvest trucks and gritters. Each season to try
 * costs another pass of the filter, so none is tried unless the stretches differ enough to show one.
 */

export interface YearlyUse {
  /** Days of mean use between two days; equal to calendar days over whole years. */
  daysOfUse: (fromDay: number, toDay: number) => number;
  /** Variance of those days due to the unknown phase within its cell. */
  variance: (fromDay: number, toDay: number) => number;
}

const YEAR = 365.25;
/** Variance of the seasonal part of `days` driven, averaged over the phase of the season. */
export function seasonVariance(season: number, days: number): number {
  const swing = (season * YEAR * Math.sin((Math.PI * days) / YEAR)) / Math.PI;
  return 0.5 * swing * swing;
}

const PHASES = 8;
const PHASE_CELL = YEAR / PHASES;
/** Chance that a vehicle is used seasonally (common practice, no source). */
const SEASONAL_CHANCE = 0.03;
/** Use out of season as a share of mean use: hardly any, or clearly less. */
const OUT_OF_SEASON = [0.15, 0.55];

/** One rate for the half of the year around `peak`, another for the other half. */
function halfYears(out: number, peak: number): YearlyUse {
  const high = 2 - out;
  const start = peak - YEAR / 4;
  const upTo = (day: number): number => {
    const years = Math.floor((day - start) / YEAR);
    const within = day - start - years * YEAR;
    return years * YEAR + (within < YEAR / 2 ? high * within : high * (YEAR / 2) + out * (within - YEAR / 2));
  };
  const rateOn = (day: number): number =>
    day - start - Math.floor((day - start) / YEAR) * YEAR < YEAR / 2 ? high : out;
  return {
    daysOfUse: (fromDay, toDay) => upTo(toDay) - upTo(fromDay),
    variance: (fromDay, toDay) => ((rateOn(fromDay) - rateOn(toDay)) * PHASE_CELL) ** 2 / 12,
  };
}

const SEASONS: readonly YearlyUse[] = OUT_OF_SEASON.flatMap((out) =>
  Array.from({ length: PHASES }, (_, phase) => halfYears(out, phase * PHASE_CELL)),
);

/** Stretches that can show a season: range of lengths and minimum total span, days, and minimum number. */
const MAX_STRETCH_DAYS = 270;
const MIN_STRETCH_DAYS = 20;
const MIN_SPAN = 1.4 * YEAR;
const MIN_STRETCHES = 4;
/** Minimum ratio of the paces in and out of season, and minimum number of stretches in each. */
const MIN_RATIO = 2;
const MIN_EACH = 2;

/** Seasons consistent with the stretches, each with its chance; empty if the stretches are too few or too similar. */
export function seasonsToTry(stretches: readonly Stretch[]): { chance: number; year: YearlyUse }[] {
  const usable = stretches.filter(
    ({ fromDay, toDay }) => toDay - fromDay >= MIN_STRETCH_DAYS && toDay - fromDay <= MAX_STRETCH_DAYS,
  );
  if (usable.length < MIN_STRETCHES || usable.at(-1)!.toDay - usable[0]!.fromDay < MIN_SPAN) return [];
  const paces = usable.map(({ fromDay, toDay, km }) => km / (toDay - fromDay));
  const fastest = Math.max(...paces);
  const slow = paces.filter((pace) => MIN_RATIO * pace <= fastest).length;
  if (slow < MIN_EACH || paces.length - slow < MIN_EACH) return [];
  return SEASONS.map((year) => ({ chance: SEASONAL_CHANCE / SEASONS.length, year }));
}
