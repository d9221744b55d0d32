import { least } from 'd3-array';
import { itemAt } from '../items.js';
import { toDay, toFullDate } from '../calendar.js';
import type { Advice, DateInterval, Finding, RotorWear } from '../vocabulary/wear.js';
import {
  beforeInWords,
  capital,
  chanceInWords,
  dateInWords,
  forecastInWords,
  limitInWords,
  mmInWords,
  nearDateInWords,
  readingInWords,
} from '../words.js';
import type { AdviceDay, AdviceFacts, CounterpartFact, LiningFact } from './adviceFacts.js';
import type { LiningAt } from './linings.js';

/** Sentences that several kinds of advice share. */

export type Level = 'now' | 'first-chance' | 'before' | 'later' | 'none';

/** The advice before its checks and its rotor line, which are the same for every kind of advice. */
export type Lead = Pick<Advice, 'action' | 'part' | 'by' | 'words' | 'status' | 'urgency'> & {
  why: string[];
  /** Findings that the sentence already mentions. */
  mentioned: readonly Finding[];
  /** Whether the sentence already mentions the rotors or drums. */
  mentionsCounterparts: boolean;
};

/** The date of the vehicle's next visit; if that is overdue, the shop's horizon. */
export const nextVisitBy = ({ today, untilNextVisit, dueSoonDays }: AdviceDay): string =>
  untilNextVisit.date > today ? untilNextVisit.date : toFullDate(toDay(today) + dueSoonDays);

export function levelOf(dates: DateInterval | null, day: AdviceDay): Level {
  if (!dates?.early) return 'none';
  if (dates.median !== null && dates.median <= day.today) return 'now';
  if (dates.early <= day.today) return 'first-chance';
  return dates.early <= nextVisitBy(day) ? 'before' : 'later';
}

export const isBefore = (a: DateInterval | null, b: DateInterval | null): boolean =>
  a?.early != null && (b?.early == null || a.early < b.early);

/** `Left inner`; `Left shoe` for the thinner one of a wheel, `Thinnest pad` for that of the axle. */
export function nameOf({ side, pad }: LiningAt, { linings }: Pick<AdviceFacts, 'linings'>): string {
  const one = linings === 'pads' ? 'pad' : 'shoe';
  return capital(pad === 'thinnest' ? `${side ?? pad} ${one}` : `${side} ${pad}`);
}

/** `Left inner 3.7 mm on 21 November, limit 3 mm (wear indicator).` */
export function liningLine(lining: LiningFact, facts: Pick<AdviceFacts, 'linings'>, today: string): string {
  const { latest, limitMm, source } = lining;
  const read = latest
    ? `${readingInWords(latest.valueMm, limitMm)} on ${nearDateInWords(latest.date, today)}`
    : 'not measured yet';
  return `${nameOf(lining, facts)} ${read}, limit ${limitInWords(limitMm, source)}.`;
}

/** What is due first on an axle without work to do yet, and the reading behind it. */
export function dueFirst(facts: AdviceFacts, { liningDates, counterpartDates, today }: AdviceDay): string {
  const { linings, part, governing, noDate } = facts;
  const line = governing ? ` ${liningLine(governing, facts, today)}` : '';
  const replace =
    counterpartDates?.early && isBefore(counterpartDates, liningDates)
      ? `Replace ${part} before ${beforeInWords(counterpartDates.early, counterpartDates, today)}`
      : null;
  if (liningDates?.early) {
    const before = `before ${beforeInWords(liningDates.early, liningDates, today)}`;
    return `${replace ? `${replace}, ${linings} ${before}` : `Fit ${linings} ${before}`}.${line}`;
  }
  const why =
    noDate?.code === 'beyond-30-years'
      ? `The ${linings} are not expected at their limit within 30 years at the present use.${line}`
      : whyUnknown(facts);
  return replace ? `${replace}. ${why}` : why;
}

/** When the linings are due if the rotors or drums come first: `Pads: fit before 25 February 2027; left inner …` */
export function liningsAfter(facts: AdviceFacts, { liningDates, today }: AdviceDay): string {
  const { linings, governing } = facts;
  const name = capital(linings);
  const line = governing ? `; ${unCapital(liningLine(governing, facts, today))}` : '.';
  if (liningDates?.early)
    return `${name}: fit before ${beforeInWords(liningDates.early, liningDates, today)}${line}`;
  if (facts.noDate?.code === 'beyond-30-years')
    return `${name}: not expected at their limit within 30 years${line}`;
  return `${name}: ${unCapital(whyUnknown(facts))}`;
}

const unCapital = (text: string): string => text.slice(0, 1).toLowerCase() + text.slice(1);

export function whyUnknown({ noDate, set, fitted }: AdviceFacts): string {
  if (noDate?.code !== 'no-readings') return `No forecast: ${noDate?.detail ?? 'too little is known'}.`;
  return set === 'recorded' && fitted
    ? `No forecast: not measured since they were fitted on ${dateInWords(fitted)}.`
    : 'No forecast: never measured.';
}

/** `It probably reached its limit about 1 August 2026.` If that was before the latest visit, the date is unknown. */
export function probably(dates: DateInterval | null, { asAtDate, today }: AdviceDay): string {
  if (!dates?.median) return '';
  if (dates.median === asAtDate)
    return `The forecast says that it had probably reached its limit by ${nearDateInWords(asAtDate, today)}.`;
  return `It probably reached its limit about ${forecastInWords(dates.median, dates)}.`;
}

/** `80 % chance of reaching it by the next visit, about 8 January.` */
export function chanceSentence(chance: number | null, day: AdviceDay): string {
  if (chance === null) return '';
  if (day.untilNextVisit.date <= day.today) return 'A visit was expected by now, but none is recorded.';
  return `${capital(chanceInWords(chance))} chance of reaching it ${byNextVisit(day)}.`;
}

export function byNextVisit({ today, untilNextVisit: { date, dateSource } }: AdviceDay): string {
  const on = dateSource === 'until' ? ' on' : ', about';
  return `by the next visit${on} ${nearDateInWords(date, today)}`;
}

/** `The left rotor was found scored.`, `The left rotor’s thickness varies by 0.03 mm, over its limit.` */
export function reasonInWords({ part }: AdviceFacts, { side, reason }: CounterpartFact): string {
  const name = `${side} ${part === 'rotors' ? 'rotor' : 'drum'}`;
  const [, subject, rest] = /^(it|its) (.*)$/s.exec(reason.detail) ?? [];
  if (subject === undefined) return `${capital(name)}: ${reason.detail}.`;
  return `The ${name}${subject === 'its' ? '’s' : ''} ${rest}.`;
}

/** Why rotors or drums are replaced with the linings. */
export function whyTogether(facts: AdviceFacts): string {
  const { part, linings, counterparts } = facts;
  const cause = counterparts.find(({ decision, reason }) => decision === 'replace' && reason.code !== 'pair');
  if (!cause) return '';
  return cause.reason.code === 'would-not-last'
    ? `The ${part} would not last another set of ${linings}.`
    : reasonInWords(facts, cause);
}

const EXTREMES = { rotors: 'above discard', drums: 'below the maximum' } as const;
const LIMITS = { rotors: 'discard', drums: 'maximum' } as const;

/** `Left rotor 26.30 mm on 27 February, discard 26 mm.`, for the rotor nearest its limit. */
export function counterpartReading({ part, counterparts }: AdviceFacts, today: string): string {
  const measured = counterparts.flatMap(({ side, latest, limitMm, marginMm }) =>
    latest && limitMm !== null && marginMm !== null ? [{ side, latest, limitMm, marginMm }] : [],
  );
  const nearest = least(measured, ({ marginMm }) => marginMm);
  if (!nearest) return '';
  const { side, latest, limitMm } = nearest;
  const one = part === 'rotors' ? 'rotor' : 'drum';
  return `${capital(side)} ${one} ${latest.valueMm.toFixed(2)} mm on ${nearDateInWords(latest.date, today)}, ${LIMITS[part]} ${mmInWords(limitMm, 2)}.`;
}

/** A margin below this, in mm, would be displayed as zero. */
const AT_LIMIT_MM = 0.05;

/** What to do with the rotors or drums, in one sentence. */
export function counterpartLine({ part, linings, counterparts }: AdviceFacts): string | null {
  if (counterparts.length === 0) return null;
  const name = capital(part);
  const decided = (decision: RotorWear['decision']) =>
    counterparts.filter((each) => each.decision === decision);
  if (decided('replace').length > 0) return `${name}: replace both.`;
  if (decided('machine').length > 0) return `${name}: machine both.`;
  const unmeasured = decided('measure');
  if (unmeasured.length > 0) {
    return `${name}: measure ${unmeasured.length === counterparts.length ? 'both' : `the ${itemAt(unmeasured, 0).side}`}.`;
  }
  const then = minOf(counterparts.map(({ marginThenMm }) => marginThenMm));
  const margin = minOf(counterparts.map(({ marginMm }) => marginMm));
  const isNarrow = counterparts.some(({ reason }) => reason.code === 'narrow-margin');
  const watch = isNarrow ? ', so measure at every visit' : '';
  if (then !== null && then < AT_LIMIT_MM) {
    const limit = part === 'rotors' ? 'at discard' : 'at the maximum';
    return `${name}: keep for now; ${limit} by the time the ${linings} are due, so measure at every visit.`;
  }
  if (then !== null) {
    return `${name}: keep; ${readingInWords(then)} ${EXTREMES[part]} when the ${linings} are due${watch}.`;
  }
  return margin === null
    ? `${name}: keep; not measured since they were fitted.`
    : `${name}: keep; ${readingInWords(margin)} ${EXTREMES[part]}${watch}.`;
}

function minOf(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length > 0 ? Math.min(...known) : null;
}
