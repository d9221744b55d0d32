import type { Experience, WearParameters } from '../forecast/experience.js';
import type { Observation } from '../lives.js';

/** The normal spread of pad readings and pad wear, learned from the shop's readings. */
export interface NormalSpread {
  /** Standard deviation of the gauge's placement, and of a new pad's thickness, mm. */
  placementSd: number;
  startSd: number;
  /** Relative standard deviation of one pad's wear about its axle's. */
  partSpread: number;
}

/**
 * The spread that an experience expects: the geometric mean of its draws, so that a few wide draws do not hide a
 * difference.
 */
export function normalSpreadOf({ pads }: Experience): NormalSpread {
  const over = (value: (parameters: WearParameters) => number): number =>
    Math.exp(pads.reduce((sum, { weight, parameters }) => sum + weight * Math.log(value(parameters)), 0));
  return {
    placementSd: over(({ placementSd }) => placementSd),
    startSd: over(({ startSd }) => startSd),
    partSpread: over(({ partSpread }) => partSpread),
  };
}

/** Variance of the difference of two readings due to reading error, mm². */
export const readingVariance = (a: Observation, b: Observation, { placementSd }: NormalSpread): number =>
  2 * placementSd ** 2 + a.standardUncertaintyMm ** 2 + b.standardUncertaintyMm ** 2;

/** A difference beyond this many standard deviations is worth a check. */
export const NOTABLE_SDS = 2;
