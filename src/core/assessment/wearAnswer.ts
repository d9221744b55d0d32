import { itemAt } from '../items.js';
import { toDay, toFullDate } from '../calendar.js';
import type { Crossing } from '../forecast/crossing.js';
import type { Reason } from '../vocabulary/quantities.js';
import type { AxleWear, Finding, Replacement, UntilNextVisit, Wear } from '../vocabulary/wear.js';
import { countInWords } from '../words.js';
import { adviceOn } from './advice.js';
import { adviceFacts, liningName, type AdviceFacts } from './adviceFacts.js';
import { calendarFindings } from './calendarFindings.js';
import { byWeight } from './findings.js';
import { dateInterval, isOverdue, chanceBy, expectedVisit } from './forecastDates.js';
import { isToBeMeasured, measureDateOf } from './measureFirst.js';
import type { AxleOutlook, Outlook } from './outlookShape.js';

/** The parts of an axle's and a vehicle's answer that depend on the date. */
export type OpenAxle = Pick<
  AxleOutlook,
  'axle' | 'crossing' | 'counterparts' | 'failing' | 'findings' | 'lastReadingDate' | 'slides'
> & {
  facts: AdviceFacts;
  reasons: readonly Reason[];
  /** The reason added once the axle is overdue; null if a failing reading already is the reason. */
  overdueReason: Reason | null;
};

/** The parts of an axle's outlook that an answer needs every day. */
export function openAxle(outlook: AxleOutlook): OpenAxle {
  const { axle, crossing, counterparts, failing, findings, lastReadingDate, slides, replacement } = outlook;
  const stored = { axle, crossing, counterparts, failing, findings, lastReadingDate, slides };
  return {
    ...stored,
    facts: adviceFacts(outlook),
    reasons: replacement.reasons,
    overdueReason: overdueReasonOf(outlook),
  };
}

/** Why an axle is overdue although no reading is at or under its limit. */
function overdueReasonOf({ pads, drums, failing }: AxleOutlook): Reason | null {
  const known = pads.filter(({ remainingMm }) => remainingMm !== null);
  if (failing || known.length === 0) return null;
  const name = liningName({ drums });
  const [only] = known.length === 1 ? known : [];
  const one = only?.side === null ? `the thinnest ${name}` : `the ${name}`;
  // The thinnest of the axle or of a wheel is one of its named linings.
  const named = known.filter(({ pad }) => pad !== 'thinnest');
  const count = named.length > 0 ? named.length : known.length;
  const which = only ? one : `one of the ${countInWords(count, name)}`;
  const detail = `${which} has probably reached its limit, although no reading is at or below it; measure again`;
  return { field: 'overdue', code: 'limit-probably-reached', detail };
}

export interface OpenOutlook extends Pick<Outlook, 'asAt' | 'rhythmDays' | 'policy'> {
  axles: OpenAxle[];
}

/** The date of the answer, and the next visit's date if the caller names one. */
export interface Question {
  today: string;
  until: string | null;
}

/** The answer on one day: the outlook, plus what depends on today's date. */
export const wearAnswer = (vehicleId: string, outlook: Outlook, question: Question): Wear =>
  wearAnswerWith(
    vehicleId,
    outlook,
    outlook.axles.map((axle) => axleWear(axle, outlook, question)),
  );

/** The answer, given its axles’ parts. */
export function wearAnswerWith(vehicleId: string, outlook: Outlook, axles: AxleWear[]): Wear {
  const { asAt, usage, cautions } = outlook;
  return {
    vehicleId,
    usage,
    asAt,
    axles,
    cautions,
    reasons: wearReasons(outlook),
  };
}

function wearReasons({ asAt, isOdometerDoubted }: Outlook): Reason[] {
  if (!asAt) return [{ field: 'asAt', code: 'no-visits', detail: 'no visit has been recorded yet' }];
  if (asAt.odometerKm !== null) return [];
  const why = isOdometerDoubted
    ? 'the odometer reading of the latest visit is doubtful'
    : 'the odometer was not read at the latest visit';
  const detail = `${why}; distances count from a position estimated by date`;
  return [{ field: 'asAt.odometerKm', code: 'odometer-not-read', detail }];
}

/** An axle’s part of the answer. */
export const axleWear = (axle: AxleOutlook, outlook: Outlook, question: Question): AxleWear =>
  axleWearWith(axle, outlook, onDay(openAxle(axle), outlook, question));

/** An axle’s part of the answer, given what depends on the date. */
export function axleWearWith(axleOutlook: AxleOutlook, { asAt }: Outlook, day: AxleOnDay): AxleWear {
  const { axle, pads, replacement, crossing, rotors, drums } = axleOutlook;
  const { governingPad, limitMm, distanceKm, basis } = replacement;
  const { advice, overdue, untilNextVisit, reasons, counterparts, findings } = day;
  return {
    axle,
    advice,
    pads,
    replacement: {
      governingPad,
      limitMm,
      distanceKm,
      date: crossing && asAt ? dateInterval(crossing, asAt.date) : null,
      overdue,
      basis,
      untilNextVisit,
      reasons,
    },
    rotors: rotors.map((rotor, index) => ({ ...rotor, untilNextVisit: itemAt(counterparts, index) })),
    drums: drums.map((drum, index) => ({ ...drum, untilNextVisit: itemAt(counterparts, index) })),
    findings,
  };
}

/** The parts of an axle's answer that depend on the date; `counterparts` has one entry per rotor or drum. */
export interface AxleOnDay
  extends Pick<AxleWear, 'advice' | 'findings'>, Pick<Replacement, 'overdue' | 'untilNextVisit' | 'reasons'> {
  counterparts: UntilNextVisit[];
}

export function onDay(axle: OpenAxle, outlook: Omit<OpenOutlook, 'axles'>, question: Question): AxleOnDay {
  const { crossing, counterparts, failing, facts, reasons, overdueReason } = axle;
  const { asAt, policy } = outlook;
  const { today } = question;
  const dates = crossing && asAt ? dateInterval(crossing, asAt.date) : null;
  const overdue = isOverdue(failing, dates?.median ?? null, today);
  const next = untilNextVisit(crossing, outlook, question);
  const findings = byWeight([...axle.findings, ...calendarFindings(axle, outlook, today)]);
  const advice = adviceOn(axle.axle, facts, {
    today,
    asAtDate: asAt?.date ?? null,
    liningDates: dates,
    counterpartDates: counterparts.first && asAt && dateInterval(counterparts.first, asAt.date),
    overdue,
    untilNextVisit: next,
    chanceToday: crossing && asAt ? chanceBy(crossing, asAt.date, today) : null,
    counterpartChance: counterparts.first && asAt ? chanceBy(counterparts.first, asAt.date, next.date) : null,
    findings,
    measureFirst: wantsMeasuring(axle, outlook, findings, today),
    dueSoonDays: policy.dueSoonDays,
  });
  return {
    advice,
    overdue,
    untilNextVisit: next,
    reasons: overdue && overdueReason ? [...reasons, overdueReason] : [...reasons],
    counterparts: counterparts.crossings.map((each) => untilNextVisit(each, outlook, question)),
    findings,
  };
}

/** Whether an axle that is not due belongs in the measure-first report. */
function wantsMeasuring(
  { crossing }: OpenAxle,
  outlook: Omit<OpenOutlook, 'axles'>,
  findings: readonly Finding[],
  today: string,
): boolean {
  if (findings.some(({ code }) => code === 'reading-overdue')) return true;
  const { asAt, policy } = outlook;
  if (!crossing || !asAt) return false;
  const measureDate = measureDateOf(crossing, asAt.date, outlook);
  const horizon = toFullDate(toDay(today) + policy.dueSoonDays);
  return isToBeMeasured(measureDate, expectedVisit(asAt.date, outlook), { today, horizon });
}

/**
 * The next visit: the requested date, else by the vehicle's own interval, else by the shop's; today if that is past.
 */
function untilNextVisit(
  crossing: Crossing | null,
  outlook: Omit<OpenOutlook, 'axles'>,
  { today, until }: Question,
): UntilNextVisit {
  const { asAt, rhythmDays } = outlook;
  const expected = expectedVisit(asAt?.date ?? today, outlook);
  const date = until ?? (expected < today ? today : expected);
  const dateSource = until ? 'until' : rhythmDays === null ? 'policy' : 'rhythm';
  return {
    date,
    dateSource,
    chanceLimitReached: crossing && asAt ? chanceBy(crossing, asAt.date, date) : null,
  };
}
