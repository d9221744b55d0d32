import { COVERAGE_FACTOR, STANDARD_GAUGES, type Gauges } from '../gauges.js';
import { COUNTERPART_PLACEMENT_SD_MM } from '../placement.js';
import { inWords, round, roundMm } from '../rounding.js';
import { toMm } from '../units.js';
import type { Axle } from '../vocabulary/terms.js';
import type { Finding } from '../vocabulary/wear.js';
import { capital, percentInWords } from '../words.js';
import { chanceAbove } from './conformity.js';
import { isFittedBeyondDiscard, type RotorPosition } from './counterpartPosition.js';
import { figureInWords, lengthInWords } from './lengths.js';
import { howToSettle } from './limitFindings.js';
import { oneSidedFinding } from './partFindings.js';

/** Findings on the rotors or drums of an axle; a drum is a rotor of negative thickness. */

/** A finding on one rotor or drum, before its name is added. */
type Said = Pick<Finding, 'code' | 'severity' | 'message' | 'check' | 'numbers'>;

/** Minimum chance of passing discard before the next visit for a finding. */
export const WORTH_NAMING = 0.1;

export function rotorFindings(
  axle: Axle,
  rotors: readonly RotorPosition[],
  gauges: Gauges = STANDARD_GAUGES,
): Finding[] {
  const [left, right] = rotors.map(({ present }) => present);
  return [
    ...oneSidedFinding(axle, rotors[0]!.counterpart.part, { left, right }),
    ...rotors.flatMap((rotor) => {
      const stops = [
        cracked(rotor),
        failedBefore(rotor) ?? beyondDiscard(rotor, gauges),
        fittedBeyondDiscard(rotor),
        leftBeyondMachineTo(rotor),
      ];
      const said = [
        ...stops,
        stops.some((stop) => stop) ? null : limitBeforeNextVisit(rotor),
        runout(rotor),
        variation(rotor),
        grown(rotor),
        thickerThanNew(rotor),
        repeatsDisagree(rotor),
        notMeasuredLately(rotor),
        crackedBefore(rotor),
      ];
      return said.flatMap((each) => (each ? [{ axle, side: rotor.side, pad: null, ...each }] : []));
    }),
  ];
}

/** `Left rotor`. */
const nameOf = ({ side, counterpart: { part } }: RotorPosition): string => capital(`${side} ${part}`);

/** Formats one of its lengths in the unit of the reading; turns the sign of a drum's diameter back. */
export function sayLength({ counterpart: { sign }, latest }: RotorPosition, mm: number): string {
  return lengthInWords(sign * mm, latest?.unit, 3);
}

/** Formats a figure of its specification. */
const sayFigure = ({ counterpart: { sign }, latest }: RotorPosition, mm: number): string =>
  figureInWords(sign * mm, latest?.unit);

/** Formats a difference of lengths, which needs no change of sign. */
const sayApart = ({ latest }: RotorPosition, mm: number): string =>
  lengthInWords(Math.abs(mm), latest?.unit, 3);

const replaceBoth = ({ counterpart: { part } }: RotorPosition): string => `Replace both ${part}s`;

/** `dangerous under UK inspection manual, item 1.1.14(a)(ii)`, each rule in turn. */
const under = (defects: readonly string[]): string =>
  defects.length > 0 ? ` This is ${defects.join('; ')}.` : '';

function cracked(rotor: RotorPosition): Said | null {
  if (!rotor.cracked) return null;
  const { part } = rotor.counterpart;
  return {
    code: `${part}-cracked`,
    severity: 'stop',
    message: `${nameOf(rotor)} was found cracked on ${rotor.cracked.date}.${under(rotor.cracked.defects)}`,
    check: `${replaceBoth(rotor)} before the vehicle is driven: a crack is never a matter of measurement.`,
    numbers: {},
  };
}

/** `Left rotor read 25.9 mm on 2026-03-02`: at its thinnest, a drum at its largest. */
function readInWords(rotor: RotorPosition): string {
  const { latest } = rotor;
  return `${nameOf(rotor)} read ${sayLength(rotor, latest!.mm)} on ${latest!.visit.date}`;
}

function discardNumbers({
  latest,
  discardMm,
  standardUncertaintyMm: u,
  counterpart,
}: RotorPosition): Finding['numbers'] {
  const { part, sign } = counterpart;
  const chance = round(1 - chanceAbove(latest!.mm, discardMm!, u!), 4);
  return part === 'rotor'
    ? {
        thinnestMm: latest!.mm,
        discardMm: discardMm!,
        standardUncertaintyMm: roundMm(u!),
        chanceUnderDiscard: chance,
      }
    : {
        largestMm: sign * latest!.mm,
        maximumMm: sign * discardMm!,
        standardUncertaintyMm: roundMm(u!),
        chanceOverMaximum: chance,
      };
}

function beyondDiscard(rotor: RotorPosition, gauges: Gauges): Said | null {
  const { latest, discardMm, conformity, counterpart, standardUncertaintyMm: u } = rotor;
  if (!latest || discardMm === null || conformity === 'conforms') return null;
  const { part, beyond, code, limit } = counterpart;
  const discard = `${limit} of ${sayFigure(rotor, discardMm)}`;
  if (conformity === 'does-not-conform') {
    return {
      code: `${part}-${beyond}-${code}`,
      severity: 'stop',
      message: `${readInWords(rotor)}, ${sayApart(rotor, latest.mm - discardMm)} ${beyond} its ${discard}.${under(rotor.discardDefects)}`,
      check: `${replaceBoth(rotor)} before the vehicle is driven.`,
      numbers: discardNumbers(rotor),
    };
  }
  const unsettled = {
    kind: part === 'rotor' ? 'rotor-thickness' : 'drum-diameter',
    apartMm: latest.mm - discardMm,
    used: latest.gauge,
    date: latest.visit.date,
  } as const;
  return {
    code: `${part}-too-close-to-${code}`,
    severity: 'stop',
    message: `${readInWords(rotor)}, too close to its ${discard} to tell (± ${sayApart(rotor, COVERAGE_FACTOR * u!)}).`,
    check: `${howToSettle(unsettled, latest, gauges)} Until then treat it as ${beyond} its ${limit}.`,
    numbers: discardNumbers(rotor),
  };
}

function failedBefore(rotor: RotorPosition): Said | null {
  const { standing, latest, discardMm, counterpart } = rotor;
  if (!standing || !latest || discardMm === null || rotor.conformity === 'does-not-conform') return null;
  const { part, sign, beyond, limit, code } = counterpart;
  const { reading, date, isLatest } = standing;
  const failed = `${lengthInWords(sign * reading.mm, reading.unit, 3)} on ${date}, ${beyond} its ${limit} of ${sayFigure(rotor, discardMm)}`;
  const now = sayLength(rotor, latest.mm);
  return {
    code: isLatest ? `${part}-repeat-${beyond}-${code}` : `${part}-failed-before`,
    severity: 'stop',
    message: isLatest
      ? `A repeat on the ${nameOf(rotor).toLowerCase()} read ${failed}; the mean of its repeats is ${now}.`
      : `${nameOf(rotor)} read ${failed}. The reading of ${now} on ${latest.visit.date} is by no finer gauge and does not overrule it.`,
    check: `Measure again with a gauge finer than ${reading.gauge.name}, or replace both ${part}s${isLatest ? '' : '; if they were replaced, record it'}.`,
    numbers: {
      [part === 'rotor' ? 'failingThicknessMm' : 'failingDiameterMm']: sign * reading.mm,
      [part === 'rotor' ? 'discardMm' : 'maximumMm']: sign * discardMm,
    },
  };
}

function fittedBeyondDiscard(rotor: RotorPosition): Said | null {
  const { counterpart, present, discardMm } = rotor;
  if (!isFittedBeyondDiscard(rotor)) return null;
  const { part, limit, sign, beyond, code } = counterpart;
  return {
    code: `${part}-fitted-${beyond}-${code}`,
    severity: 'stop',
    message: `${nameOf(rotor)} is recorded as fitted new at ${lengthInWords(sign * present.startMm!, 'mm', 3)}, with a ${limit} of ${lengthInWords(sign * discardMm!, 'mm', 3)}.`,
    check: `Measure it and read the figures marked on it: correct the record, or fit the right ${part}.`,
    numbers: {
      newMm: sign * present.startMm!,
      [part === 'rotor' ? 'discardMm' : 'maximumMm']: sign * discardMm!,
    },
  };
}

function leftBeyondMachineTo(rotor: RotorPosition): Said | null {
  const { leftBeyondMachineToMm: leftMm, machineToMm, counterpart } = rotor;
  if (leftMm === null || machineToMm === null) return null;
  const { part, sign, beyond, measure } = counterpart;
  return {
    code: `${part}-left-${beyond}-machine-to`,
    severity: 'stop',
    message: `${nameOf(rotor)} was left at ${sayLength(rotor, leftMm)} after machining, ${sayApart(rotor, leftMm - machineToMm)} ${beyond} the machine-to ${measure} of ${sayFigure(rotor, machineToMm)}.`,
    check: `${replaceBoth(rotor)}: machined past that ${measure} they may pass their ${counterpart.limit} before the linings are worn.`,
    numbers: { leftMm: sign * leftMm, machineToMm: sign * machineToMm },
  };
}

function limitBeforeNextVisit(rotor: RotorPosition): Said | null {
  const { beforeNextVisit, latest, discardMm, counterpart } = rotor;
  if (!beforeNextVisit || beforeNextVisit.chance < WORTH_NAMING) return null;
  if (thickerThanNew(rotor)) return null;
  const { part, limit, sign } = counterpart;
  const chance = percentInWords(Math.min(0.99, beforeNextVisit.chance));
  const figures = latest
    ? `${readInWords(rotor)}, ${sayApart(rotor, latest.mm - discardMm!)} ${counterpart.within} its ${limit} of ${sayFigure(rotor, discardMm!)}`
    : `${nameOf(rotor)} has not been measured since it was fitted; its ${limit} is ${lengthInWords(sign * discardMm!, 'mm', 3)}`;
  return {
    code: `${part}-limit-before-next-visit`,
    severity: 'check',
    message: `${figures}. ${chance} chance that it passes that by the next visit, about ${beforeNextVisit.date}.`,
    check: latest
      ? `${replaceBoth(rotor)} now, or bring the vehicle back before then.`
      : `Measure both ${part}s now.`,
    numbers: { chanceBeforeNextVisit: beforeNextVisit.chance },
  };
}

function runout(rotor: RotorPosition): Said | null {
  const { runoutMm, runoutConformity, runoutAsked, present } = rotor;
  if (runoutMm === null || runoutConformity === null || runoutConformity === 'conforms') return null;
  const limitMm = toMm(present.spec.runoutLimit!);
  const over = runoutConformity === 'does-not-conform';
  const figures = `${nameOf(rotor)} run-out is ${inWords(runoutMm, 3)} mm, limit ${inWords(limitMm, 3)} mm`;
  const numbers = { runoutMm, limitMm };
  if (over && runoutAsked) {
    return {
      code: 'runout-still-over-limit',
      severity: 'check',
      message: `${figures}. It was over the limit before, and cleaning and re-indexing has been asked for already.`,
      check:
        'Measure the hub’s own run-out. If the hub is good, machine the rotors on the vehicle where the maker allows it and the thickness is enough, or replace both; if the hub is not, replace the hub or its bearing.',
      numbers,
    };
  }
  return {
    code: over ? 'runout-over-limit' : 'runout-too-close-to-limit',
    severity: 'check',
    message: `${figures}${over ? '' : ': too close for this gauge'}.`,
    check:
      'Clean the hub and the rotor’s mounting face, re-index, torque evenly and measure again; record the new reading as left.',
    numbers,
  };
}

function variation(rotor: RotorPosition): Said | null {
  const { variationMm, variationConformity, present } = rotor;
  if (variationMm === null || variationConformity === null || variationConformity === 'conforms') return null;
  const limitMm = toMm(present.spec.variationLimit!);
  const over = variationConformity === 'does-not-conform';
  return {
    code: over ? 'thickness-variation-over-limit' : 'thickness-variation-too-close-to-limit',
    severity: 'check',
    message: `${nameOf(rotor)} thickness varies by ${inWords(variationMm, 3)} mm, limit ${inWords(limitMm, 3)} mm${over ? '' : ': too close for this gauge'}.`,
    check: over
      ? 'Measure again at one radius and check the run-out. Ask whether the pedal pulsates.'
      : 'Measure again by micrometer: eight points, one radius.',
    numbers: { variationMm, limitMm },
  };
}

/** Beyond this many standard deviations a part counts as having grown. */
const GROWN_SDS = 3;

/** Standard deviation of a new rotor or drum about its specification, mm (common practice, no source). */
const NEW_SD_MM = 0.1;

/** Thicker than before, or a drum smaller than before, with no recorded work in between. */
function grown(rotor: RotorPosition): Said | null {
  const { present, counterpart } = rotor;
  const [before, latest] = present.observations.slice(-2);
  if (!before || !latest) return null;
  const sdMm = Math.hypot(
    before.standardUncertaintyMm,
    latest.standardUncertaintyMm,
    Math.SQRT2 * COUNTERPART_PLACEMENT_SD_MM,
  );
  const grownMm = latest.mm - before.mm;
  if (grownMm <= GROWN_SDS * sdMm) return null;
  const { part } = counterpart;
  const word = part === 'rotor' ? 'thicker' : 'smaller';
  return {
    code: `${part}-${word}-than-before`,
    severity: 'check',
    message: `${readInWords(rotor)}, ${sayApart(rotor, grownMm)} ${word} than on ${before.visit.date}, with no replacement recorded.`,
    check: 'If it was replaced, record it. If not, measure again: one of the two readings is wrong.',
    numbers: { growthMm: roundMm(grownMm), normalSpreadMm: round(sdMm, 3) },
  };
}

function thickerThanNew(rotor: RotorPosition): Said | null {
  const { present, latest, counterpart } = rotor;
  if (!latest || !present.spec.new) return null;
  const newMm = toMm(present.spec.new);
  const sdMm = Math.hypot(latest.standardUncertaintyMm, COUNTERPART_PLACEMENT_SD_MM, NEW_SD_MM);
  const overMm = latest.mm - newMm;
  if (overMm <= GROWN_SDS * sdMm) return null;
  const { part, sign } = counterpart;
  const word = part === 'rotor' ? 'thicker' : 'smaller';
  return {
    code: `${part}-${word}-than-new`,
    severity: 'check',
    message: `${readInWords(rotor)}, ${sayApart(rotor, overMm)} ${word} than a new one (${sayFigure(rotor, newMm)}).`,
    check: `Measure again inside the worn band. If the reading stands, the specification is of another ${part}: correct it, its ${counterpart.limit} too.`,
    numbers: { newMm: sign * newMm, overMm: roundMm(overMm), normalSpreadMm: round(sdMm, 3) },
  };
}

/** A crack recorded at the visit that replaced the part is taken to be in the old one; the finding says so. */
function crackedBefore({ crackedBefore: date, cracked: now, counterpart, side }: RotorPosition): Said | null {
  if (date === null || now) return null;
  const { part } = counterpart;
  return {
    code: `${part}-cracked-before-replacement`,
    severity: 'note',
    message: `The ${side} ${part} was found cracked at the visit of ${date} that replaced it, which is taken to be said of the old one.`,
    check: `If the new ${part} is cracked, record it at a visit of its own.`,
    numbers: {},
  };
}

/** A margin measured long before the latest visit is out of date. */
function notMeasuredLately(rotor: RotorPosition): Said | null {
  const { outOfDate, counterpart, discardMm } = rotor;
  if (!outOfDate) return null;
  const { part, sign, limit, within, beyond } = counterpart;
  const { expectedMm, visitDate } = outOfDate;
  const marginMm = discardMm === null ? null : expectedMm - discardMm;
  const margin =
    marginMm === null
      ? ''
      : `, ${sayApart(rotor, round(marginMm, 2))} ${marginMm < 0 ? beyond : within} its ${limit}`;
  return {
    code: `${part}-not-measured-lately`,
    severity: 'note',
    message: `${readInWords(rotor)} and has not been measured since. By ${visitDate} about ${sayLength(rotor, round(expectedMm, 2))} was to be expected${margin}.`,
    check: `Measure both ${part}s before relying on their margin.`,
    numbers: { [part === 'rotor' ? 'expectedThicknessMm' : 'expectedDiameterMm']: sign * expectedMm },
  };
}

function repeatsDisagree(rotor: RotorPosition): Said | null {
  const { latest, counterpart } = rotor;
  if (!latest?.disagreement || rotor.standing?.isLatest) return null;
  const { first, second, sdMm } = latest.disagreement;
  const say = ({ mm, gauge }: typeof first): string => `${sayLength(rotor, mm)} (${gauge.name})`;
  return {
    code: 'repeats-disagree',
    severity: 'check',
    message: `Repeats on the ${nameOf(rotor).toLowerCase()} read ${say(first)} and ${say(second)}, farther apart than reading error explains.`,
    check: 'Measure this point again, with one gauge, until two readings agree.',
    numbers: {
      firstMm: counterpart.sign * first.mm,
      secondMm: counterpart.sign * second.mm,
      normalSpreadMm: round(sdMm, 3),
    },
  };
}
