import { toDay, toFullDate } from '../calendar.js';
import { daysAt, type Crossing } from '../forecast/crossing.js';
import { inWords } from '../rounding.js';
import type { DecisionReason } from '../vocabulary/wear.js';
import { readingOverdue } from './calendarFindings.js';
import { dateInterval, expectedVisit } from './forecastDates.js';
import type { Outlook } from './outlookShape.js';
import type { Policy } from './policy.js';

/**
 * Axles that are better measured than planned for: their dates are no help to whoever plans, and one reading would
 * make them so.
 */

/** The least chance of reaching the limit that is worth a look; any part may begin to drag, which alone comes to some 2 %. */
const WORTH_A_LOOK = 0.05;

/**
 * From when on an axle is worth a look because its dates lie too far apart to plan by: farther than its vehicle's
 * visits, so that no visit is the right one for the work. Null where they do not, or nobody can tell.
 */
export function measureDateOf(
  crossing: Crossing,
  asAtDate: string,
  outlook: Pick<Outlook, 'rhythmDays' | 'policy'>,
): string | null {
  const { early, late } = dateInterval(crossing, asAtDate);
  const days = daysAt(crossing, WORTH_A_LOOK);
  if (early === null || days === null) return null;
  if (late !== null && late <= expectedVisit(early, outlook)) return null;
  return toFullDate(toDay(asAtDate) + days);
}

/** Whether dates too far apart make an axle worth measuring by a horizon; a vehicle that comes as expected is measured then. */
export function isToBeMeasured(
  measureDate: string | null,
  expectedDate: string,
  { today, horizon }: { today: string; horizon: string },
): boolean {
  if (measureDate === null || measureDate > horizon) return false;
  return expectedDate < today || expectedDate > measureDate;
}

/** What is known of an axle that may want measuring. */
export interface Unmeasured {
  measureDate: string | null;
  /** When its vehicle is next here by its visits. */
  expectedDate: string | null;
  earlyDate: string | null;
  lateDate: string | null;
  lastReadingDate: string | null;
  /** That its limit has been reached by the horizon. */
  chance: number;
}

/** Why an axle is better measured than planned for, in words; empty where it is not. */
export function measureReasons(
  { measureDate, expectedDate, earlyDate, lateDate, lastReadingDate, chance }: Unmeasured,
  { today, horizon }: { today: string; horizon: string },
  policy: Pick<Policy, 'longestDaysWithoutReading'>,
): DecisionReason[] {
  const reasons: DecisionReason[] = [];
  const overdue = readingOverdue(lastReadingDate, today, policy);
  if (overdue) reasons.push({ code: overdue.code, detail: `${overdue.message} ${overdue.check}` });
  if (isToBeMeasured(measureDate, expectedDate!, { today, horizon })) {
    const visit =
      expectedDate! < today ? `was to be here on ${expectedDate}` : `is next here on ${expectedDate}`;
    const apart = lateDate ? `${toDay(lateDate) - toDay(earlyDate!)} days` : 'more than 30 years';
    reasons.push({
      code: 'dates-too-far-apart',
      detail: `Early and late date are ${apart} apart, longer than the time between its visits, and the chance that the limit is reached by ${horizon} is ${inWords(100 * chance, 1)} % already; by its visits it ${visit}. Measure all linings of this axle: another reading brings its dates closer together.`,
    });
  }
  return reasons;
}
