import { toFullDate } from '../calendar.js';
import { seasonVariance } from '../forecast/seasons.js';
import type { UsagePosterior } from '../forecast/usagePosterior.js';
import type { Road } from '../odometer.js';
import type { DoubtedReading } from '../odometerDoubt.js';
import { CHANGED_RATIO, MIN_DAYS_BEFORE, MIN_STRETCH_DAYS, type PerhapsInMiles } from '../odometerUnit.js';
import { paceOf } from '../stretches.js';
import { inWords, round } from '../rounding.js';
import type { Finding } from '../vocabulary/wear.js';

/** Findings on the vehicle's use and odometer; one per vehicle. */
export function usageFindings(road: Road, usage: UsagePosterior): Finding[] {
  return [...road.doubted.map(doubtFinding), ...changedUse(road, usage)];
}

const ofVehicle = { axle: null, side: null, pad: null };

const kmInWords = (km: number): string => inWords(km, 0);

const SLIPS = {
  'km-for-miles': 'in kilometres',
  'miles-for-km': 'in miles',
  'digit-too-many': 'with a digit too many',
  'digit-missing': 'with a digit missing',
} as const;

/** An odometer reading that is probably wrong; only a note once later readings settle the matter. */
function doubtFinding(doubted: DoubtedReading): Finding {
  const { date, km, kmPerDay, since, usualKmPerDay, slip, isSettled } = doubted;
  const against =
    usualKmPerDay === null ? '' : `, against about ${kmInWords(usualKmPerDay)} km a day otherwise`;
  const pace =
    since === null
      ? ' It does not fit the later readings.'
      : km < since.km
        ? ` It is below the ${kmInWords(since.km)} km of ${since.date}.`
        : kmPerDay === null
          ? ''
          : ` That would be ${kmInWords(kmPerDay)} km a day since ${since.date}${against}.`;
  return {
    ...ofVehicle,
    code: 'odometer-doubted',
    severity: isSettled ? 'note' : 'check',
    message: `The odometer reading of ${kmInWords(km)} km on ${date} is doubtful, and the forecast leaves it out.${pace}`,
    check: `Read the odometer again: check the vehicle, every digit, and kilometres against miles.${slip ? ` ${kmInWords(slip.km)} km would fit: it may have been entered ${SLIPS[slip.kind]}.` : ''} If the reading was wrong, correct the visit of ${date}.`,
    numbers: {
      odometerKm: round(km, 1),
      ...(kmPerDay !== null && { kmPerDay: round(kmPerDay, 1) }),
      ...(usualKmPerDay !== null && { usualKmPerDay: round(usualKmPerDay, 1) }),
      ...(slip && { fittingOdometerKm: round(slip.km, 1) }),
    },
  };
}

/** Use counts as changed beyond this many standard deviations, if the pace also changed by {@link CHANGED_RATIO}. */
const CHANGED_SDS = 3;

/**
 * Compares the pace of the latest stretch (or, if the odometer may show miles, of all stretches since then) with the
 * earlier pace. A change is a finding if this vehicle's day-to-day variation does not explain it.
 */
function changedUse({ stretches, perhapsInMiles }: Road, usage: UsagePosterior): Finding[] {
  const fromDay = perhapsInMiles?.fromDay ?? stretches.at(-1)?.fromDay ?? 0;
  const before = paceOf(stretches.filter((stretch) => stretch.fromDay < fromDay));
  const lately = paceOf(stretches.filter((stretch) => stretch.fromDay >= fromDay));
  if (!lately || !before || before.days < MIN_DAYS_BEFORE || before.kmPerDay === 0) return [];
  if (lately.days < MIN_STRETCH_DAYS) return [];
  const scatter = (days: number): number =>
    (usage.dayToDay ** 2 * days + seasonVariance(usage.season, days)) / (days * days);
  const sd = Math.sqrt(scatter(lately.days) + scatter(before.days));
  const ratio = lately.kmPerDay / before.kmPerDay;
  const hasChanged = perhapsInMiles !== null || ratio >= CHANGED_RATIO || ratio <= 1 / CHANGED_RATIO;
  if (!hasChanged || Math.abs(ratio - 1) < CHANGED_SDS * sd) return [];
  if (perhapsInMiles === null && isSeasonal(usage)) return [];
  const since = toFullDate(fromDay);
  const chanceStanding = standingChance(usage);
  return [
    {
      ...ofVehicle,
      code: 'use-changed',
      severity: 'note',
      message: `Use has changed: ${perDay(lately.kmPerDay)} since ${since}, against ${perDay(before.kmPerDay)} before.`,
      check:
        ratio < 1
          ? `Ask the driver whether the vehicle only stands idle for a while or will be used less from now on. The forecast assumes that it ${chanceStanding >= 0.5 ? 'stands idle for a while and will then be used as before' : 'will be used less, with some chance that it only stood idle'}.${perhapsInMiles ? inMilesInWords(perhapsInMiles) : ''}`
          : 'Ask the driver whether its work has changed for good or this was one long journey. The forecast allows for both.',
      numbers: {
        kmPerDayLately: round(lately.kmPerDay, 1),
        kmPerDayBefore: round(before.kmPerDay, 1),
        days: lately.days,
        chanceStanding: round(chanceStanding, 2),
        ...(perhapsInMiles && { fittingOdometerKm: round(perhapsInMiles.latest.km, 1) }),
      },
    },
  ];
}

const inMilesInWords = ({ date, latest: { miles, km } }: PerhapsInMiles): string =>
  ` Use would be as before if the odometer shows miles: ${kmInWords(miles)} miles are ${kmInWords(km)} km. If it does, correct the unit from the visit of ${date} on.`;

const perDay = (km: number): string => `${inWords(km, km < 10 ? 1 : 0)} km a day`;

const sumOf = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0);

/** A seasonal change gives no finding, unless the odometer may show miles. */
const isSeasonal = ({ ways }: UsagePosterior): boolean =>
  ways.reduce((sum, { year, weights }) => sum + (year ? sumOf(weights) : 0), 0) > 0.5;

const standingChance = ({ ways }: UsagePosterior): number =>
  ways.reduce((sum, { isStanding, weights }) => sum + (isStanding ? sumOf(weights) : 0), 0);
