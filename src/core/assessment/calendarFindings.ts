import { toDay } from '../calendar.js';
import type { History } from '../history.js';
import type { Axle } from '../vocabulary/terms.js';
import { countInWords } from '../words.js';
import type { Finding } from '../vocabulary/wear.js';
import { isRegenerative } from './cautions.js';
import type { AxleOutlook, Outlook } from './outlookShape.js';
import type { Policy } from './policy.js';

/**
 * Maximum days between services of the slides; fewer with regenerative braking, which leaves the friction brakes little
 * work (common practice, no source).
 */
const SLIDES_DAYS = 730;
const SLIDES_DAYS_REGENERATIVE = 365;

/** The date of the last recorded service of the axle's slides, else of the first visit; and the days allowed. */
export function slidesOf({ vehicle, visits }: History, axle: Axle): AxleOutlook['slides'] {
  if (vehicle.axles[axle]?.brake === 'drum') return null;
  const serviced = visits.filter(({ work }) =>
    work.some(
      (item) => item.axle === axle && (item.kind === 'slides-serviced' || item.kind === 'caliper-replaced'),
    ),
  );
  const since = (serviced.at(-1) ?? visits[0])?.date;
  if (since === undefined) return null;
  return { since, allowedDays: isRegenerative(vehicle) ? SLIDES_DAYS_REGENERATIVE : SLIDES_DAYS };
}

/** Findings that depend only on the date of the answer. */
export function calendarFindings(
  { axle, slides, lastReadingDate }: Pick<AxleOutlook, 'axle' | 'slides' | 'lastReadingDate'>,
  { policy, asAt }: Pick<Outlook, 'policy' | 'asAt'>,
  today: string,
): Finding[] {
  const findings: Finding[] = [];
  const daysSince = (date: string): number => toDay(today) - toDay(date);
  const note = { axle, side: null, pad: null };
  if (slides && asAt && daysSince(slides.since) > slides.allowedDays) {
    const days = daysSince(slides.since);
    findings.push({
      ...note,
      code: 'slides-not-serviced',
      severity: 'note',
      message: `No slide service is recorded since ${slides.since}, ${countInWords(days, 'day')} ago. Common practice for this vehicle is every ${countInWords(slides.allowedDays, 'day')}.`,
      check: 'Clean and lubricate the slides, check pins and boots, and record the service.',
      numbers: { days, allowedDays: slides.allowedDays },
    });
  }
  const overdue = readingOverdue(lastReadingDate, today, policy);
  if (overdue) findings.push({ ...note, ...overdue, severity: 'check' });
  return findings;
}

/** The finding for an axle unmeasured for longer than the policy allows; null otherwise. */
export function readingOverdue(
  lastReadingDate: string | null,
  today: string,
  { longestDaysWithoutReading: longestDays }: Pick<Policy, 'longestDaysWithoutReading'>,
): Pick<Finding, 'code' | 'message' | 'check' | 'numbers'> | null {
  if (lastReadingDate === null) return null;
  const days = toDay(today) - toDay(lastReadingDate);
  if (days <= longestDays) return null;
  return {
    code: 'reading-overdue',
    message: `Last measured on ${lastReadingDate}, ${countInWords(days, 'day')} ago; the shop measures at least every ${countInWords(longestDays, 'day')}.`,
    check: 'Measure all linings of this axle before you rely on its dates.',
    numbers: { days, longestDays },
  };
}
