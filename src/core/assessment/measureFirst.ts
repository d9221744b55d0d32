import { toDay, toFullDate } from '../calendar.js';
import { daysAt, type Crossing } from '../forecast/crossing.js';
import { inWords } from '../rounding.js';
import { countInWords } from '../words.js';
import type { DecisionReason } from '../vocabulary/wear.js';
import { readingOverdue } from './calendarFindings.js';
import { dateInterval, expectedVisit } from './forecastDates.js';
import type { Outlook } from './outlookShape.js';
import type { Policy } from './policy.js';

/** Axles to measure before planning: their dates are too far apart to plan by, and a reading would narrow them. */

/**
 * Minimum chance of reaching the limit at which to measure; the risk of a dragging part alone accounts for some 2 %.
 */
const MIN_CHANCE = 0.05;

/**
 * Date from which to measure an axle whose dates are farther apart than the vehicle's visits, so that no single visit
 * is right for the work. Null if its dates are closer together or unknown.
 */
export function measureDateOf(
  crossing: Crossing,
  asAtDate: string,
  outlook: Pick<Outlook, 'rhythmDays' | 'policy'>,
): string | null {
  const { early, late } = dateInterval(crossing, asAtDate);
  const days = daysAt(crossing, MIN_CHANCE);
  if (early === null || days === null) return null;
  if (late !== null && late <= expectedVisit(early, outlook)) return null;
  return toFullDate(toDay(asAtDate) + days);
}

/**
 * Whether dates too far apart call for measuring an axle by the horizon. False if the vehicle is expected in time
 * anyway, since it can be measured at that visit.
 */
export function isToBeMeasured(
  measureDate: string | null,
  expectedDate: string,
  { today, horizon }: { today: string; horizon: string },
): boolean {
  if (measureDate === null || measureDate > horizon) return false;
  return expectedDate < today || expectedDate > measureDate;
}

/** An axle that may need measuring. */
export interface Unmeasured {
  measureDate: string | null;
  /** Expected date of the vehicle's next visit. */
  expectedDate: string | null;
  earlyDate: string | null;
  lateDate: string | null;
  lastReadingDate: string | null;
  /** Chance that the limit has been reached by the horizon. */
  chance: number;
}

/** Why to measure an axle before planning, in words; empty if there is no need. */
export function measureReasons(
  { measureDate, expectedDate, earlyDate, lateDate, lastReadingDate, chance }: Unmeasured,
  { today, horizon }: { today: string; horizon: string },
  policy: Pick<Policy, 'longestDaysWithoutReading'>,
): DecisionReason[] {
  const reasons: DecisionReason[] = [];
  const overdue = readingOverdue(lastReadingDate, today, policy);
  if (overdue) reasons.push({ code: overdue.code, detail: `${overdue.message} ${overdue.check}` });
  if (expectedDate && earlyDate && isToBeMeasured(measureDate, expectedDate, { today, horizon })) {
    const visit =
      expectedDate < today
        ? `The vehicle was expected on ${expectedDate}.`
        : `The next visit is expected on ${expectedDate}.`;
    const apart = lateDate ? countInWords(toDay(lateDate) - toDay(earlyDate), 'day') : 'more than 30 years';
    reasons.push({
      code: 'dates-too-far-apart',
      detail: `The early and late dates are ${apart} apart, longer than the time between visits. The chance that the limit is reached by ${horizon} is ${inWords(100 * chance, 1)} %. ${visit} Measure all linings of this axle: another reading narrows its dates.`,
    });
  }
  return reasons;
}
