import { toDay, toFullDate } from '../calendar.js';
import { round, roundKm } from '../rounding.js';
import type { PastForecast } from '../vocabulary/accuracy.js';
import type { Reason } from '../vocabulary/quantities.js';
import type { DateScore } from './scores.js';
import { daysOff, sideOf } from './summary.js';

type ScoredForecast = Omit<PastForecast, 'vehicleId' | 'externalId' | 'registration' | 'fleet' | 'model'>;

/** One forecast and its outcome, for the answer; null if the limit was not observed to be reached. */
export function pastForecastOf(score: DateScore): ScoredForecast | null {
  const { axle, set, date, readings, experience, days, km, reached, twoPointDays, lineDays } = score;
  if (!reached) return null;
  const dateAt = (after: number | null): string | null =>
    after === null ? null : toFullDate(toDay(date) + Math.ceil(after));
  const off = (after: number | null): number | null =>
    after === null ? null : round(daysOff(after, reached.days), 1);
  const forecast = {
    axle,
    forecastDate: date,
    readings,
    set,
    experience,
    earlyDate: dateAt(days.early),
    medianDate: dateAt(days.median),
    lateDate: dateAt(days.late),
    reachedDate: toFullDate(toDay(date) + Math.ceil(reached.days)),
    howKnown: reached.how,
    errorDays: off(days.median),
    errorKm: km.median === null ? null : roundKm(km.median - reached.km),
    inside80: sideOf(days, reached.days) === 'inside',
    twoPointErrorDays: off(twoPointDays),
    lineErrorDays: off(lineDays),
  };
  return { ...forecast, reasons: reasonsFor(forecast) };
}

const BEYOND = { code: 'beyond-30-years', detail: 'the date was more than 30 years ahead' };
const NO_LINE = { code: 'no-line', detail: 'there was no reading yet to draw a straight line through' };
const WHY_NULL: Record<string, { code: string; detail: string }> = {
  earlyDate: BEYOND,
  medianDate: BEYOND,
  lateDate: BEYOND,
  errorDays: BEYOND,
  errorKm: { code: 'beyond-forecast', detail: 'the forecast gave no distance' },
  twoPointErrorDays: NO_LINE,
  lineErrorDays: NO_LINE,
};

function reasonsFor(forecast: Record<string, unknown>): Reason[] {
  return Object.entries(WHY_NULL).flatMap(([field, why]) =>
    forecast[field] === null ? [{ field, ...why }] : [],
  );
}
