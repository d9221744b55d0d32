import { COVERAGE_FACTOR, STANDARD_GAUGES, type Gauges } from '../gauges.js';
import { itemAt } from '../items.js';
import { leftUntil } from '../lives.js';
import { round, roundMm } from '../rounding.js';
import type { Axle } from '../vocabulary/terms.js';
import type { Finding } from '../vocabulary/wear.js';
import { chanceInWords } from '../words.js';
import { chanceAbove } from './conformity.js';
import type { Counterpart } from './counterpart.js';
import { growthFindings, isThickerThanNew } from './counterpartGrowth.js';
import {
  isCompared,
  isFittedBeyondLimit,
  type ComparedPosition,
  type CounterpartPosition,
} from './counterpartPosition.js';
import { runoutFinding, runoutUnitDoubtful, variationFinding } from './counterpartRunning.js';
import {
  bothOf,
  nameOf,
  readInWords,
  sayApart,
  sayFigure,
  sayLength,
  type FindingDraft,
} from './counterpartWords.js';
import { lengthInWords } from './lengths.js';
import { howToSettle, whyNotOverruled } from './limitFindings.js';
import { oneSidedFinding } from './partFindings.js';
import type { OtherNew, UnseenReplacement } from './setFindings.js';

/** Findings on the rotors or drums of an axle. */

/** Minimum chance of passing the limit before the next visit that gives a finding. */
export const MIN_CHANCE_FOUND = 0.1;

export function counterpartFindings(
  axle: Axle,
  parts: readonly CounterpartPosition[],
  gauges: Gauges = STANDARD_GAUGES,
): Finding[] {
  const [left, right] = parts.map(({ present }) => present);
  return [
    ...oneSidedFinding(axle, itemAt(parts, 0).counterpart.part, { left, right }),
    ...parts.flatMap((position) => {
      const stops = [
        cracked(position),
        failedBefore(position) ?? beyondLimit(position, gauges),
        fittedBeyondLimit(position),
        leftBeyondMachineTo(position),
      ];
      const drafts = [
        ...stops,
        stops.some((stop) => stop) ? null : limitBeforeNextVisit(position),
        runoutFinding(position),
        runoutUnitDoubtful(position),
        variationFinding(position),
        ...growthFindings(position),
        repeatsDisagree(position),
        notMeasuredLately(position),
        crackedBefore(position),
      ];
      return drafts.flatMap((each) => (each ? [{ axle, side: position.side, pad: null, ...each }] : []));
    }),
  ];
}

/** Findings if the readings contradict the record of which rotors or drums are fitted. */
export function setsInDoubt(
  axle: Axle,
  positions: readonly CounterpartPosition[],
  unseen: UnseenReplacement | null,
  other: OtherNew | null,
): Finding[] {
  const position = itemAt(positions, 0);
  return [
    ...(unseen ? [replacedWithoutRecord(axle, position.counterpart, unseen)] : []),
    ...(other ? [newMeasureDoubtful(axle, position, other)] : []),
  ];
}

function newMeasureDoubtful(
  axle: Axle,
  position: CounterpartPosition,
  { readMm, specifiedMm, numbers }: OtherNew,
): Finding {
  const { part, measure, limit } = position.counterpart;
  return {
    code: `${part}-new-${measure}-doubtful`,
    axle,
    side: null,
    pad: null,
    severity: 'check',
    message: `The ${part}s first read about ${sayLength(position, readMm)}, which does not fit the ${sayFigure(position, specifiedMm)} specified for new ones. The forecast goes by the readings.`,
    check: `Which ${part}s are fitted, and what is their ${measure} when new? Correct the specification, and their ${limit} too.`,
    numbers,
  };
}

/** The finding stays open until the replacement is recorded or later readings contradict it. */
function replacedWithoutRecord(
  axle: Axle,
  { part, limit }: Counterpart,
  { side, when, numbers }: UnseenReplacement,
): Finding {
  const fitted = side === null ? `new ${part}s were fitted` : `a new ${part} was fitted on the ${side}`;
  const these = side === null ? `these ${part}s` : `this ${part}`;
  const wereThese = side === null ? `Were ${these}` : `Was ${these}`;
  return {
    code: `${part}-replaced-without-record`,
    axle,
    side,
    pad: null,
    severity: 'check',
    message: `The readings say that ${fitted} ${when}, but no replacement is recorded. The forecast counts from new.`,
    check: `${wereThese} replaced ${when}? If so, record it, with the ${limit} marked on ${side === null ? 'them' : 'it'}. If not, measure again.`,
    numbers,
  };
}

/** `This is dangerous under UK inspection manual, item 1.1.14(a)(ii).`, each rule in turn; empty if none. */
const under = (defects: readonly string[]): string =>
  defects.length > 0 ? ` This is ${defects.join('; ')}.` : '';

function cracked(position: CounterpartPosition): FindingDraft | null {
  if (!position.cracked) return null;
  const { date, defects } = position.cracked;
  return {
    code: `${position.counterpart.part}-cracked`,
    severity: 'stop',
    message: `${nameOf(position)} was found cracked on ${date}.${under(defects)}`,
    check: `Replace ${bothOf(position)} before the vehicle is driven, whatever they measure.`,
    numbers: {},
  };
}

/** A crack recorded at the visit that replaced the part, which may be in the old part or in the new one. */
function crackedBefore(position: CounterpartPosition): FindingDraft | null {
  const { crackedBefore: date, cracked: now, counterpart } = position;
  if (date === null || now) return null;
  const { part } = counterpart;
  return {
    code: `${part}-cracked-before-replacement`,
    severity: 'check',
    message: `${nameOf(position)} was found cracked at the visit of ${date}, which also replaced it. The service assumes that the old ${part} was the cracked one.`,
    check: `Check the new ${part} for cracks: record it as ok, or record the crack at a visit of its own.`,
    numbers: {},
  };
}

function limitNumbers({
  latest,
  limitMm,
  standardUncertaintyMm: u,
  counterpart,
}: ComparedPosition): Finding['numbers'] {
  const chance = round(1 - chanceAbove(leftUntil(counterpart.wears, latest.mm, limitMm), 0, u), 4);
  const standardUncertaintyMm = roundMm(u);
  return counterpart.part === 'rotor'
    ? { thinnestMm: latest.mm, discardMm: limitMm, standardUncertaintyMm, chanceUnderDiscard: chance }
    : { largestMm: latest.mm, maximumMm: limitMm, standardUncertaintyMm, chanceOverMaximum: chance };
}

function beyondLimit(position: CounterpartPosition, gauges: Gauges): FindingDraft | null {
  if (!isCompared(position) || position.conformity === 'conforms') return null;
  const { latest, limitMm, marginMm, conformity, counterpart, standardUncertaintyMm: u } = position;
  const { part, beyond, code, limit } = counterpart;
  const itsLimit = `its ${limit} of ${sayFigure(position, limitMm)}`;
  if (conformity === 'does-not-conform') {
    return {
      code: `${part}-${beyond}-${code}`,
      severity: 'stop',
      message: `${readInWords(position)}, ${sayApart(position, marginMm)} ${beyond} ${itsLimit}.${under(position.limitDefects)}`,
      check: `Replace ${bothOf(position)} before the vehicle is driven.`,
      numbers: limitNumbers(position),
    };
  }
  const unsettled = {
    kind: part === 'rotor' ? 'rotor-thickness' : 'drum-diameter',
    apartMm: marginMm,
    used: latest.gauge,
    date: latest.visit.date,
  } as const;
  return {
    code: `${part}-too-close-to-${code}`,
    severity: 'stop',
    message: `${readInWords(position)} (± ${sayApart(position, COVERAGE_FACTOR * u)}), too close to ${itsLimit} to tell.`,
    check: `${howToSettle(unsettled, latest, gauges)} Until then, treat it as ${beyond} its ${limit}.`,
    numbers: limitNumbers(position),
  };
}

function failedBefore(position: CounterpartPosition): FindingDraft | null {
  const { standing, latest, limitMm, counterpart } = position;
  if (!standing || !latest || limitMm === null || position.conformity === 'does-not-conform') return null;
  const { part, beyond, limit, code } = counterpart;
  const { reading, date, isLatest } = standing;
  const failed = `read ${lengthInWords(reading.mm, reading.unit, 3)} on ${date}, ${beyond} its ${limit} of ${sayFigure(position, limitMm)}`;
  const now = sayLength(position, latest.mm);
  return {
    code: isLatest ? `${part}-repeat-${beyond}-${code}` : `${part}-failed-before`,
    severity: 'stop',
    message: isLatest
      ? `One repeat on the ${position.side} ${part} ${failed}. The repeats average ${now}.`
      : `${nameOf(position)} ${failed}. The ${now} read on ${latest.visit.date} does not overrule that: ${whyNotOverruled(latest, standing)}.`,
    check: `Measure again with a gauge finer than ${reading.gauge.name}, or replace ${bothOf(position)}.${isLatest ? '' : ' If they were replaced, record it.'}`,
    numbers: {
      [part === 'rotor' ? 'failingThicknessMm' : 'failingDiameterMm']: reading.mm,
      [part === 'rotor' ? 'discardMm' : 'maximumMm']: limitMm,
    },
  };
}

function fittedBeyondLimit(position: CounterpartPosition): FindingDraft | null {
  if (!isFittedBeyondLimit(position)) return null;
  const { counterpart, present, limitMm } = position;
  const { part, limit, within, beyond, code } = counterpart;
  return {
    code: `${part}-fitted-${beyond}-${code}`,
    severity: 'stop',
    message: `${nameOf(position)} is recorded as fitted new at ${lengthInWords(present.startMm, 'mm', 3)}, which is not ${within} its ${limit} of ${lengthInWords(limitMm, 'mm', 3)}.`,
    check: `Measure it and read the figures marked on it. Then correct the record, or fit the right ${part}.`,
    numbers: {
      newMm: present.startMm,
      [part === 'rotor' ? 'discardMm' : 'maximumMm']: limitMm,
    },
  };
}

function leftBeyondMachineTo(position: CounterpartPosition): FindingDraft | null {
  const { leftBeyondMachineToMm: leftMm, machineToMm, counterpart } = position;
  if (leftMm === null || machineToMm === null) return null;
  const { part, beyond, measure, limit, lining, wears } = counterpart;
  return {
    code: `${part}-left-${beyond}-machine-to`,
    severity: 'stop',
    message: `${nameOf(position)} was left at ${sayLength(position, leftMm)} after machining, ${sayApart(position, leftUntil(wears, leftMm, machineToMm))} ${beyond} its machine-to ${measure} of ${sayFigure(position, machineToMm)}.`,
    check: `Replace ${bothOf(position)}: they may reach their ${limit} before the next ${lining} are worn out.`,
    numbers: { leftMm, machineToMm },
  };
}

function limitBeforeNextVisit(position: CounterpartPosition): FindingDraft | null {
  const { beforeNextVisit, latest, limitMm, outOfDate, disbelieved, counterpart } = position;
  if (!beforeNextVisit || beforeNextVisit.chance < MIN_CHANCE_FOUND || limitMm === null) return null;
  if (isThickerThanNew(position)) return null;
  const { part, limit, within } = counterpart;
  const figures = isCompared(position)
    ? `${readInWords(position)}, ${sayApart(position, position.marginMm)} ${within} its ${limit} of ${sayFigure(position, limitMm)}`
    : `${nameOf(position)} has not been measured since it was fitted; its ${limit} is ${lengthInWords(limitMm, 'mm', 3)}`;
  return {
    code: `${part}-limit-before-next-visit`,
    severity: 'check',
    message: `${figures}. The chance that it reaches its limit by the next visit, about ${beforeNextVisit.date}, is ${chanceInWords(beforeNextVisit.chance)}.`,
    check:
      latest && !outOfDate && !disbelieved
        ? `Replace ${bothOf(position)} now, or see the vehicle again before then.`
        : `Measure ${bothOf(position)} now.`,
    numbers: { chanceBeforeNextVisit: beforeNextVisit.chance },
  };
}

/** A margin measured long before the latest visit is out of date. */
function notMeasuredLately(position: CounterpartPosition): FindingDraft | null {
  const { outOfDate, counterpart, limitMm } = position;
  if (!outOfDate) return null;
  const { part, limit, within, beyond, wears } = counterpart;
  const { expectedMm, visitDate } = outOfDate;
  const marginMm = limitMm === null ? null : leftUntil(wears, expectedMm, limitMm);
  const margin =
    marginMm === null
      ? ''
      : `, ${sayApart(position, round(marginMm, 2))} ${marginMm < 0 ? beyond : within} its ${limit}`;
  return {
    code: `${part}-not-measured-lately`,
    severity: 'note',
    message: `${readInWords(position)} and has not been measured since. The forecast for ${visitDate} is about ${sayLength(position, round(expectedMm, 2))}${margin}.`,
    check: `Measure ${bothOf(position)} before you rely on their margin.`,
    numbers: { [part === 'rotor' ? 'expectedThicknessMm' : 'expectedDiameterMm']: expectedMm },
  };
}

function repeatsDisagree(position: CounterpartPosition): FindingDraft | null {
  const { latest, side, counterpart } = position;
  if (!latest?.disagreement || position.standing?.isLatest) return null;
  const { first, second, sdMm } = latest.disagreement;
  const say = ({ mm, gauge }: typeof first): string => `${sayLength(position, mm)} (${gauge.name})`;
  return {
    code: 'repeats-disagree',
    severity: 'check',
    message: `Repeats on the ${side} ${counterpart.part} read ${say(first)} and ${say(second)}. Reading error does not explain the difference.`,
    check: 'Measure this point again with one gauge until two readings agree.',
    numbers: { firstMm: first.mm, secondMm: second.mm, normalSpreadMm: round(sdMm, 3) },
  };
}
