import {
  MIN_COMPONENT_WEIGHT,
  MIN_DENSITY,
  lookVariance,
  MM,
  NORMAL,
  PART,
  RATE,
  STATE,
  takeIntoComponent,
  WEIGHT,
  type FilterModel,
  type Look,
} from './filter.js';

/**
 * Updates all components of a part with a reading.
 *
 * @returns the density of the reading
 */
export function takeReading(
  states: Float64Array,
  at: number,
  look: Look,
  common: number,
  commonVariance: number,
  model: FilterModel,
): number {
  const misread = model.misreadChance / look.rangeMm;
  const variance = lookVariance(look, model) + commonVariance;
  let total = 0;
  for (let component = at; component < at + PART; component += STATE) {
    if (states[component + WEIGHT]! < MIN_COMPONENT_WEIGHT) {
      states[component + WEIGHT] = 0;
      continue;
    }
    const error = look.mm - common - states[component + MM]!;
    const rate = states[component + RATE]!;
    takeIntoComponent(states, component, error, variance + rate * rate * look.placeVariance, misread, model);
    total += states[component + WEIGHT]!;
  }
  if (!(total > 0)) {
    states[at + NORMAL + WEIGHT] = 1;
    return misread + MIN_DENSITY;
  }
  for (let component = at; component < at + PART; component += STATE) states[component + WEIGHT]! /= total;
  return total;
}
