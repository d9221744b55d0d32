import { leftUntil, type Observation } from '../lives.js';
import { COUNTERPART_PLACEMENT_SD_MM } from '../placement.js';
import { round, roundMm } from '../rounding.js';
import { toMm } from '../units.js';
import type { CounterpartPosition } from './counterpartPosition.js';
import {
  nameOf,
  readInWords,
  sayApart,
  sayFigure,
  sayLength,
  type FindingDraft,
} from './counterpartWords.js';

/** Readings of a rotor or drum that contradict each other, the recorded work, or the specification of a new one. */

/** A difference beyond this many standard deviations is no reading error. */
const BEYOND_ERROR_SDS = 3;

/** Standard deviation of a new rotor or drum about its specification, mm (common practice, no source). */
const NEW_SD_MM = 0.1;

export const growthFindings = (position: CounterpartPosition): (FindingDraft | null)[] => [
  lessWorn(position),
  lessWornByMachining(position),
  moreWornAsLeft(position),
  lessWornThanNew(position),
  moreWornThanNew(position),
  offForecast(position),
];

/** Standard deviation of the difference between two readings, mm. */
const sdBetween = (a: Observation, b: Observation): number =>
  Math.hypot(a.standardUncertaintyMm, b.standardUncertaintyMm, Math.SQRT2 * COUNTERPART_PLACEMENT_SD_MM);

interface Change {
  /** How much less worn the second reading is, mm; negative if more. */
  gainedMm: number;
  sdMm: number;
}

function changeFrom(
  before: Observation,
  after: Observation,
  { counterpart: { wears } }: CounterpartPosition,
): Change {
  return { gainedMm: leftUntil(wears, after.mm, before.mm), sdMm: sdBetween(before, after) };
}

const numbersOf = ({ gainedMm, sdMm }: Change) => ({
  growthMm: roundMm(gainedMm),
  normalSpreadMm: round(sdMm, 3),
});

/** `thicker` of a rotor, `smaller` of a drum; and the reverse. */
const lessWornWord = ({ counterpart: { part } }: CounterpartPosition): string =>
  part === 'rotor' ? 'thicker' : 'smaller';
const moreWornWord = ({ counterpart: { part } }: CounterpartPosition): string =>
  part === 'rotor' ? 'thinner' : 'larger';

const ONE_IS_WRONG = 'If not, measure again: one of the two readings is wrong.';

/** Less worn than at the reading before, without recorded work in between. */
function lessWorn(position: CounterpartPosition): FindingDraft | null {
  const { present, counterpart } = position;
  const [before, latest] = present.observations.slice(-2);
  if (!before || !latest || position.replacedUnseen) return null;
  const change = changeFrom(before, latest, position);
  if (change.gainedMm <= BEYOND_ERROR_SDS * change.sdMm) return null;
  const word = lessWornWord(position);
  return {
    code: `${counterpart.part}-${word}-than-before`,
    severity: 'check',
    message: `${readInWords(position)}, ${sayApart(position, change.gainedMm)} ${word} than on ${before.visit.date}, and no replacement is recorded.`,
    check: `If it was replaced, record it. ${ONE_IS_WRONG}`,
    numbers: numbersOf(change),
  };
}

/** Less worn after machining than before it. */
function lessWornByMachining(position: CounterpartPosition): FindingDraft | null {
  const { present, lives, counterpart } = position;
  const before = lives.at(-2)?.observations.at(-1);
  const [left] = present.observations;
  if (present.origin !== 'machined' || !before || !left) return null;
  const change = changeFrom(before, left, position);
  if (change.gainedMm <= BEYOND_ERROR_SDS * change.sdMm) return null;
  const word = lessWornWord(position);
  return {
    code: `${counterpart.part}-${word}-after-machining`,
    severity: 'check',
    message: `${nameOf(position)} read ${sayLength(position, left.mm)} after machining, ${sayApart(position, change.gainedMm)} ${word} than the ${sayLength(position, before.mm)} of ${before.visit.date}.`,
    check: `If it was replaced, record that instead. ${ONE_IS_WRONG}`,
    numbers: numbersOf(change),
  };
}

/** A reading that the forecast takes for a mistake, so that its dates do not reflect it. */
function offForecast(position: CounterpartPosition): FindingDraft | null {
  const { disbelieved, latest, counterpart } = position;
  if (!disbelieved || !latest) return null;
  const { part, measure } = counterpart;
  const { expectedMm } = disbelieved;
  return {
    code: `${part}-off-forecast`,
    severity: 'check',
    message: `${readInWords(position)}; the rest of the record predicts ${sayLength(position, round(expectedMm, 2))}. The forecast gives this reading little weight, so do not rely on the dates of this ${part}.`,
    check: `Measure it again. If the reading stands, check the record: the ${measure} of a new ${part}, the in-service date, and whether work is missing.`,
    numbers: { readingMm: latest.mm, expectedMm },
  };
}

/** More worn as left than as found at the same visit, without recorded machining. */
function moreWornAsLeft(position: CounterpartPosition): FindingDraft | null {
  const { present, counterpart } = position;
  const [found, left] = present.observations.slice(-2);
  if (!found || !left || found.visit.id !== left.visit.id) return null;
  const change = changeFrom(found, left, position);
  if (-change.gainedMm <= BEYOND_ERROR_SDS * change.sdMm) return null;
  return {
    code: `${counterpart.part}-${moreWornWord(position)}-without-work`,
    severity: 'check',
    message: `${nameOf(position)} read ${sayLength(position, found.mm)} as found and ${sayLength(position, left.mm)} as left on ${left.visit.date}, and no machining is recorded.`,
    check: `If it was machined, record it. ${ONE_IS_WRONG}`,
    numbers: numbersOf(change),
  };
}

/** How much less worn than a new one a reading is; null if either is unknown. */
function changeFromNew(observation: Observation | null | undefined, position: CounterpartPosition) {
  const { present, counterpart } = position;
  if (!observation || !present.spec.new) return null;
  const newMm = toMm(present.spec.new);
  const sdMm = Math.hypot(observation.standardUncertaintyMm, COUNTERPART_PLACEMENT_SD_MM, NEW_SD_MM);
  return { gainedMm: leftUntil(counterpart.wears, observation.mm, newMm), sdMm, newMm };
}

export function isThickerThanNew(position: CounterpartPosition): boolean {
  const change = changeFromNew(position.latest, position);
  return change !== null && change.gainedMm > BEYOND_ERROR_SDS * change.sdMm;
}

function lessWornThanNew(position: CounterpartPosition): FindingDraft | null {
  const change = changeFromNew(position.latest, position);
  if (!change || !isThickerThanNew(position)) return null;
  const { part, limit } = position.counterpart;
  const word = lessWornWord(position);
  const band = part === 'rotor' ? 'inside the worn band' : 'on the worn track';
  return {
    code: `${part}-${word}-than-new`,
    severity: 'check',
    message: `${readInWords(position)}, ${sayApart(position, change.gainedMm)} ${word} than a new one (${sayFigure(position, change.newMm)}).`,
    check: `Measure again ${band}. If the reading stands, the specification is that of another ${part}: correct it, and its ${limit} too.`,
    numbers: {
      newMm: change.newMm,
      overMm: roundMm(change.gainedMm),
      normalSpreadMm: round(change.sdMm, 3),
    },
  };
}

/** Fitted new, but read more worn than new at the same visit: not the part recorded. */
function moreWornThanNew(position: CounterpartPosition): FindingDraft | null {
  const { present, counterpart } = position;
  const [left] = present.observations;
  if (present.origin !== 'replaced' || !left || left.day !== present.start!.day) return null;
  const change = changeFromNew(left, position);
  if (!change || -change.gainedMm <= BEYOND_ERROR_SDS * change.sdMm) return null;
  const { part, limit } = counterpart;
  const word = moreWornWord(position);
  return {
    code: `${part}-${word}-than-new`,
    severity: 'check',
    message: `${nameOf(position)} was fitted new on ${left.visit.date} and read ${sayLength(position, left.mm)}, ${sayApart(position, change.gainedMm)} ${word} than a new one (${sayFigure(position, change.newMm)}).`,
    check: `Measure again. If the reading stands, another ${part} was fitted than recorded: correct its specification, and its ${limit} too.`,
    numbers: {
      newMm: change.newMm,
      underMm: roundMm(-change.gainedMm),
      normalSpreadMm: round(change.sdMm, 3),
    },
  };
}
