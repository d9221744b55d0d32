import { median } from 'd3-array';
import type { History } from '../history.js';
import { COVERAGE_FACTOR } from '../gauges.js';
import type { Observation } from '../lives.js';
import type { Experience, WearParameters } from '../forecast/experience.js';
import { inWords, round, roundMm } from '../rounding.js';
import { toMm } from '../units.js';
import { LINING_POSITIONS, type Axle, type LiningPosition, type Side } from '../vocabulary/terms.js';
import type { Range } from '../vocabulary/quantities.js';
import type { Finding, PadWear } from '../vocabulary/wear.js';
import type { PadPosition } from './padPosition.js';
import type { Foretold } from './foretold.js';
import { lengthInWords } from './lengths.js';
import { liningAtStart, limitFindings, liningInWords, readInWords } from './limitFindings.js';
import { limitUnknown, repeatsDisagree, thickerThanNew, unitDoubtful } from './readingFindings.js';
import { judgeTorque, lastTorques, opensFastener, torqueInWords } from './torques.js';

/**
 * A difference is worth a check if it exceeds this many standard deviations and is also this large in absolute terms.
 */
const UNEVEN_SDS = 2;
const UNEVEN_MIN_MM = 1;
/**
 * A difference above this is worth a check whatever spread the shop has learned, mm: wear counts as even while both
 * pads are within 2 to 3 mm ("Brake Pad Wear: Visual Inspection", brakeandfrontend.com).
 */
const UNEVEN_ALWAYS_MM = 3;
const OFF_FORECAST_SDS = 3;

const SEVERITY_ORDER = { stop: 0, check: 1, note: 2 } as const;

/** Sorts findings, most urgent first: metal on metal before every other stop. */
export function byWeight(findings: readonly Finding[]): Finding[] {
  const weight = ({ code, severity }: Finding): number =>
    code === 'metal-on-metal' ? -1 : SEVERITY_ORDER[severity];
  return [...findings].sort((a, b) => weight(a) - weight(b));
}

/** The normal spread of pad readings and pad wear, as learned by the shop. */
export interface NormalSpread {
  /** Standard deviation of the gauge's placement, and of a new pad's thickness, mm. */
  placementSd: number;
  startSd: number;
  /** Relative standard deviation of one pad's wear about its axle's. */
  partSpread: number;
}

/**
 * The spread an experience expects: the geometric mean of its draws, so that a few wide draws do not hide a difference.
 */
export function normalSpreadOf({ pads }: Experience): NormalSpread {
  const over = (value: (parameters: WearParameters) => number): number =>
    Math.exp(pads.reduce((sum, { weight, parameters }) => sum + weight * Math.log(value(parameters)), 0));
  return {
    placementSd: over(({ placementSd }) => placementSd),
    startSd: over(({ startSd }) => startSd),
    partSpread: over(({ partSpread }) => partSpread),
  };
}

/** Findings on the pads of an axle. */
export function padFindings(
  axle: Axle,
  pads: readonly PadPosition[],
  foretold: readonly (Foretold | null)[],
  history: History,
  spread: NormalSpread,
): Finding[] {
  return [
    ...pads.flatMap((position) => limitFindings(axle, position, history.gauges)),
    ...pads.flatMap((position) => repeatsDisagree(axle, position)),
    ...pads.flatMap((position) => thickerThanNew(axle, position)),
    ...pads.flatMap((position) => unitDoubtful(axle, position)),
    ...limitUnknown(axle, pads),
    ...unevenPads(axle, pads, spread),
    ...pads.flatMap((position) => thickerThanBefore(axle, position, spread)),
    ...offForecast(axle, pads, foretold),
    ...pads.flatMap((position) => taper(axle, position)),
    ...torqueFindings(axle, history),
  ];
}

/** The rate of the fastest measured pad of an axle: its interval, mm per 1000 km. */
function fastest(pads: readonly PadWear[]): Range | null {
  return pads.reduce<Range | null>(
    (most, { readings, ratePer1000KmMm: rate }) =>
      readings > 0 && rate && (!most || rate.median > most.median) ? rate : most,
    null,
  );
}

/** Rear pads that wear faster than the front ones, beyond the uncertainty of both rates. */
export function rearFaster(front: readonly PadWear[], rear: readonly PadWear[]): Finding[] {
  const [ahead, behind] = [fastest(front), fastest(rear)];
  if (!ahead || !behind || behind.low <= ahead.median || behind.median <= ahead.high) return [];
  return [
    {
      code: 'rear-faster-than-front',
      axle: 'rear',
      side: null,
      pad: null,
      severity: 'note',
      message: `The fastest rear pad loses ${inWords(behind.median, 2)} mm per 1,000 km, the fastest front pad ${inWords(ahead.median, 2)} mm. Front brakes usually do more work; stability or distance control can explain the reverse.`,
      check: 'Check that the parking brake releases fully and that the rear slides and pistons move.',
      numbers: { rearRatePer1000KmMm: behind.median, frontRatePer1000KmMm: ahead.median },
    },
  ];
}

/** How far apart two pads are, and how much of that reading error and normal spread explain. */
interface Apart {
  /** Thickness of the first pad minus that of the second, or recent wear of the second minus that of the first, mm. */
  differenceMm: number;
  sdMm: number;
  /** True if it is the extra loss of one pad since both were last measured. */
  isRecent: boolean;
}

/** Friction material worn since fitting, mm; if the fitting is unknown, since new or first measured. */
function worn({ present, latest }: PadPosition): number | null {
  if (!latest) return null;
  const from = present.startMm ?? (present.spec.new ? toMm(present.spec.new) : present.observations[0]!.mm);
  return Math.max(0, from - latest.mm);
}

/**
 * The latest measurement of a pad on an earlier day. As-left readings, and a second visit on one day, say nothing about
 * wear.
 */
const measuredBefore = ({ present, latest }: PadPosition): Observation | undefined =>
  present.observations.findLast(({ day }) => day < latest!.day);

/** Friction material worn between the pad's measurements on its two latest days, mm. */
function wornLately(position: PadPosition): number | null {
  const before = position.latest && measuredBefore(position);
  return before ? Math.max(0, before.mm - position.latest!.mm) : null;
}

/** Median wear of the axle's pads, so that one fast pad does not widen its own tolerance. */
function axleWear(pads: readonly PadPosition[], wearOf: (position: PadPosition) => number | null): number {
  return median(pads, wearOf) ?? 0;
}

/**
 * Thickness of one pad minus that of another. For pads fitted at different visits, compares their wear over the
 * distance of the younger one; null if that is unknown.
 */
function differenceOf(first: PadPosition, second: PadPosition): number | null {
  const [a, b] = [first.present, second.present];
  if (a.start?.day === b.start?.day) return first.latest!.mm - second.latest!.mm;
  const wears = [first, second].map((position) => {
    const { start } = position.present;
    const here = position.latest!.place;
    const wornMm = worn(position);
    const drivenKm = start?.place && here ? here.km - start.place.km : 0;
    return wornMm !== null && drivenKm > 0 ? { wornMm, drivenKm } : null;
  });
  const [own, other] = wears;
  if (!own || !other) return null;
  const sharedKm = Math.min(own.drivenKm, other.drivenKm);
  return sharedKm * (other.wornMm / other.drivenKm - own.wornMm / own.drivenKm);
}

/** Variance of the difference of two readings due to reading error, mm². */
const readingVariance = (a: Observation, b: Observation, { placementSd }: NormalSpread): number =>
  2 * placementSd ** 2 + a.standardUncertaintyMm ** 2 + b.standardUncertaintyMm ** 2;

/** The difference between two pads measured at one visit. */
function apartNow(
  first: PadPosition,
  second: PadPosition,
  pads: readonly PadPosition[],
  spread: NormalSpread,
): Apart | null {
  const differenceMm = differenceOf(first, second);
  if (differenceMm === null) return null;
  const variance = readingVariance(first.latest!, second.latest!, spread) + 2 * spread.startSd ** 2;
  const spreadMm = spread.partSpread * axleWear(pads, worn);
  return { differenceMm, sdMm: Math.sqrt(variance + 2 * spreadMm ** 2), isRecent: false };
}

/**
 * How much more one pad has worn than another between two visits. A pad that starts to drag shows here first: over the
 * whole life of a set, normal spread explains a larger difference. A pad that reads thicker than before has worn nothing,
 * so that a corrected reading does not blame its neighbours.
 */
function apartLately(
  first: PadPosition,
  second: PadPosition,
  pads: readonly PadPosition[],
  spread: NormalSpread,
): Apart | null {
  const [firstBefore, secondBefore] = [measuredBefore(first), measuredBefore(second)];
  if (!firstBefore || !secondBefore || firstBefore.visit.id !== secondBefore.visit.id) return null;
  const variance =
    readingVariance(firstBefore, secondBefore, spread) +
    readingVariance(first.latest!, second.latest!, spread);
  return {
    differenceMm: wornLately(second)! - wornLately(first)!,
    sdMm: Math.sqrt(variance + 2 * (spread.partSpread * axleWear(pads, wornLately)) ** 2),
    isRecent: true,
  };
}

function isUneven({ differenceMm, sdMm }: Apart): boolean {
  const beyond = Math.abs(differenceMm);
  return beyond > UNEVEN_ALWAYS_MM || (beyond >= UNEVEN_MIN_MM && beyond > UNEVEN_SDS * sdMm);
}

/** The finding if two pads differ by more than reading error and normal spread explain. */
function unevenness(
  first: PadPosition | undefined,
  second: PadPosition | undefined,
  pads: readonly PadPosition[],
  spread: NormalSpread,
): Apart | null {
  if (!first?.latest || !second?.latest || first.latest.visit.id !== second.latest.visit.id) return null;
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
  const normalMm = Math.floor(100 * Math.max(UNEVEN_MIN_MM, UNEVEN_SDS * sdMm)) / 100;
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
        message: `${liningAtStart({ side, pad: thinner })} ${unevenInWords(apart, `the ${thinner === 'inner' ? 'outer' : 'inner'} one`)}`,
        check: `Check the ${side} slides, piston, hardware and hose.`,
        numbers: unevenNumbers(apart),
      },
    ];
  });
}

/** A pad that recently lost more than both its partner and the opposite one gets one finding, against its partner. */
function unevenPads(axle: Axle, pads: readonly PadPosition[], spread: NormalSpread): Finding[] {
  const beside = unevenInnerOuter(axle, pads, spread);
  const isAskedAbout = (side: Side, pad: LiningPosition): boolean =>
    beside.some((finding) => finding.side === side && finding.pad === pad);
  return [...beside, ...unevenLeftRight(axle, pads, spread, isAskedAbout)];
}

function unevenLeftRight(
  axle: Axle,
  pads: readonly PadPosition[],
  spread: NormalSpread,
  isAskedAbout: (side: Side, pad: LiningPosition) => boolean,
): Finding[] {
  return LINING_POSITIONS.flatMap((pad): Finding[] => {
    const left = pads.find((position) => position.side === 'left' && position.pad === pad);
    const right = pads.find((position) => position.side === 'right' && position.pad === pad);
    const apart = unevenness(left, right, pads, spread);
    if (!apart) return [];
    const side = apart.differenceMm < 0 ? 'left' : 'right';
    if (apart.isRecent && isAskedAbout(side, pad)) return [];
    return [
      {
        code: 'uneven-left-right',
        axle,
        side,
        pad,
        severity: 'check',
        message: `${liningAtStart({ side, pad })} ${unevenInWords(apart, `the ${side === 'left' ? 'right' : 'left'} one`)}`,
        check: 'Compare both sides: does a wheel drag or stay hot?',
        numbers: unevenNumbers(apart),
      },
    ];
  });
}

function thickerThanBefore(axle: Axle, { side, pad, present }: PadPosition, spread: NormalSpread): Finding[] {
  const [before, latest] = present.observations.slice(-2);
  if (!before || !latest || latest.mm <= before.mm) return [];
  const sdMm = Math.sqrt(readingVariance(before, latest, spread));
  const growthMm = latest.mm - before.mm;
  if (growthMm <= UNEVEN_SDS * sdMm) return [];
  return [
    {
      code: 'thicker-than-before',
      axle,
      side,
      pad,
      severity: 'check',
      message: `${readInWords({ side, pad }, latest)}, ${lengthInWords(growthMm, latest.unit)} thicker than ${before.visit.id === latest.visit.id ? 'as found at that visit' : `on ${before.visit.date}`}, and no replacement is recorded.`,
      check: 'If it was replaced, record it. If not, measure again: one of the two readings is wrong.',
      numbers: {
        growthMm: roundMm(growthMm),
        normalSpreadMm: round(sdMm, 3),
        standardDeviations: round(growthMm / sdMm, 1),
      },
    },
  ];
}

/** Readings of the latest visit far from what all earlier readings predicted. */
function offForecast(
  axle: Axle,
  pads: readonly PadPosition[],
  foretold: readonly (Foretold | null)[],
): Finding[] {
  return pads.flatMap(({ side, pad, latest }, part): Finding[] => {
    const expected = foretold[part];
    if (!expected || Math.abs(expected.z) <= OFF_FORECAST_SDS) return [];
    const { mean, spread, z } = expected;
    return [
      {
        code: 'reading-off-forecast',
        axle,
        side,
        pad,
        severity: 'check',
        message: `${readInWords({ side, pad }, latest!)}; the earlier readings led to expect ${inWords(mean)} ± ${inWords(COVERAGE_FACTOR * spread)} mm. The forecast gives this reading less weight.`,
        check:
          'Measure it again. If the reading stands, look for what changed: driver, route, load or a dragging brake.',
        numbers: {
          readingMm: latest!.mm,
          foretoldMm: round(mean, 2),
          spreadMm: round(spread, 2),
          standardDeviations: round(z, 1),
        },
      },
    ];
  });
}

/** Difference between the two ends of a pad that counts as taper, mm (common practice, no source). */
const TAPER_MM = 1.5;

function taper(axle: Axle, { side, pad, latest }: PadPosition): Finding[] {
  const leading = latest?.places.get('leading');
  const trailing = latest?.places.get('trailing');
  if (!latest || leading === undefined || trailing === undefined) return [];
  const differenceMm = roundMm(Math.abs(leading - trailing));
  if (differenceMm < TAPER_MM) return [];
  return [
    {
      code: 'taper',
      axle,
      side,
      pad,
      severity: 'check',
      message: `The ${leading < trailing ? 'leading' : 'trailing'} end of the ${liningInWords({ side, pad })} is ${inWords(differenceMm)} mm thinner than the other end.`,
      check:
        'Check that the slides are straight and free, and that the pad moves in its bracket without binding.',
      numbers: { differenceMm, leadingMm: leading, trailingMm: trailing },
    },
  ];
}

/** Torques outside their specification, until the fastener is set again or later work opens it. */
function torqueFindings(axle: Axle, { vehicle, visits }: History): Finding[] {
  const specs = vehicle.axles[axle]?.torque ?? {};
  const ofAxle = visits.flatMap(({ date, torques }, index) => {
    const later = visits.slice(index + 1);
    return torques
      .filter((torque) => torque.axle === axle && !later.some((visit) => opensFastener(visit, torque)))
      .map((torque) => ({ ...torque, date }));
  });
  return lastTorques(ofAxle).flatMap((torque): Finding[] => {
    const judged = judgeTorque(torque, specs);
    if (!judged || judged.within) return [];
    const { specifiedNm, toleranceNm } = judged;
    return [
      {
        code: 'torque-outside-specification',
        axle,
        side: torque.side ?? null,
        pad: null,
        severity: 'check',
        message: torqueInWords(torque, judged, torque.date),
        check: 'Set it again to the maker’s figure and in the maker’s sequence, and record it.',
        numbers: {
          torqueNm: round(torque.Nm, 2),
          specifiedNm: round(specifiedNm, 2),
          toleranceNm: round(toleranceNm, 2),
        },
      },
    ];
  });
}
