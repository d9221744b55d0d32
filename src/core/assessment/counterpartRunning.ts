import { inWords, roundMm } from '../rounding.js';
import { toMm } from '../units.js';
import type { CounterpartPosition } from './counterpartPosition.js';
import { nameOf, type FindingDraft } from './counterpartWords.js';
import { runoutInInches } from './unitDoubt.js';

/** Findings on how true a rotor or drum runs: run-out, and variation of thickness or diameter around the face. */

export function runoutFinding(position: CounterpartPosition): FindingDraft | null {
  const { runoutMm, runoutConformity, runoutAsked, present } = position;
  const limit = present.spec.runoutLimit;
  if (runoutMm === null || runoutConformity === 'conforms') return null;
  if (!limit) return runoutWithoutLimit(position, runoutMm);
  const limitMm = toMm(limit);
  const isOver = runoutConformity === 'does-not-conform';
  const figures = `${nameOf(position)} run-out is ${inWords(runoutMm, 3)} mm; the limit is ${inWords(limitMm, 3)} mm`;
  const numbers = { runoutMm, limitMm };
  if (isOver && runoutAsked) {
    return {
      code: 'runout-still-over-limit',
      severity: 'check',
      message: `${figures}. An earlier measurement already called for cleaning the hub and re-indexing the rotor.`,
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

/** Without a limit, a finding quotes the figure but does not judge it. Zero is within any limit. */
function runoutWithoutLimit(position: CounterpartPosition, runoutMm: number): FindingDraft | null {
  if (runoutMm === 0) return null;
  return {
    code: 'runout-without-limit',
    severity: 'note',
    message: `${nameOf(position)} run-out is ${inWords(runoutMm, 3)} mm; no run-out limit is recorded for this vehicle, so the service does not judge it.`,
    check: 'Compare it with the maker’s limit, and record that limit with the vehicle’s rotors.',
    numbers: { runoutMm },
  };
}

/** A run-out in millimetres so small that it was probably read in inches. */
export function runoutUnitDoubtful(position: CounterpartPosition): FindingDraft | null {
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

export function variationFinding(position: CounterpartPosition): FindingDraft | null {
  const { variationMm, variationConformity, present } = position;
  const limit = present.spec.variationLimit;
  if (variationMm === null || variationConformity === 'conforms') return null;
  if (!limit) return variationWithoutLimit(position, variationMm);
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

function variationWithoutLimit(position: CounterpartPosition, variationMm: number): FindingDraft | null {
  if (variationMm === 0) return null;
  if (position.counterpart.part === 'drum') {
    return {
      code: 'drum-out-of-round',
      severity: 'note',
      message: `${nameOf(position)} is ${inWords(variationMm, 3)} mm out of round. The service has no limit for that, so it does not judge it.`,
      check: 'Compare it with the maker’s limit. Ask whether the pedal pulsates.',
      numbers: { outOfRoundMm: variationMm },
    };
  }
  return {
    code: 'thickness-variation-without-limit',
    severity: 'note',
    message: `${nameOf(position)} thickness varies by ${inWords(variationMm, 3)} mm; no variation limit is recorded for this vehicle, so the service does not judge it.`,
    check: 'Compare it with the maker’s limit, and record that limit with the vehicle’s rotors.',
    numbers: { variationMm },
  };
}
