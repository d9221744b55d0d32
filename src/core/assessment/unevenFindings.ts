import { median } from 'd3-array';
import { itemAt } from '../items.js';
import type { Observation } from '../lives.js';
import { inWords, round, roundMm } from '../rounding.js';
import { toMm } from '../units.js';
import { LINING_POSITIONS, type Axle, type LiningPosition, type Side } from '../vocabulary/terms.js';
import type { Finding } from '../vocabulary/wear.js';
import { liningAtStart } from './limitFindings.js';
import { isMeasured, type MeasuredPad, type PadPosition } from './padPosition.js';
import { NOTABLE_SDS, readingVariance, type NormalSpread } from './spread.js';

/** Findings on pads of one axle that wear unequally. */

/** A smaller difference is not worth a check, mm (common practice, no source). */
const UNEVEN_MIN_MM = 1;
/**
 * A difference above this is worth a check whatever spread the shop has learned, mm: wear counts as even while both
 * pads are within 2 to 3 mm ("Brake Pad Wear: Visual Inspection", brakeandfrontend.com).
 */
const UNEVEN_ALWAYS_MM = 3;

/** The difference between two pads, and its standard deviation from reading error and normal spread. */
interface Apart {
  /** Thickness of the first pad minus that of the second, or recent wear of the second minus that of the first, mm. */
  differenceMm: number;
  sdMm: number;
  /** Whether the difference is the extra wear of one pad since both were last measured. */
  isRecent: boolean;
}

/** Friction material worn since fitting, mm; if the fitting is unknown, since new or first measured. */
function worn({ present, latest }: PadPosition): number | null {
  if (!latest) return null;
  const from =
    present.startMm ?? (present.spec.new ? toMm(present.spec.new) : itemAt(present.observations, 0).mm);
  return Math.max(0, from - latest.mm);
}

/**
 * The latest measurement of a pad on an earlier day. As-left readings, and a second visit on the same day, show no
 * wear.
 */
const measuredBefore = ({ present, latest }: MeasuredPad): Observation | undefined =>
  present.observations.findLast(({ day }) => day < latest.day);

const wornSince = (before: Observation, { latest }: MeasuredPad): number =>
  Math.max(0, before.mm - latest.mm);

/** Friction material worn between the pad's measurements on its two latest days, mm. */
function wornLately(position: PadPosition): number | null {
  if (!isMeasured(position)) return null;
  const before = measuredBefore(position);
  return before ? wornSince(before, position) : null;
}

/** Median wear of the axle's pads; the median, so that one fast pad does not widen its own tolerance. */
function axleWear(pads: readonly PadPosition[], wearOf: (position: PadPosition) => number | null): number {
  return median(pads, wearOf) ?? 0;
}

/**
 * Thickness of one pad minus that of another. For pads fitted at different visits, compares their wear over the
 * distance of the younger one; null if that is unknown.
 */
function differenceOf(first: MeasuredPad, second: MeasuredPad): number | null {
  const [a, b] = [first.present, second.present];
  if (a.start?.day === b.start?.day) return first.latest.mm - second.latest.mm;
  const wears = [first, second].map((position) => {
    const { start } = position.present;
    const here = position.latest.place;
    const wornMm = worn(position);
    const drivenKm = start?.place && here ? here.km - start.place.km : 0;
    return wornMm !== null && drivenKm > 0 ? { wornMm, drivenKm } : null;
  });
  const [own, other] = wears;
  if (!own || !other) return null;
  const sharedKm = Math.min(own.drivenKm, other.drivenKm);
  return sharedKm * (other.wornMm / other.drivenKm - own.wornMm / own.drivenKm);
}

/** The difference between two pads measured at one visit. */
function apartNow(
  first: MeasuredPad,
  second: MeasuredPad,
  pads: readonly PadPosition[],
  spread: NormalSpread,
): Apart | null {
  const differenceMm = differenceOf(first, second);
  if (differenceMm === null) return null;
  const variance = readingVariance(first.latest, second.latest, spread) + 2 * spread.startSd ** 2;
  const spreadMm = spread.partSpread * axleWear(pads, worn);
  return { differenceMm, sdMm: Math.sqrt(variance + 2 * spreadMm ** 2), isRecent: false };
}

/**
 * How much more one pad has worn than another between two visits. A pad that starts to drag shows here first, because
 * over the whole life of a set, normal spread explains a larger difference. A pad that reads thicker than before counts
 * as not worn, so that a corrected reading does not blame its neighbours.
 */
function apartLately(
  first: MeasuredPad,
  second: MeasuredPad,
  pads: readonly PadPosition[],
  spread: NormalSpread,
): Apart | null {
  const [firstBefore, secondBefore] = [measuredBefore(first), measuredBefore(second)];
  if (!firstBefore || !secondBefore || firstBefore.visit.id !== secondBefore.visit.id) return null;
  const variance =
    readingVariance(firstBefore, secondBefore, spread) + readingVariance(first.latest, second.latest, spread);
  return {
    differenceMm: wornSince(secondBefore, second) - wornSince(firstBefore, first),
    sdMm: Math.sqrt(variance + 2 * (spread.partSpread * axleWear(pads, wornLately)) ** 2),
    isRecent: true,
  };
}

function isUneven({ differenceMm, sdMm }: Apart): boolean {
  const beyond = Math.abs(differenceMm);
  return beyond > UNEVEN_ALWAYS_MM || (beyond >= UNEVEN_MIN_MM && beyond > NOTABLE_SDS * sdMm);
}

/** The difference between two pads if reading error and normal spread do not explain it; null otherwise. */
function unevenness(
  first: PadPosition | undefined,
  second: PadPosition | undefined,
  pads: readonly PadPosition[],
  spread: NormalSpread,
): Apart | null {
  if (!isMeasured(first) || !isMeasured(second)) return null;
  if (first.latest.visit.id !== second.latest.visit.id) return null;
  const views = [apartNow(first, second, pads, spread), apartLately(first, second, pads, spread)];
  return views.find((view) => view !== null && isUneven(view)) ?? null;
}

const unevenNumbers = ({ differenceMm, sdMm }: Apart) => ({
  differenceMm: roundMm(Math.abs(differenceMm)),
  normalSpreadMm: round(sdMm, 3),
  standardDeviations: round(Math.abs(differenceMm) / sdMm, 1),
});

/** `is 2.3 mm thinner than the outer one; up to 1.04 mm is normal.` */
function unevenInWords({ differenceMm, sdMm, isRecent }: Apart, other: string): string {
  const mm = inWords(Math.abs(differenceMm));
  const difference = isRecent
    ? `has lost ${mm} mm more than ${other} since both were last measured`
    : `is ${mm} mm thinner than ${other}`;
  // Rounded down, so that the difference never reads as equal to what is normal.
  const normalMm = Math.floor(100 * Math.max(UNEVEN_MIN_MM, NOTABLE_SDS * sdMm)) / 100;
  return `${difference}; up to ${normalMm} mm is normal.`;
}

function unevenInnerOuter(axle: Axle, pads: readonly PadPosition[], spread: NormalSpread): Finding[] {
  return (['left', 'right'] as const).flatMap((side): Finding[] => {
    const inner = pads.find((position) => position.side === side && position.pad === 'inner');
    const outer = pads.find((position) => position.side === side && position.pad === 'outer');
    const apart = unevenness(inner, outer, pads, spread);
    if (!apart) return [];
    const thinner = apart.differenceMm < 0 ? 'inner' : 'outer';
    return [
      {
        code: 'uneven-inner-outer',
        axle,
        side,
        pad: thinner,
        severity: 'check',
        message: `${liningAtStart({ side, pad: thinner, lining: 'pad' })} ${unevenInWords(apart, `the ${thinner === 'inner' ? 'outer' : 'inner'} one`)}`,
        check: `Check the ${side} slides, piston, hardware and hose.`,
        numbers: unevenNumbers(apart),
      },
    ];
  });
}

/** A pad that recently wore more than both its partner and the opposite pad gets one finding, against its partner. */
export function unevenPads(axle: Axle, pads: readonly PadPosition[], spread: NormalSpread): Finding[] {
  const beside = unevenInnerOuter(axle, pads, spread);
  const hasFinding = (side: Side, pad: LiningPosition): boolean =>
    beside.some((finding) => finding.side === side && finding.pad === pad);
  return [...beside, ...unevenLeftRight(axle, pads, spread, hasFinding)];
}

function unevenLeftRight(
  axle: Axle,
  pads: readonly PadPosition[],
  spread: NormalSpread,
  hasFinding: (side: Side, pad: LiningPosition) => boolean,
): Finding[] {
  return LINING_POSITIONS.flatMap((pad): Finding[] => {
    const left = pads.find((position) => position.side === 'left' && position.pad === pad);
    const right = pads.find((position) => position.side === 'right' && position.pad === pad);
    const apart = unevenness(left, right, pads, spread);
    if (!apart) return [];
    const side = apart.differenceMm < 0 ? 'left' : 'right';
    const { lining } = left!;
    if (apart.isRecent && hasFinding(side, pad)) return [];
    return [
      {
        code: 'uneven-left-right',
        axle,
        side,
        pad,
        severity: 'check',
        message: `${liningAtStart({ side, pad, lining })} ${unevenInWords(apart, `the ${side === 'left' ? 'right' : 'left'} one`)}`,
        check: 'Compare both sides: does a wheel drag or stay hot?',
        numbers: unevenNumbers(apart),
      },
    ];
  });
}
