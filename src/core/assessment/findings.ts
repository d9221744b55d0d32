import type { History } from '../history.js';
import { COVERAGE_FACTOR } from '../gauges.js';
import { inWords, round, roundMm } from '../rounding.js';
import type { Axle } from '../vocabulary/terms.js';
import type { Range } from '../vocabulary/quantities.js';
import type { Finding, PadWear } from '../vocabulary/wear.js';
import type { PadPosition } from './padPosition.js';
import type { Foretold } from './foretold.js';
import { lengthInWords } from './lengths.js';
import { limitFindings, liningInWords, readInWords } from './limitFindings.js';
import {
  limitUnknown,
  repeatsDisagree,
  thickerThanNew,
  thinnestDisagrees,
  unitDoubtful,
} from './readingFindings.js';
import { NOTABLE_SDS, readingVariance, type NormalSpread } from './spread.js';
import { judgeTorque, lastTorques, opensFastener, torqueInWords } from './torques.js';
import { unevenPads } from './unevenFindings.js';

const OFF_FORECAST_SDS = 3;

const SEVERITY_ORDER = { stop: 0, check: 1, note: 2 } as const;

/** Sorts findings, most urgent first: metal on metal before every other stop. */
export function byWeight(findings: readonly Finding[]): Finding[] {
  const weight = ({ code, severity }: Finding): number =>
    code === 'metal-on-metal' ? -1 : SEVERITY_ORDER[severity];
  return [...findings].sort((a, b) => weight(a) - weight(b));
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
    ...pads.flatMap((position) => thinnestDisagrees(axle, position, pads)),
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

/** The wear rate of the fastest measured pad of an axle, mm per 1000 km. */
function fastest(pads: readonly PadWear[]): Range | null {
  return pads.reduce<Range | null>(
    (max, { readings, ratePer1000KmMm: rate }) =>
      readings > 0 && rate && (!max || rate.median > max.median) ? rate : max,
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

function thickerThanBefore(
  axle: Axle,
  { side, pad, lining, present }: PadPosition,
  spread: NormalSpread,
): Finding[] {
  const [before, latest] = present.observations.slice(-2);
  if (!before || !latest || latest.mm <= before.mm) return [];
  const sdMm = Math.sqrt(readingVariance(before, latest, spread));
  const growthMm = latest.mm - before.mm;
  if (growthMm <= NOTABLE_SDS * sdMm) return [];
  return [
    {
      code: 'thicker-than-before',
      axle,
      side,
      pad,
      severity: 'check',
      message: `${readInWords({ side, pad, lining }, latest)}, ${lengthInWords(growthMm, latest.unit)} thicker than ${before.visit.id === latest.visit.id ? 'as found at that visit' : `on ${before.visit.date}`}, and no replacement is recorded.`,
      check: 'If it was replaced, record it. If not, measure again: one of the two readings is wrong.',
      numbers: {
        growthMm: roundMm(growthMm),
        normalSpreadMm: round(sdMm, 3),
        standardDeviations: round(growthMm / sdMm, 1),
      },
    },
  ];
}

/** Readings of the latest visit that are far from what the earlier readings predicted. */
function offForecast(
  axle: Axle,
  pads: readonly PadPosition[],
  foretold: readonly (Foretold | null)[],
): Finding[] {
  return pads.flatMap(({ side, pad, lining, latest }, part): Finding[] => {
    const expected = foretold[part];
    if (!latest || !expected || Math.abs(expected.z) <= OFF_FORECAST_SDS) return [];
    const { mean, spread, z } = expected;
    return [
      {
        code: 'reading-off-forecast',
        axle,
        side,
        pad,
        severity: 'check',
        message: `${readInWords({ side, pad, lining }, latest)}; the earlier readings predicted ${inWords(mean)} ± ${inWords(COVERAGE_FACTOR * spread)} mm. The forecast gives this reading less weight.`,
        check:
          'Measure it again. If the reading stands, look for what changed: driver, route, load or a dragging brake.',
        numbers: {
          readingMm: latest.mm,
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

function taper(axle: Axle, { side, pad, lining, latest }: PadPosition): Finding[] {
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
      message: `The ${leading < trailing ? 'leading' : 'trailing'} end of the ${liningInWords({ side, pad, lining })} is ${inWords(differenceMm)} mm thinner than the other end.`,
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
