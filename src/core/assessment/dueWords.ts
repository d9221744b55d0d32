import type { Axle, DuePart, LimitSource, LiningNames } from '../vocabulary/terms.js';
import { beforeInWords, limitInWords, onAxle } from '../words.js';

/** The wording for a due part that calendars, webhooks and lists share. */

export interface DueInReport {
  axle: Axle;
  part: DuePart;
  overdue: boolean;
  earlyDate: string | null;
  lateDate: string | null;
  linings: LiningNames;
  limitMm: number | null;
  limitSource: string | null;
}

/** `pads`, `shoes`, `rotors`, `drums`. */
export const dueNames = ({ part, linings }: Pick<DueInReport, 'part' | 'linings'>): string =>
  part === 'pads' ? linings : part;

/** `fit front pads`, `replace both rotors on axle 2`. */
export function dueWork(due: Pick<DueInReport, 'axle' | 'part' | 'linings'>): string {
  const what = onAxle(dueNames(due), due.axle);
  return due.part === 'pads' ? `fit ${what}` : `replace both ${what}`;
}

/** `now`, `at the first chance`, `before 16 December 2026`. */
export function dueWhen({ overdue, earlyDate, lateDate }: DueInReport, today: string): string {
  if (overdue) return 'now';
  if (earlyDate === null) return 'in time';
  return earlyDate <= today
    ? 'at the first chance'
    : `before ${beforeInWords(earlyDate, { early: earlyDate, late: lateDate }, today)}`;
}

/** `3 mm (wear indicator)`. */
export const dueLimit = ({ limitMm, limitSource }: Pick<DueInReport, 'limitMm' | 'limitSource'>): string =>
  limitMm === null ? 'its limit' : limitInWords(limitMm, limitSource as LimitSource | null);
