import { inWords, roundMm } from '../rounding.js';
import { toMm } from '../units.js';
import type { CounterpartPosition } from './counterpartPosition.js';
import { nameOf, type Said } from './counterpartWords.js';
import { runoutInInches } from './unitDoubt.js';

/** Findings on how true a rotor runs: its run-out, and how its thickness varies round the face. */

export function runoutFinding(position: CounterpartPosition): Said | null {
  const { runoutMm, runoutConformity, runoutAsked, present } = position;
  const limit = present.spec.runoutLimit;
  if (runoutMm === null || !limit || runoutConformity === 'conforms') return null;
  const limitMm = toMm(limit);
  const isOver = runoutConformity === 'does-not-conform';
  const figures = `${nameOf(position)} run-out is ${inWords(runoutMm, 3)} mm; the limit is ${inWords(limitMm, 3)} mm`;
  const numbers = { runoutMm, limitMm };
  if (isOver && runoutAsked) {
    return {
      code: 'runout-still-over-limit',
      severity: 'check',
      message: `${figures}. An earlier measurement already asked to clean the hub and re-index the rotor.`,
      check:
        'Measure the hub’s own run-out. If the hub is true, machine the rotors on the vehicle, where the maker allows it and they are thick enough, or replace both. If it is not, replace the hub or its bearing.',
      numbers,
    };
  }
  return {
    code: isOver ? 'runout-over-limit' : 'runout-too-close-to-limit',
    severity: 'check',
    message: `${figures}${isOver ? '' : ', too close for this gauge to tell'}.`,
    check:
      'Clean the hub and the rotor’s mounting face, re-index the rotor, torque it evenly and measure again. Record that reading as left.',
    numbers,
  };
}

/** A run-out in millimetres so small that it was probably read in inches. */
export function runoutUnitDoubtful(position: CounterpartPosition): Said | null {
  const { runoutMm, runoutUnit } = position;
  if (runoutMm === null || runoutUnit !== 'mm') return null;
  const inchesMm = runoutInInches(runoutMm);
  if (inchesMm === null) return null;
  return {
    code: 'unit-doubtful',
    severity: 'check',
    message: `${nameOf(position)} run-out is recorded as ${inWords(runoutMm, 4)} mm, less than a dial indicator shows. The same figure in inches would be ${inWords(inchesMm, 3)} mm.`,
    check: 'Was it read in inches? If so, correct the visit. If not, the reading stands.',
    numbers: { runoutMm, otherUnitMm: roundMm(inchesMm) },
  };
}

export function variationFinding(position: CounterpartPosition): Said | null {
  const { variationMm, variationConformity, present } = position;
  const limit = present.spec.variationLimit;
  if (variationMm === null || !limit || variationConformity === 'conforms') return null;
  const limitMm = toMm(limit);
  const isOver = variationConformity === 'does-not-conform';
  return {
    code: isOver ? 'thickness-variation-over-limit' : 'thickness-variation-too-close-to-limit',
    severity: 'check',
    message: `${nameOf(position)} thickness varies by ${inWords(variationMm, 3)} mm; the limit is ${inWords(limitMm, 3)} mm${isOver ? '' : ', too close for this gauge to tell'}.`,
    check: isOver
      ? 'Measure again on one radius, and measure the run-out. Ask whether the pedal pulsates.'
      : 'Measure again with a micrometer, at eight points on one radius.',
    numbers: { variationMm, limitMm },
  };
}
