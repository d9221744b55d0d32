import { inWords } from '../rounding.js';
import type { DateAccuracy, ReadingAccuracy } from '../vocabulary/accuracy.js';

/** How past forecasts did, as one would say it. */
export function accuracyWords(dates: DateAccuracy, readings: ReadingAccuracy): string {
  return [...dateWords(dates), ...readingWords(readings)].join(' ');
}

function dateWords(dates: DateAccuracy): string[] {
  const { forecasts, padSets, vehicles, inside80, before80, after80, inside80Share } = dates;
  if (inside80 === null || inside80Share === null) {
    const sets =
      padSets === 1 ? '1 set of pads has reached its' : `${padSets || 'No'} sets of pads have reached their`;
    return [`${sets} limit since a forecast was made: too few to say how good the dates are.`];
  }
  return [
    `Of ${forecasts} forecasts for ${padSets} sets of pads on ${counted(vehicles, 'vehicle')}, ${inside80} (${percent(inside80Share)}, where 80 % was meant) held the day on which the first pad reached its limit between their early and late dates; in ${before80} it came sooner, in ${after80} later.`,
    ...underWayWords(dates),
    `Half of the median dates were off by ${inWords(dates.medianAbsoluteErrorDays!, 0)} days or less; on average they were off by ${inWords(dates.meanAbsoluteErrorDays!, 0)}, and ${biasWords(dates.biasDays!)}.`,
    ...rivalWords(dates),
  ];
}

function underWayWords({ underWay, inside80ShareWithUnderWay }: DateAccuracy): string[] {
  if (underWay === 0 || inside80ShareWithUnderWay === null) return [];
  const which = underWay === 1 ? 'the forecast' : `the ${underWay} forecasts`;
  return [
    `With ${which} of pads not seen to reach their limit counted as far as can be told, the share is ${percent(inside80ShareWithUnderWay)}.`,
  ];
}

function biasWords(days: number): string {
  const whole = Math.round(Math.abs(days));
  if (whole === 0) return 'too early as much as too late';
  return `on the whole ${counted(whole, 'day')} too ${days > 0 ? 'late' : 'early'}`;
}

function rivalWords({ againstTwoPoint, againstLine }: DateAccuracy): string[] {
  const rules = [
    { by: 'the rate from new to the latest reading', ...againstTwoPoint },
    { by: 'a straight line through all readings', ...againstLine },
  ].flatMap(({ by, forecasts, ratio }) =>
    ratio === null ? [] : [`${inWords(ratio)} times that of ${by} on the same ${forecasts} forecasts`],
  );
  return rules.length > 0 ? [`Their error is ${rules.join(', and ')}.`] : [];
}

function readingWords({ readings, vehicles, inside80Share, meanAbsoluteErrorMm }: ReadingAccuracy): string[] {
  if (inside80Share === null) return [];
  return [
    `Of ${readings} pad readings on ${counted(vehicles, 'vehicle')}, foretold at the visit before, ${percent(inside80Share)} lay inside their 80 % interval; they were off by ${inWords(meanAbsoluteErrorMm!)} mm on average, gauge included.`,
  ];
}

const percent = (share: number): string => `${inWords(100 * share, 0)} %`;
const counted = (count: number, noun: string): string => `${count} ${noun}${count === 1 ? '' : 's'}`;
