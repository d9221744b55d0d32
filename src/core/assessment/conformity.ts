import { normalCdf } from '../forecast/normal.js';
import { COVERAGE_FACTOR } from '../gauges.js';
import type { Wears } from '../lives.js';
import type { Conformity } from '../vocabulary/terms.js';

/**
 * Conformity of a measured value with a limit, JCGM 106:2012: the true value is taken as normal about the reading
 * with the gauge's standard uncertainty (clause 7; from memory, results recomputed).
 */

/** Chance that the true value is above a lower limit: Φ((y − T_L)/u). */
export function chanceAbove(value: number, lowerLimit: number, standardUncertainty: number): number {
  return normalCdf((value - lowerLimit) / standardUncertainty);
}

/** Compares a minimum with the reading's 95 % coverage interval: the reading conforms if the minimum is below it. */
export function conformityAbove(value: number, lowerLimit: number, standardUncertainty: number): Conformity {
  const reach = COVERAGE_FACTOR * standardUncertainty;
  if (lowerLimit < value - reach) return 'conforms';
  return lowerLimit > value + reach ? 'does-not-conform' : 'inconclusive';
}

/** The same for the limit that a part wears towards: a minimum if it gets thinner, a maximum if it gets wider. */
export function conformityAsItWears(
  wears: Wears,
  value: number,
  limit: number,
  standardUncertainty: number,
): Conformity {
  return wears === 'thinner'
    ? conformityAbove(value, limit, standardUncertainty)
    : conformityBelow(value, limit, standardUncertainty);
}

/** The same for a maximum, such as that of run-out. */
export function conformityBelow(value: number, upperLimit: number, standardUncertainty: number): Conformity {
  return conformityAbove(-value, -upperLimit, standardUncertainty);
}
