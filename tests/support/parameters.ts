import type { Draw, WearParameters } from '../../src/core/forecast/experience.js';

/** The wear model reduced to a textbook filter; switch on what a test needs. */
export function textbookWear(more: Partial<WearParameters> = {}): WearParameters {
  return {
    logRateMean: Math.log(0.1),
    logRateSd: 1,
    setSpread: 0,
    partSpread: 0,
    wander: 0,
    logInnerOuter: 0,
    fastChance: 0,
    fastFactor: 1,
    misreadChance: 0,
    suddenChance: 0,
    suddenMm: 0,
    suddenSd: 0,
    jumpPerMm: 0,
    jumpSd: 0,
    startSd: 0,
    placementSd: 0,
    visitSd: 0,
    dragsPer1000Km: 0,
    dragFactor: 1,
    dragSpread: 0,
    replacedWornChance: 0,
    ...more,
  };
}

export const onlyDraw = <Parameters>(parameters: Parameters): Draw<Parameters>[] => [
  { weight: 1, parameters },
];
