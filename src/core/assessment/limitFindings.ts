import { required } from '../items.js';
import { COVERAGE_FACTOR, settlingGauge, STANDARD_GAUGES, type Gauges, type Unsettled } from '../gauges.js';
import type { Observation } from '../lives.js';
import { round, roundMm } from '../rounding.js';
import type { Axle, LengthUnit, LimitSource, LiningName } from '../vocabulary/terms.js';
import type { Finding, Limit } from '../vocabulary/wear.js';
import { capital, chanceInWords } from '../words.js';
import { chanceAbove } from './conformity.js';
import { figureInWords, lengthInWords } from './lengths.js';
import { isPast } from './limits.js';
import type { LiningAt } from './linings.js';
import type { PadPosition } from './padPosition.js';
import type { StandingFailure } from './standing.js';

/** Findings that compare the latest lining readings with their limits. */

const REPLACE = 'Replace the linings on both sides before the vehicle is driven.';

/** `left inner pad`; `left pad` for the thinner one of a wheel, `thinnest pad` for that of the axle. */
export const liningInWords = ({ side, pad, lining }: LiningAt & { lining: LiningName }): string =>
  [...(side === null ? [pad] : [side, pad === 'thinnest' ? '' : pad]), lining].filter(Boolean).join(' ');

/** `Left inner pad`. */
export const liningAtStart = (at: LiningAt & { lining: LiningName }): string => capital(liningInWords(at));

export function limitFindings(
  axle: Axle,
  position: PadPosition,
  gauges: Gauges = STANDARD_GAUGES,
): Finding[] {
  const { side, pad, latest, governing, standing, present } = position;
  const findings: Finding[] = [];
  const say = (finding: Pick<Finding, 'code' | 'severity' | 'message' | 'check' | 'numbers'>): void => {
    findings.push({ axle, side, pad, ...finding });
  };
  if (!latest) {
    const unfit = fittedUnderLimit(position);
    if (unfit) say(unfit);
    return findings;
  }
  const bare = metalOnMetal(position, latest);
  if (bare) say(bare);
  if (standing) say(failedBefore(position, latest, standing));
  if (!governing) return findings;
  if (!standing) {
    if (governing.fails) say(atLimit(position, latest, governing));
    else if (governing.conformity !== 'conforms') say(tooClose(position, latest, governing, gauges));
    else if (isWithinPlacement(governing)) say(withinPlacement(position, latest, governing));
  }
  if (latest.visit.id === present.observations[0]?.visit.id) {
    const unfit = fittedUnderLimit(position);
    if (unfit && !governing.fails) say(unfit);
  }
  return findings;
}

/** `Left inner pad read 1.2 mm on 2026-03-02`. */
export const readInWords = (
  position: Pick<PadPosition, 'side' | 'pad' | 'lining'>,
  { mm, unit, visit }: Observation,
): string => `${liningAtStart(position)} read ${lengthInWords(mm, unit)} on ${visit.date}`;

const numbersOf = ({ mm, standardUncertaintyMm: u }: Observation, { limitMm }: Limit) => ({
  readingMm: mm,
  limitMm,
  standardUncertaintyMm: roundMm(u),
  chanceBelowLimit: round(1 - chanceAbove(mm, limitMm, u), 4),
});

const SOURCES: Record<LimitSource, string> = {
  maker: 'the maker’s limit',
  shop: 'the shop’s own minimum',
  'wear-indicator': 'the wear indicator’s height',
  law: 'the legal limit',
};

/** `the maker’s limit of 2 mm`. */
const limitInWords = ({ source, limitMm }: Limit, unit: LengthUnit): string =>
  `${SOURCES[source]} of ${figureInWords(limitMm, unit)}`;

/** The same with its rule: `the legal limit of 1.6 mm (49 CFR 393.47(d)(1))`. */
const limitWithRule = (limit: Limit, unit: LengthUnit): string =>
  limit.citation ? `${limitInWords(limit, unit)} (${limit.citation})` : limitInWords(limit, unit);

/** A failed limit in words: `dangerous under UK inspection manual, item 1.1.13(a)(ii), limit 1.5 mm`. */
function failureInWords(limit: Limit, unit: LengthUnit): string {
  const { source, defectClass, citation, limitMm } = limit;
  if (source !== 'law') return limitInWords(limit, unit);
  return `${defectInWords(defectClass, citation)}, limit ${figureInWords(limitMm, unit)}`;
}

/** `dangerous under UK inspection manual, item 1.1.13(a)(ii)`; a class of several words follows in brackets. */
function defectInWords(defectClass: string | undefined, citation: string | undefined): string {
  if (!defectClass) return `a failure under ${citation}`;
  return defectClass.includes(' ')
    ? `a failure under ${citation} (${defectClass})`
    : `${defectClass} under ${citation}`;
}

const sentenceOf = (before: string, items: readonly string[]): string =>
  items.length > 0 ? ` ${before}: ${items.join('; ')}.` : '';

/** One sentence for every rule other than the governing one that a reading fails or may fail; empty if none. */
function otherRules({ limits, standingOfOthers }: PadPosition, unit: LengthUnit): string {
  const others = limits.filter(({ governs }) => !governs);
  const failed = others.filter(({ fails }) => fails).map((limit) => failureInWords(limit, unit));
  const unsure = others
    .filter((limit) => !limit.fails && limit.conformity !== 'conforms')
    .filter((limit) => !standingOfOthers.some((standing) => standing.limit === limit))
    .map((limit) => limitWithRule(limit, unit));
  return (
    sentenceOf('Also failed', failed) +
    standingInWords(standingOfOthers) +
    sentenceOf('Too close to tell', unsure)
  );
}

/** The rules that earlier readings or single repeats failed, by reading. */
function standingInWords(standing: PadPosition['standingOfOthers']): string {
  const byReading = new Map<string, string[]>();
  for (const { limit, failure } of standing) {
    const { mm, unit } = failure.reading;
    const reading = `The ${lengthInWords(mm, unit)} read on ${failure.date} also failed`;
    byReading.set(reading, [...(byReading.get(reading) ?? []), failureInWords(limit, unit)]);
  }
  return [...byReading].map(([reading, rules]) => sentenceOf(reading, rules)).join('');
}

function atLimit(position: PadPosition, latest: Observation, governing: Limit) {
  const { unit } = latest;
  const where = latest.mm === governing.limitMm ? 'at' : 'under';
  const { defectClass, citation } = governing;
  const meaning = defectClass ? `: ${defectInWords(defectClass, citation)}` : '';
  const limit = defectClass ? limitInWords(governing, unit) : limitWithRule(governing, unit);
  return {
    code: 'pad-at-limit',
    severity: 'stop',
    message: `${readInWords(position, latest)}, ${where} ${limit}${meaning}.${otherRules(position, unit)}`,
    check: `${REPLACE} If in doubt, first measure again at the thinnest point.`,
    numbers: numbersOf(latest, governing),
  } as const;
}

function tooClose(position: PadPosition, latest: Observation, governing: Limit, gauges: Gauges) {
  const { unit } = latest;
  const unsettled = {
    kind: `${position.lining}-thickness`,
    apartMm: latest.mm - governing.limitMm,
    used: latest.gauge,
    date: latest.visit.date,
  } as const;
  return {
    code: 'pad-too-close-to-limit',
    severity: 'stop',
    message: `${readInWords(position, latest)}, too close to ${limitWithRule(governing, unit)} to tell with ${gaugeInWords(latest)}.${otherRules(position, unit)}`,
    check: `${howToSettle(unsettled, latest, gauges)} Until then, treat the lining as at its limit.`,
    numbers: numbersOf(latest, governing),
  } as const;
}

/** `depth-gauge (± 0.1 mm)`; the reading's own uncertainty if repeats scatter. */
function gaugeInWords({ gauge, standardUncertaintyMm: u, unit }: Observation): string {
  const reach = lengthInWords(COVERAGE_FACTOR * u, unit);
  const scatters = u > gauge.standardUncertaintyMm;
  const name = gauge.name === 'assumed' ? 'the assumed coarse gauge' : gauge.name;
  return `${name} (± ${reach}${scatters ? ', because its repeats scatter' : ''})`;
}

/** Advises on the measurement that would show on which side of the limit the part is. */
export function howToSettle(
  unsettled: Unsettled,
  { unit, standardUncertaintyMm: u }: Pick<Observation, 'unit' | 'standardUncertaintyMm'>,
  gauges: Gauges,
): string {
  const settling = settlingGauge(unsettled, gauges);
  if (settling) {
    const reachMm = COVERAGE_FACTOR * settling.standardUncertaintyMm;
    const reach = lengthInWords(reachMm, unit, reachMm < 0.1 ? 3 : 2);
    const due = settling.calibrationDueDate;
    return `Measure again with ${settling.name} (± ${reach}${due ? `; calibrated until ${due}` : ''}), which can tell this reading from the limit.`;
  }
  if (u > unsettled.used.standardUncertaintyMm)
    return 'Measure again at the same place until the readings agree.';
  return 'None of the shop’s gauges in calibration can tell this reading from the limit.';
}

/**
 * A reading of zero means metal on metal, whatever the limit. Without a known limit, a reading that may be zero is a
 * stop too.
 */
function metalOnMetal(position: PadPosition, latest: Observation) {
  const { mm, standardUncertaintyMm: u } = latest;
  const numbers = { readingMm: mm, standardUncertaintyMm: roundMm(u) };
  if (mm <= 0) {
    return {
      code: 'metal-on-metal',
      severity: 'stop',
      message: `${readInWords(position, latest)}: no friction material is left, so metal runs on metal.`,
      check: `Do not let the vehicle be driven. Replace the linings on both sides. Measure both ${position.lining === 'pad' ? 'rotors' : 'drums'} and look for scoring and cracks.`,
      numbers,
    } as const;
  }
  if (position.governing || position.standing || mm > COVERAGE_FACTOR * u) return null;
  return {
    code: 'pad-too-close-to-zero',
    severity: 'stop',
    message: `${readInWords(position, latest)}, too close to bare metal to tell with ${gaugeInWords(latest)}. Its limit is unknown.`,
    check: 'Replace the linings on both sides, or measure again with a finer gauge.',
    numbers,
  } as const;
}

/** Whether the limit is within the reading's 95 % interval once placement error is included. */
const isWithinPlacement = ({ chanceWithPlacement }: Limit): boolean => (chanceWithPlacement ?? 1) < 0.975;

function withinPlacement(position: PadPosition, latest: Observation, governing: Limit) {
  const chanceBelow = 1 - required(governing.chanceWithPlacement, 'chance of conformity');
  return {
    code: 'near-limit-by-placement',
    severity: 'check',
    message: `${readInWords(position, latest)}, ${lengthInWords(latest.mm - governing.limitMm, latest.unit)} above ${limitWithRule(governing, latest.unit)}. The gauge can tell that, but linings wear unevenly: the chance that another spot is under the limit is ${chanceInWords(chanceBelow)}.`,
    check: 'Measure again at the thinnest point and record the lowest reading.',
    numbers: {
      ...numbersOf(latest, governing),
      chanceBelowLimitWithPlacement: round(chanceBelow, 4),
    },
  } as const;
}

/** Why a later reading does not overrule a failing one. */
export const whyNotOverruled = ({ gauge }: Observation, { reading }: StandingFailure): string =>
  gauge.standardUncertaintyMm < reading.gauge.standardUncertaintyMm
    ? 'it is too close to the limit'
    : 'its gauge is no finer';

function failedBefore(position: PadPosition, latest: Observation, standing: StandingFailure) {
  const { governing } = position;
  const { reading, date, isLatest } = standing;
  const fails = governing ? `which fails ${limitWithRule(governing, reading.unit)}` : 'which is bare metal';
  const failed = `read ${lengthInWords(reading.mm, reading.unit)} on ${date}, ${fails}.`;
  const now = lengthInWords(latest.mm, latest.unit);
  const message = isLatest
    ? `One repeat on the ${liningInWords(position)} ${failed} The repeats average ${now}.`
    : `${liningAtStart(position)} ${failed} The ${now} read on ${latest.visit.date} does not overrule that: ${whyNotOverruled(latest, standing)}.`;
  return {
    code: isLatest ? 'pad-repeat-at-limit' : 'pad-failed-before',
    severity: 'stop',
    message: `${message}${otherRules(position, latest.unit)}`,
    check: `Measure again with a gauge finer than ${reading.gauge.name}, or replace the linings on both sides.${isLatest ? '' : ' If they were replaced, record it.'}`,
    numbers: {
      readingMm: latest.mm,
      failingReadingMm: reading.mm,
      ...(governing && { limitMm: governing.limitMm }),
      standardUncertaintyMm: roundMm(latest.standardUncertaintyMm),
    },
  } as const;
}

/** New linings no thicker than their limit: the wrong part, or a wrong figure. */
function fittedUnderLimit(position: PadPosition) {
  const { present, governing } = position;
  const { startMm, origin } = present;
  if (origin !== 'replaced' || startMm === null || !governing || !isPast(startMm, governing)) return null;
  return {
    code: 'pad-fitted-at-limit',
    severity: 'stop',
    message: `${liningAtStart(position)} is recorded as fitted new at ${lengthInWords(startMm)}, which is not above ${limitWithRule(governing, 'mm')}.`,
    check: 'Measure it and read the part’s figures. Then correct the record, or fit the right part.',
    numbers: { newMm: startMm, limitMm: governing.limitMm },
  } as const;
}
