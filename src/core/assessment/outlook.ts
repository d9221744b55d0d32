import { toDay, toFullDate } from '../calendar.js';
import type { Crossing } from '../forecast/crossing.js';
import { chanceWithin, daysAt, type KeptProbability } from '../forecast/crossing.js';
import type { Experience } from '../forecast/experience.js';
import { usageOn } from '../forecast/days.js';
import { paceQuantile, type UsagePosterior } from '../forecast/usage.js';
import { ONE_JOB_DAYS, type History, type HistoryVisit } from '../history.js';
import { layRoad, type Road } from '../odometer.js';
import { round, roundChance } from '../rounding.js';
import type { Reason } from '../vocabulary/quantities.js';
import { AXLES, type Axle } from '../vocabulary/terms.js';
import type {
  AsAt,
  AxleWear,
  Caution,
  DateInterval,
  Finding,
  PadWear,
  Replacement,
  UntilNextVisit,
  Usage,
  Wear,
} from '../vocabulary/wear.js';
import { adviceFacts, adviceOn, type AdviceFacts } from './advice.js';
import { axleOutlook, type LiningContext } from './axle.js';
import { calendarFindings } from './calendarFindings.js';
import { cautionsFor } from './cautions.js';
import type { CounterpartDates } from './counterpartDates.js';
import { byWeight, rearFaster } from './findings.js';
import { isToBeMeasured, measureDateOf } from './measureFirst.js';
import type { Policy } from './policy.js';
import { roadTestFindings } from './roadTestFindings.js';
import { noOdometer } from './reasons.js';
import type { DrumOutlook, RotorOutlook, RotorRenewal } from './rotors.js';
import { ruleSetsNamed } from './ruleSets.js';
import { usageFindings } from './usageFindings.js';

/** What was worked out of one axle when its history last changed; what depends on today's date is left open. */
export interface AxleOutlook {
  axle: Axle;
  pads: PadWear[];
  replacement: Pick<Replacement, 'governingPad' | 'limitMm' | 'distanceKm' | 'basis' | 'reasons'>;
  limitSource: string | null;
  crossing: Crossing | null;
  /** Whether a latest reading fails its governing limit. */
  failing: boolean;
  lastReadingDate: string | null;
  rotors: RotorOutlook[];
  drums: DrumOutlook[];
  counterparts: CounterpartDates;
  rotorRenewal: RotorRenewal;
  findings: Finding[];
  /** Since when its slides have gone without service, and how long they may; null where nothing tells. */
  slides: { since: string; allowedDays: number } | null;
}

/** What was worked out of one vehicle when its history last changed. */
export interface Outlook {
  usage: Usage;
  asAt: AsAt | null;
  /** Days between its visits; null where it has no rhythm. */
  rhythmDays: number | null;
  axles: AxleOutlook[];
  cautions: Caution[];
  /** What of the policy it was worked out under answers need. */
  policy: Pick<Policy, 'visitIntervalDays' | 'longestDaysWithoutReading' | 'dueSoonDays'>;
}

/** What of an axle and of a vehicle the day on which it is asked for decides. */
export type OpenAxle = Pick<
  AxleOutlook,
  'axle' | 'crossing' | 'counterparts' | 'failing' | 'findings' | 'lastReadingDate' | 'slides'
> & { facts: AdviceFacts };
export interface OpenOutlook extends Pick<Outlook, 'asAt' | 'rhythmDays' | 'policy'> {
  axles: OpenAxle[];
}

export type ExperienceFor = (axle: Axle) => Experience;

/** An outlook to be worked out axle by axle, each apart from the others. */
export interface OutlookInParts {
  axle: (axle: Axle) => AxleOutlook;
  /** The outlook, of those of all its axles in their order. */
  whole: (outlooks: readonly AxleOutlook[]) => Outlook;
}

/** Works out a vehicle's outlook from everything known of it. Needs no clock: it holds until the history changes. */
export function outlookFor(history: History, experienceFor: ExperienceFor, policy: Policy): Outlook {
  const { axle, whole } = outlookInParts(history, experienceFor, policy);
  return whole(axlesOf(history).map(axle));
}

export function outlookInParts(
  history: History,
  experienceFor: ExperienceFor,
  policy: Policy,
): OutlookInParts {
  const latest = history.visits.at(-1);
  const rhythmDays = rhythmOf(history);
  const linings = liningContext(history, experienceFor, policy);
  const { road, usage } = linings;
  const context = { ...linings, daysToNextVisit: rhythmDays ?? policy.visitIntervalDays };
  return {
    axle: (axle) => axleOutlook(context, axle, experienceFor(axle)),
    whole: (outlooks) => ({
      usage: road.isByDistance
        ? { kmPerDay: kmPerDay(usage), reasons: [] }
        : { kmPerDay: null, reasons: [noOdometer('kmPerDay')] },
      asAt: latest ? asAtOf(latest, road) : null,
      rhythmDays,
      axles: withFindings(withFasterRear(outlooks), [
        ...roadTestFindings(history),
        ...usageFindings(road, usage),
      ]),
      cautions: cautionsFor(history.vehicle, {
        done: latest?.work.map(({ kind }) => kind) ?? [],
        renewal: outlooks.some((axle) => isRenewalAtHand(axle, context.daysToNextVisit)),
      }),
      policy: {
        visitIntervalDays: policy.visitIntervalDays,
        longestDaysWithoutReading: policy.longestDaysWithoutReading,
        dueSoonDays: policy.dueSoonDays,
      },
    }),
  };
}

export const axlesOf = ({ vehicle }: History): Axle[] => AXLES.filter((axle) => vehicle.axles[axle]);

/** What the linings of each axle of a vehicle are forecast from. */
export function liningContext(history: History, experienceFor: ExperienceFor, policy: Policy): LiningContext {
  const road = layRoad(history);
  return {
    history,
    road,
    usage: usageOn(road, experienceFor(axlesOf(history)[0]!)),
    ruleSets: ruleSetsNamed(policy.ruleSets),
    padMinimum: policy.padMinimumMm,
  };
}

/** Whether linings or rotors want renewing by the next visit, more likely than not. */
function isRenewalAtHand(
  { failing, crossing, rotors, drums }: AxleOutlook,
  daysToNextVisit: number,
): boolean {
  return (
    failing ||
    (crossing !== null && chanceWithin(crossing, daysToNextVisit) >= 0.5) ||
    [...rotors, ...drums].some(({ decision }) => decision === 'replace' || decision === 'machine')
  );
}

/** The latest visit; its odometer where it was read and is believed. */
function asAtOf({ id, date, odometer }: HistoryVisit, { doubted }: Road): AsAt {
  const isDoubted = doubted.some(({ visitId, field }) => visitId === id && field === 'odometer');
  return { date, odometerKm: odometer && !isDoubted ? odometer.km : null };
}

/** The axles, with findings on the whole vehicle said on the first. */
function withFindings(axles: readonly AxleOutlook[], findings: readonly Finding[]): AxleOutlook[] {
  if (findings.length === 0) return [...axles];
  return axles.map((axle, index) =>
    index === 0 ? { ...axle, findings: byWeight([...axle.findings, ...findings]) } : axle,
  );
}

/** The axles, with a finding on the rear one where its pads wear faster than the front's. */
function withFasterRear(axles: readonly AxleOutlook[]): AxleOutlook[] {
  const front = axles.find(({ axle }) => axle === 'front');
  return axles.map((axle) =>
    axle.axle === 'rear' && front
      ? { ...axle, findings: byWeight([...axle.findings, ...rearFaster(front.pads, axle.pads)]) }
      : axle,
  );
}

const kmPerDay = (usage: UsagePosterior) => ({
  low: round(paceQuantile(usage, 0.1), 2),
  median: round(paceQuantile(usage, 0.5), 2),
  high: round(paceQuantile(usage, 0.9), 2),
});

const VISITS_IN_RHYTHM = 6;

/** The median number of days between the latest visits, from three visits on. */
function rhythmOf({ visits }: History): number | null {
  const days: number[] = [];
  for (const visit of visits) {
    const day = toDay(visit.date);
    if (days.length === 0 || day - days.at(-1)! >= ONE_JOB_DAYS) days.push(day);
  }
  if (days.length < 3) return null;
  const gaps = days.slice(1).map((day, index) => day - days[index]!);
  const recent = gaps.slice(-VISITS_IN_RHYTHM).sort((a, b) => a - b);
  const middle = Math.floor(recent.length / 2);
  return recent.length % 2 === 1 ? recent[middle]! : Math.round((recent[middle - 1]! + recent[middle]!) / 2);
}

/** What a wear answer is asked for: on which day, and until when where its caller names a date. */
export interface Question {
  today: string;
  until: string | null;
}

/** The answer on one day: the outlook, with what depends on today's date. */
export function wearAnswer(vehicleId: string, outlook: Outlook, question: Question): Wear {
  const { asAt } = outlook;
  return {
    vehicleId,
    usage: outlook.usage,
    asAt,
    axles: outlook.axles.map((axle) => axleWear(axle, outlook, question)),
    cautions: outlook.cautions,
    reasons: wearReasons(asAt),
  };
}

function wearReasons(asAt: AsAt | null): Reason[] {
  if (!asAt) return [{ field: 'asAt', code: 'no-visits', detail: 'no visit has been recorded yet' }];
  if (asAt.odometerKm !== null) return [];
  const detail =
    'the odometer was not read at the latest visit, or its reading is doubted; distances count from where the visit’s date puts it';
  return [{ field: 'asAt.odometerKm', code: 'odometer-not-read', detail }];
}

/** An axle’s part of the answer. */
export function axleWear(axleOutlook: AxleOutlook, outlook: Outlook, question: Question): AxleWear {
  const { axle, pads, replacement, crossing, rotors, drums } = axleOutlook;
  const { governingPad, limitMm, distanceKm, basis, reasons } = replacement;
  const open = { ...axleOutlook, facts: adviceFacts(axleOutlook) };
  const { advice, overdue, untilNextVisit, counterparts, findings } = onDay(open, outlook, question);
  return {
    axle,
    advice,
    pads,
    replacement: {
      governingPad,
      limitMm,
      distanceKm,
      date: crossing && outlook.asAt ? dateInterval(crossing, outlook.asAt.date) : null,
      overdue,
      basis,
      untilNextVisit,
      reasons,
    },
    rotors: rotors.map((rotor, index) => ({ ...rotor, untilNextVisit: counterparts[index]! })),
    drums: drums.map((drum, index) => ({ ...drum, untilNextVisit: counterparts[index]! })),
    findings,
  };
}

/** What the day decides of an axle’s part of the answer; `counterparts` is of each rotor or drum. */
interface AxleOnDay
  extends Pick<AxleWear, 'advice' | 'findings'>, Pick<Replacement, 'overdue' | 'untilNextVisit'> {
  counterparts: UntilNextVisit[];
}

export function onDay(axle: OpenAxle, outlook: Omit<OpenOutlook, 'axles'>, question: Question): AxleOnDay {
  const { crossing, counterparts, failing, facts } = axle;
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

/** The dates of a crossing: the first day on which the chance is at least that of each point; null beyond 30 years. */
export function dateInterval(crossing: Crossing, asAtDate: string): DateInterval {
  const at = (probability: KeptProbability): string | null => {
    const days = daysAt(crossing, probability);
    return days === null ? null : toFullDate(toDay(asAtDate) + days);
  };
  return {
    early: at(0.1),
    lowerQuartile: at(0.25),
    median: at(0.5),
    upperQuartile: at(0.75),
    late: at(0.9),
  };
}

/** Before any date that is given. */
export const ALWAYS = '0000-01-01';

/** From when on an axle is overdue: always where a reading fails its limit, else from when it is more likely than not. */
export const overdueFrom = (failing: boolean, medianDate: string | null): string | null =>
  failing ? ALWAYS : medianDate;

/** Overdue: a reading fails its limit, or more likely than not the limit has been reached by today. */
export function isOverdue(failing: boolean, medianDate: string | null, today: string): boolean {
  const from = overdueFrom(failing, medianDate);
  return from !== null && from <= today;
}

/** Chance that an axle's limit has been reached by a date. */
export function chanceBy(crossing: Crossing, asAtDate: string, date: string): number {
  return roundChance(chanceWithin(crossing, toDay(date) - toDay(asAtDate)));
}

/** When a vehicle that was here on a date is next here: by its rhythm, else by the shop's interval. */
export function expectedVisit(
  from: string,
  { rhythmDays, policy }: Pick<Outlook, 'rhythmDays' | 'policy'>,
): string {
  return toFullDate(toDay(from) + (rhythmDays ?? policy.visitIntervalDays));
}

/** The next visit: the date asked for, else the vehicle's rhythm, else the shop's interval; today where that is past. */
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
