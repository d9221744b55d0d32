import { COVERAGE_FACTOR, settlingGauge, STANDARD_GAUGES, type Gauges, type Unsettled } from '../gauges.js';
import type { Observation } from '../lives.js';
import { PLACEMENT_SD_MM } from '../placement.js';
import { round, roundMm } from '../rounding.js';
import { toMm } from '../units.js';
import type { Axle, LengthUnit, LimitSource, LiningPosition, Side } from '../vocabulary/terms.js';
import type { Finding, Limit } from '../vocabulary/wear.js';
import { capital, percentInWords } from '../words.js';
import type { PadPosition } from './padPosition.js';
import { chanceAbove } from './conformity.js';
import { figureInWords, lengthInWords } from './lengths.js';
import { isPast } from './limits.js';

/** Findings that compare the latest lining readings with their limits. */

const REPLACE = 'Replace the linings on both sides before the vehicle is driven.';

const partOf = (pad: LiningPosition): 'pad' | 'shoe' => (pad === 'inner' || pad === 'outer' ? 'pad' : 'shoe');

/** `left inner pad`; `left shoe` if the record does not say which shoe. */
export const liningInWords = ({ side, pad }: { side: Side; pad: LiningPosition }): string =>
  [side, pad === 'thinnest' ? '' : pad, partOf(pad)].filter(Boolean).join(' ');

/** `Left inner pad`. */
export const liningAtStart = (at: { side: Side; pad: LiningPosition }): string => capital(liningInWords(at));

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
  if (!governing) return findings;
  if (standing) say(failedBefore(position, latest, governing, standing));
  else if (governing.fails) say(atLimit(position, latest, governing));
  else if (governing.conformity !== 'conforms') say(tooClose(position, latest, governing, gauges));
  else if (isWithinPlacement(governing)) say(withinPlacement(position, latest, governing));
  if (latest.visit.id === present.observations[0]?.visit.id) {
    const unfit = fittedUnderLimit(position);
    if (unfit && !governing.fails) say(unfit);
  }
  return findings;
}

/** `Left inner pad: 1.2 mm on 2026-03-02`. */
const readInWords = (position: PadPosition, { mm, unit, visit }: Observation): string =>
  `${liningAtStart(position)} read ${lengthInWords(mm, unit)} on ${visit.date}`;

const numbersOf = ({ mm, standardUncertaintyMm: u }: Observation, { limitMm }: Limit) => ({
  readingMm: mm,
  limitMm,
  standardUncertaintyMm: roundMm(u),
  chanceBelowLimit: round(1 - chanceAbove(mm, limitMm, u), 4),
});

const SOURCES: Record<Exclude<LimitSource, 'law'>, string> = {
  maker: 'the maker’s limit',
  shop: 'the shop’s own minimum',
  'wear-indicator': 'the wear indicator’s height',
};

/** `the maker’s limit of 2 mm`, `49 CFR 393.47(d)(1) (1.6 mm)`. */
function limitInWords({ source, citation, limitMm }: Limit, unit: LengthUnit): string {
  const length = figureInWords(limitMm, unit);
  return source === 'law' ? `${citation} (${length})` : `${SOURCES[source]} of ${length}`;
}

/** The same for a failure: `dangerous under UK inspection manual, item 1.1.13(a)(ii) (1.5 mm)`. */
function failureInWords(limit: Limit, unit: LengthUnit): string {
  const words = limitInWords(limit, unit);
  if (limit.source !== 'law') return words;
  return limit.defectClass ? `${limit.defectClass} under ${words}` : `a failure under ${words}`;
}

/** One sentence for every rule other than the governing one that a reading fails or may fail; empty if none. */
function otherRules({ limits }: PadPosition, unit: LengthUnit): string {
  const others = limits.filter(({ governs }) => !governs);
  const failed = others.filter(({ fails }) => fails).map((limit) => failureInWords(limit, unit));
  const unsure = others
    .filter(({ fails, conformity }) => !fails && conformity !== 'conforms')
    .map((limit) => failureInWords(limit, unit));
  return [
    failed.length > 0 ? ` Also failed: ${failed.join('; ')}.` : '',
    unsure.length > 0 ? ` Too close to tell: ${unsure.join('; ')}.` : '',
  ].join('');
}

function atLimit(position: PadPosition, latest: Observation, governing: Limit) {
  const { unit } = latest;
  const where = latest.mm === governing.limitMm ? 'at' : 'under';
  const legal =
    governing.source === 'law' && governing.defectClass
      ? `${where} the limit: ${failureInWords(governing, unit)}`
      : `${where} ${limitInWords(governing, unit)}`;
  return {
    code: 'pad-at-limit',
    severity: 'stop',
    message: `${readInWords(position, latest)}, ${legal}.${otherRules(position, unit)}`,
    check: `${REPLACE} If in doubt, measure again at the thinnest point first.`,
    numbers: numbersOf(latest, governing),
  } as const;
}

function tooClose(position: PadPosition, latest: Observation, governing: Limit, gauges: Gauges) {
  const { unit } = latest;
  const unsettled = {
    kind: partOf(position.pad) === 'pad' ? 'pad-thickness' : 'shoe-thickness',
    apartMm: latest.mm - governing.limitMm,
    used: latest.gauge,
    date: latest.visit.date,
  } as const;
  return {
    code: 'pad-too-close-to-limit',
    severity: 'stop',
    message: `${readInWords(position, latest)}, too close to ${limitInWords(governing, unit)} to tell with ${gaugeInWords(latest)}.${otherRules(position, unit)}`,
    check: `${howToSettle(unsettled, latest, gauges)} Until then treat the lining as at its limit.`,
    numbers: numbersOf(latest, governing),
  } as const;
}

/** `depth-gauge (± 0.1 mm)`; the reading's own uncertainty if repeats scatter. */
function gaugeInWords({ gauge, standardUncertaintyMm: u, unit }: Observation): string {
  const reach = lengthInWords(COVERAGE_FACTOR * u, unit);
  const scatters = u > gauge.standardUncertaintyMm;
  const name = gauge.name === 'assumed' ? 'the coarse gauge assumed' : gauge.name;
  return `${name} (± ${reach}${scatters ? ' with the scatter of its repeats' : ''})`;
}

/** Which measurement would show on which side of the limit the part is. */
export function howToSettle(
  unsettled: Unsettled,
  { unit, standardUncertaintyMm: u }: Pick<Observation, 'unit' | 'standardUncertaintyMm'>,
  gauges: Gauges,
): string {
  const settling = settlingGauge(unsettled, gauges);
  if (settling) {
    const reach = lengthInWords(COVERAGE_FACTOR * settling.standardUncertaintyMm, unit);
    return `Measure again with ${settling.name} (± ${reach}), which can tell this reading from the limit.`;
  }
  if (u > unsettled.used.standardUncertaintyMm)
    return 'Measure again at the same place until the readings agree.';
  return 'No gauge in calibration here can tell this reading from the limit.';
}

/**
 * At zero there is metal on metal, whatever the limit. Without a known limit, a reading that may be zero also means
 * stop.
 */
function metalOnMetal(position: PadPosition, latest: Observation) {
  const { mm, standardUncertaintyMm: u, unit } = latest;
  const numbers = { readingMm: mm, standardUncertaintyMm: roundMm(u) };
  if (mm <= 0) {
    return {
      code: 'metal-on-metal',
      severity: 'stop',
      message: `${readInWords(position, latest)}: no friction material is left, so metal runs on metal.`,
      check: `The vehicle must not be driven. Replace the linings on both sides; measure both ${partOf(position.pad) === 'pad' ? 'rotors' : 'drums'} and look for scoring and cracks.`,
      numbers,
    } as const;
  }
  if (position.governing || mm > COVERAGE_FACTOR * u) return null;
  return {
    code: 'pad-too-close-to-zero',
    severity: 'stop',
    message: `${readInWords(position, latest)}, too close to bare metal to tell with ${gaugeInWords(latest)}; no limit is known for it.`,
    check: `Replace the linings on both sides, or measure again with a finer gauge (${lengthInWords(mm, unit)} is little in any case).`,
    numbers,
  } as const;
}

/** Whether the limit is within the reading's 95 % interval when placement error is included. */
const isWithinPlacement = ({ chanceWithPlacement }: Limit): boolean => (chanceWithPlacement ?? 1) < 0.975;

function withinPlacement(position: PadPosition, latest: Observation, governing: Limit) {
  const chance = percentInWords(1 - governing.chanceWithPlacement!);
  return {
    code: 'near-limit-by-placement',
    severity: 'check',
    message: `${readInWords(position, latest)}, ${lengthInWords(latest.mm - governing.limitMm, latest.unit)} above ${limitInWords(governing, latest.unit)}. The gauge can tell that, but a pad is not even: at another spot it may be under (chance ${chance}).`,
    check: 'Measure again at the thinnest point; use the lowest reading.',
    numbers: {
      ...numbersOf(latest, governing),
      chanceBelowLimitWithPlacement: round(1 - governing.chanceWithPlacement!, 4),
    },
  } as const;
}

function failedBefore(
  position: PadPosition,
  latest: Observation,
  governing: Limit,
  { reading, date, isLatest }: NonNullable<PadPosition['standing']>,
) {
  const failed = lengthInWords(reading.mm, reading.unit);
  const limit = limitInWords(governing, reading.unit);
  const message = isLatest
    ? `A repeat on the ${liningInWords(position)} read ${failed} on ${date}, past ${limit}; the mean of its repeats is ${lengthInWords(latest.mm, latest.unit)}.`
    : `${liningAtStart(position)} read ${failed} on ${date}, past ${limit}. The reading of ${lengthInWords(latest.mm, latest.unit)} on ${latest.visit.date} is by no finer gauge and does not overrule it.`;
  return {
    code: isLatest ? 'pad-repeat-at-limit' : 'pad-failed-before',
    severity: 'stop',
    message,
    check: `Measure again with a gauge finer than ${reading.gauge.name}, or replace the linings on both sides${isLatest ? '' : '; if they were replaced, record it'}.`,
    numbers: {
      readingMm: latest.mm,
      failingReadingMm: reading.mm,
      limitMm: governing.limitMm,
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
    message: `${liningAtStart(position)} is recorded as fitted new at ${lengthInWords(startMm)}, no thicker than ${limitInWords(governing, 'mm')}.`,
    check: 'Measure it and read the part’s figures: correct the record, or fit the right part.',
    numbers: { newMm: startMm, limitMm: governing.limitMm },
  } as const;
}

/** A reading above this thickness is no concern by itself, mm (common practice, no source). */
const AMPLE_MM = 3;
/** Standard deviation of a new part's thickness about its specification, mm (common practice, no source). */
const NEW_SD_MM = 0.15;
const THICKER_SDS = 3;

/** Linings thicker than new: the backing plate was measured too, or the specification is for another part. */
export function thickerThanNew(axle: Axle, position: PadPosition): Finding[] {
  const { side, pad, latest, present } = position;
  const specified = present.spec.new;
  if (!latest || !specified) return [];
  const newMm = toMm(specified);
  const sdMm = Math.hypot(latest.standardUncertaintyMm, PLACEMENT_SD_MM, NEW_SD_MM);
  const overMm = latest.mm - newMm;
  if (overMm <= THICKER_SDS * sdMm) return [];
  return [
    {
      code: 'thicker-than-new',
      axle,
      side,
      pad,
      severity: 'check',
      message: `${readInWords(position, latest)}, ${lengthInWords(overMm, latest.unit)} thicker than the ${lengthInWords(newMm, latest.unit)} of a new one. The true thickness may be well below the reading.`,
      check:
        'Measure the friction material alone, without backing plate and shim; if the reading stands, correct the specification of the part fitted.',
      numbers: { readingMm: latest.mm, newMm, overMm: roundMm(overMm), normalSpreadMm: round(sdMm, 3) },
    },
  ];
}

/** Repeats at one place that differ by more than reading error explains. */
export function repeatsDisagree(axle: Axle, position: PadPosition): Finding[] {
  const { side, pad, latest, standing } = position;
  if (!latest?.disagreement || standing?.isLatest) return [];
  const { first, second, sdMm } = latest.disagreement;
  const say = ({ mm, gauge }: typeof first): string => `${lengthInWords(mm, latest.unit)} (${gauge.name})`;
  return [
    {
      code: 'repeats-disagree',
      axle,
      side,
      pad,
      severity: 'check',
      message: `Repeats on the ${liningInWords(position)} read ${say(first)} and ${say(second)}, farther apart than reading error explains; ${lengthInWords(latest.mm, latest.unit)} counts.`,
      check: 'Measure this place again, with one gauge, until two readings agree.',
      numbers: {
        firstMm: first.mm,
        secondMm: second.mm,
        countedMm: latest.mm,
        normalSpreadMm: round(sdMm, 3),
      },
    },
  ];
}

/** Measured linings without a known limit: no reading of them can fail. One finding per axle. */
export function limitUnknown(axle: Axle, pads: readonly PadPosition[]): Finding[] {
  const unlimited = pads.filter(({ latest, governing }) => latest && !governing);
  if (unlimited.length === 0) return [];
  const thinnest = unlimited.reduce((least, each) => (each.latest!.mm < least.latest!.mm ? each : least));
  const { mm, unit } = thinnest.latest!;
  return [
    {
      code: 'pad-limit-unknown',
      axle,
      side: null,
      pad: null,
      severity: mm <= AMPLE_MM ? 'check' : 'note',
      message: `No limit is known for these linings, so no reading of them can fail. The thinnest is the ${liningInWords(thinnest)} at ${lengthInWords(mm, unit)}.`,
      check: 'Read the maker’s limit and record it on the vehicle, or let the owner set the shop’s minimum.',
      numbers: { thinnestMm: mm },
    },
  ];
}
