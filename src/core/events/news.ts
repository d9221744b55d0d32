import type { AxleOutlook, Outlook } from '../assessment/outlookShape.js';
import { toDay } from '../calendar.js';
import type { Axle, NewsType } from '../vocabulary/terms.js';
import type { Finding } from '../vocabulary/wear.js';

/** Finds news in a vehicle's outlook: what it reports and the previous one did not. */

/**
 * Why an outlook was recomputed: something was recorded, a file was imported, the owner changed the settings, the
 * experience was fitted again, or a newer program computes it differently.
 */
export type Cause = 'history' | 'import' | 'settings' | 'experience' | 'program';

/**
 * The reading events that each cause may raise; any cause may raise a due event. Only a new reading can contradict its
 * forecast; a fit or a newer program moves dates but leaves readings and limits unchanged.
 */
const RAISED_BY: Record<Cause, readonly NewsType[]> = {
  history: ['limit.passed', 'reading.off_forecast'],
  import: ['limit.passed'],
  settings: ['limit.passed'],
  experience: [],
  program: [],
};

/** Whether a cause may raise reading events at all. */
export const tellsOfReadings = (cause: Cause): boolean => RAISED_BY[cause].length > 0;

/** Findings of a reading at or past its limit, and those of one too close to the limit to tell. */
const LIMIT_CODES: ReadonlyMap<string, { tooCloseToTell: boolean }> = new Map([
  ['pad-at-limit', { tooCloseToTell: false }],
  ['pad-too-close-to-limit', { tooCloseToTell: true }],
  ['rotor-under-discard', { tooCloseToTell: false }],
  ['rotor-too-close-to-discard', { tooCloseToTell: true }],
  ['drum-over-maximum', { tooCloseToTell: false }],
  ['drum-too-close-to-maximum', { tooCloseToTell: true }],
  ['metal-on-metal', { tooCloseToTell: false }],
  ['pad-too-close-to-zero', { tooCloseToTell: true }],
  ['pad-repeat-at-limit', { tooCloseToTell: false }],
  ['pad-failed-before', { tooCloseToTell: false }],
  ['rotor-repeat-under-discard', { tooCloseToTell: false }],
  ['rotor-failed-before', { tooCloseToTell: false }],
  ['drum-repeat-over-maximum', { tooCloseToTell: false }],
  ['drum-failed-before', { tooCloseToTell: false }],
]);
/** Codes that mean the same state of a place, so that it is reported only once. */
const SAME_STATE: ReadonlyMap<string, string> = new Map([
  ['metal-on-metal', 'pad-at-limit'],
  ['pad-repeat-at-limit', 'pad-at-limit'],
  ['pad-failed-before', 'pad-at-limit'],
  ['rotor-repeat-under-discard', 'rotor-under-discard'],
  ['rotor-failed-before', 'rotor-under-discard'],
  ['drum-repeat-over-maximum', 'drum-over-maximum'],
  ['drum-failed-before', 'drum-over-maximum'],
]);
const OFF_FORECAST = 'reading-off-forecast';

interface ReadingNews {
  axle: Axle;
  finding: Finding;
  /** The date of the reading behind the finding. */
  readingDate: string | null;
  /** Identifies a state of a place, so that it is reported only once. */
  key: string;
}

export type News =
  | (ReadingNews & { type: 'limit.passed'; tooCloseToTell: boolean })
  | (ReadingNews & { type: 'reading.off_forecast' });

/** A visit older than this is history being entered, not current news. */
const RECENT_DAYS = 31;

/**
 * Whether a write added a newest visit that is already old. Typing in years of records passes through states that are
 * long past; only the final state is worth reporting, at the next daily check.
 */
export function isBacklog(before: Outlook | null, after: Outlook, today: string): boolean {
  const newest = after.asAt?.date;
  if (newest === undefined || newest === before?.asAt?.date) return false;
  return toDay(today) - toDay(newest) > RECENT_DAYS;
}

/** The limits and forecasts that an outlook would report, as keys of its news. */
export const standingIn = (outlook: Outlook | null): string[] =>
  (outlook?.axles ?? []).flatMap((axle) => standing(axle).map(({ key }) => key));

/**
 * Limits passed and forecasts contradicted after a change but not before it.
 *
 * @param before the state before, by {@link standingIn}
 */
export function newsOf(before: readonly string[], after: Outlook, cause: Cause): News[] {
  return after.axles
    .flatMap(standing)
    .filter(({ type, key }) => RAISED_BY[cause].includes(type) && !before.includes(key))
    .filter(({ type, readingDate }) => type !== 'reading.off_forecast' || readingDate === after.asAt?.date);
}

/** An axle's reportable findings, each with a key of its place and state. */
function standing(axleOutlook: AxleOutlook): News[] {
  const { axle, findings } = axleOutlook;
  const news = findings.flatMap((finding): News[] => {
    const { code, side, pad, numbers } = finding;
    const readingDate = dateOfReading(axleOutlook, finding);
    const limit = LIMIT_CODES.get(code);
    if (limit) {
      const key = JSON.stringify([axle, side, pad, SAME_STATE.get(code) ?? code]);
      return [{ type: 'limit.passed', axle, finding, readingDate, key, ...limit }];
    }
    if (code !== OFF_FORECAST) return [];
    const key = JSON.stringify([axle, side, pad, code, readingDate, numbers.readingMm]);
    return [{ type: 'reading.off_forecast', axle, finding, readingDate, key }];
  });
  return news.filter(({ key }, index) => news.findIndex((other) => other.key === key) === index);
}

function dateOfReading({ pads, rotors, drums }: AxleOutlook, { side, pad }: Finding): string | null {
  const lining = pads.find((each) => each.side === side && each.pad === pad);
  if (lining) return lining.latest?.date ?? null;
  return [...rotors, ...drums].find((each) => each.side === side)?.latestDate ?? null;
}
