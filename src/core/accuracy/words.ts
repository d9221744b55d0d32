import { inWords } from '../rounding.js';
import type { Accuracy, DateAccuracy, DateFigures, ReadingAccuracy } from '../vocabulary/accuracy.js';
import type { PadSet } from '../vocabulary/terms.js';
import { countInWords, percentInWords } from '../words.js';

/** The accuracy of past forecasts in words. */
export function accuracyWords({ dates, nextReadings }: Pick<Accuracy, 'dates' | 'nextReadings'>): string {
  return [...dateWords(dates.total), ...setWords(dates.bySet), ...readingWords(nextReadings.total)].join(' ');
}

const FOR_SET: Record<PadSet, string> = {
  recorded: 'for sets whose fitting is recorded',
  original: 'for sets that came with the vehicle',
  unknown: 'for sets of unknown age',
  'perhaps-replaced': 'for sets that were perhaps replaced without a record',
};

/** Coverage by the set's origin; empty if there is nothing to compare. */
function setWords(groups: Accuracy['dates']['bySet']): string[] {
  const judged = groups.flatMap(({ set, figures }) =>
    figures ? [`${percentInWords(figures.inside80Share)} of forecasts ${FOR_SET[set]}`] : [],
  );
  return judged.length > 1 ? [`The day was between the early and late dates in ${listed(judged)}.`] : [];
}

const listed = (items: readonly string[]): string => `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;

function dateWords({ forecasts, padSets, vehicles, underWay, figures }: DateAccuracy): string[] {
  if (!figures) {
    const sets =
      padSets === 1 ? '1 set of pads has reached its' : `${padSets || 'No'} sets of pads have reached their`;
    return [`${sets} limit since a forecast was made. That is too few to judge the accuracy of the dates.`];
  }
  const { inside80, before80, after80, inside80Share, inside80ShareWithUnderWay } = figures;
  return [
    `Of ${countInWords(forecasts, 'forecast')} for ${countInWords(padSets, 'set')} of pads on ${countInWords(vehicles, 'vehicle')}, ${inWords(inside80)} (${percentInWords(inside80Share)}; the target is 80 %) had the day on which the first pad reached its limit between their early and late dates. In ${inWords(before80)} it came sooner, in ${inWords(after80)} later.`,
    ...(underWay > 0 && inside80ShareWithUnderWay !== null
      ? [
          `With ${countInWords(underWay, 'forecast')} more for pads that have not reached their limit yet, the estimated share is ${percentInWords(inside80ShareWithUnderWay)}.`,
        ]
      : []),
    `Half of the median dates were off by ${inWords(figures.medianAbsoluteErrorDays, 0)} days or less; the mean error was ${inWords(figures.meanAbsoluteErrorDays, 0)}. The dates were ${biasWords(figures.biasDays)}.`,
    ...rivalWords(figures),
  ];
}

function biasWords(days: number): string {
  const whole = Math.round(Math.abs(days));
  if (whole === 0) return 'neither too early nor too late on average';
  return `on average ${countInWords(whole, 'day')} too ${days > 0 ? 'late' : 'early'}`;
}

function rivalWords({ againstTwoPoint, againstLine }: DateFigures): string[] {
  const rules = [
    { by: 'dates from the wear rate between new and the latest reading', rival: againstTwoPoint },
    { by: 'dates from a straight line through all readings', rival: againstLine },
  ].flatMap(({ by, rival }) =>
    rival && rival.ratio !== null
      ? [
          `${inWords(rival.ratio)} times that of ${by} on the same ${countInWords(rival.forecasts, 'forecast')}`,
        ]
      : [],
  );
  return rules.length > 0 ? [`The mean error of the dates is ${rules.join(', and ')}.`] : [];
}

function readingWords({ readings, vehicles, figures }: ReadingAccuracy): string[] {
  if (!figures) return [];
  return [
    `Of ${countInWords(readings, 'pad reading')} on ${countInWords(vehicles, 'vehicle')} with a forecast from the visit before, ${percentInWords(figures.inside80Share)} were inside their 80 % interval; they were off by ${inWords(figures.meanAbsoluteErrorMm)} mm on average, gauge error included.`,
  ];
}
